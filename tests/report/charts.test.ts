import { describe, expect, it } from 'vitest';
import { exportReports, type PagedReport } from '../../src/commands/reports/export-reports.ts';
import { costs } from '../../src/commands/reports/costs.ts';
import { fairs } from '../../src/commands/reports/fairs.ts';
import { firings } from '../../src/commands/reports/firings.ts';
import { losses } from '../../src/commands/reports/losses.ts';
import { materials } from '../../src/commands/reports/materials.ts';
import type { Report } from '../../src/commands/reports/show.ts';
import { openFound, type OpenedBook } from '../../src/commands/studio/open.ts';
import { isRefusal } from '../../src/commands/world.ts';
import { drawnSize } from '../../src/render/shown.ts';
import type { Chart } from '../../src/report/page.ts';
import type { Cell, Row } from '../../src/report/table.ts';
import { EXAMPLE, EXAMPLE_DAY, runCommand } from '../helpers/studio-commands.ts';

const SPAN = { from: '2025-07-01', to: EXAMPLE_DAY };

type ChartedReport = Pick<PagedReport, 'name' | 'table' | 'charts'>;

async function opened(): Promise<OpenedBook> {
  const found = await openFound({ folder: EXAMPLE, asOf: EXAMPLE_DAY, store: undefined });
  if (isRefusal(found)) throw new Error(found.refused);
  return found;
}

async function allReports(of: OpenedBook): Promise<readonly ChartedReport[]> {
  const reports = await exportReports(of, SPAN, () => undefined);
  if (isRefusal(reports)) throw new Error(reports.refused);
  return [
    ...reports,
    await reportOf(of, 'costs-mug', { of: costs, argument: 'mug' }),
    await reportOf(of, 'load', { of: firings, argument: 'f260216py' }),
    await reportOf(of, 'fair', { of: fairs, argument: 'k251206hd' }),
    await reportOf(of, 'kaolin', { of: materials, argument: 'kaolin' }),
    await reportOf(of, 'losses-kiln', { of: losses, options: { by: 'kiln', ...SPAN } }),
    await reportOf(of, 'losses-cones', { of: losses, options: { chart: true, by: 'cone' } }),
  ];
}

/** One that an export has not: of one record, or by another option. */
async function reportOf<O extends object>(
  opened: OpenedBook,
  name: string,
  asked: { readonly of: Report<O>; readonly argument?: string; readonly options?: Partial<O> },
): Promise<ChartedReport> {
  const { of, argument, options = {} } = asked;
  const words = { argument, words: [], options };
  const table = await of.table(opened, words);
  if (isRefusal(table)) throw new Error(table.refused);
  return { name, table, charts: (await of.charts?.(opened, words, table)) ?? [] };
}

const REPORTS = await allReports(await opened());
const CHARTS = REPORTS.flatMap(({ name, table, charts }) =>
  charts.map((chart) => ({ name: `${name}: ${chart.title}`, chart, table })),
);

function chartOf(report: string, title: RegExp): Chart {
  const { charts = [] } = REPORTS.find(({ name }) => name === report) ?? {};
  return charts.find((chart) => title.test(chart.title)) ?? expect.fail(`no ${String(title)}`);
}

/** A figure as a plain number; nothing is 0. */
function figure(cell: Cell | undefined): number {
  return drawnSize(cell ?? null, { minorDigits: 2 }) ?? 0;
}

function figures({ table: { rows } }: Chart, key: string): number[] {
  return rows.map((row) => figure(row[key]));
}

interface Printed {
  readonly rows: readonly Readonly<Record<string, string | number | boolean | null>>[];
  readonly totals: Readonly<Record<string, string | number | null>>;
}

/** What the program prints of a report for others. */
async function printed(
  command: string,
  options: Record<string, string | true> = {},
): Promise<Printed> {
  const { out } = await runCommand(command, { ...options, as: 'json' });
  return JSON.parse(out) as Printed;
}

function sumOf(numbers: readonly number[]): number {
  return Math.round(numbers.reduce((sum, number) => sum + number, 0) * 100) / 100;
}

/** All keys of a chart that its drawing goes by. */
function drawnKeys({ label, value, parts = [], marks = [], bounds, ...chart }: Chart): string[] {
  const { against, count, across, named } = chart;
  const all = [label, value, ...parts, ...marks, against, count, across, named];
  return [...all, bounds?.low, bounds?.high].filter((key) => key !== undefined);
}

describe.each(CHARTS)('the chart $name', ({ chart, table }) => {
  const { table: drawn, label, parts = [], value } = chart;

  it('has a column for all that it draws, which nobody is spared', () => {
    const seen = drawn.columns.filter(({ dataOnly }) => dataOnly !== true).map(({ key }) => key);
    expect(drawnKeys(chart).filter((key) => !seen.includes(key))).toEqual([]);
    expect(drawn.rows.length).toBeGreaterThan(0);
    expect(drawn.rows.filter((row) => String(row[label] ?? '') === '')).toEqual([]);
  });

  it('draws bars no longer than their parts together', () => {
    for (const row of parts.length === 0 ? [] : drawn.rows) {
      const all = sumOf(parts.map((part) => figure(row[part])));
      expect(all, String(row[label])).toBeCloseTo(figure(row[value]), 2);
    }
  });

  it('shows only figures that stand in its report, where it is about the same', () => {
    if (drawn.report !== table.report || drawn === table) return;
    const own = table.columns.map(({ key }) => key);
    const shared = drawnKeys(chart).filter((key) => own.includes(key));
    const cells = new Set(
      [...table.rows, table.totals ?? {}].flatMap((row) => shared.map((key) => cellText(row, key))),
    );
    const strange = drawn.rows.flatMap((row) =>
      shared.map((key) => cellText(row, key)).filter((text) => !cells.has(text)),
    );
    expect(summedAnew(chart) ? [] : strange).toEqual([]);
  });
});

/**
 * Pieces of a product in all its glazes, or of a place, are told together; a month's are in the report by
 * month, a firing's in the chart of all firings.
 */
function summedAnew({ title }: Chart): boolean {
  return /^Pieces (?:of each|at each place)|by month|^Cone \w+, \w+ firings/.test(title);
}

function cellText(row: Row, key: string): string {
  const cell = row[key] ?? null;
  return `${key} ${typeof cell === 'object' ? String(cell?.toString()) : String(cell)}`;
}

describe('what charts show', () => {
  it('is what runs out within half a year, soonest first, with the days between order and end', async () => {
    const { rows } = await printed('materials');
    const soon = rows
      .filter(({ daysLeft }) => daysLeft !== null && Number(daysLeft) <= 183)
      .sort((one, other) => Number(one['daysLeft']) - Number(other['daysLeft']));
    const days = (day: unknown): number => Date.parse(String(day)) / 86_400_000;
    const chart = chartOf('materials', /^Days/);
    expect(chart.table.rows.map(({ what }) => what)).toEqual(soon.map(({ name }) => name));
    expect(figures(chart, 'lead')).toEqual(
      soon.map(({ runsOut, orderBy }) => days(runsOut) - days(orderBy)),
    );
    expect(soon.length).toBeGreaterThan(3);
    expect(chart.span).toContain(`${rows.length - soon.length} more`);
  });

  it('is each month beside the one twelve months before', async () => {
    const months = await printed('income', { by: 'month', from: '2024-07-01', to: EXAMPLE_DAY });
    const net = new Map(months.rows.map(({ item, net }) => [item, Number(net)]));
    const chart = chartOf('income', /^Net income by month, beside/);
    expect(chart.table.rows).toHaveLength(12);
    for (const row of chart.table.rows) {
      const [year = '', month = ''] = String(row['item']).split('-');
      expect(figure(row['net'])).toBe(net.get(`${year}-${month}`));
      expect(figure(row['before'])).toBe(net.get(`${Number(year) - 1}-${month}`) ?? 0);
    }
  });

  it('is what each item left for an hour against how many were sold', async () => {
    const { rows } = await printed('income', SPAN);
    const timed = rows.filter(({ marginPerHour, count }) => marginPerHour !== null && count !== 0);
    const chart = chartOf('income', /^What to make more of/);
    expect(chart.table.rows.map(({ item }) => item)).toEqual(timed.map(({ item }) => item));
    expect(figures(chart, 'count')).toEqual(timed.map(({ count }) => count));
  });

  it('is what an hour was left in each month', async () => {
    const { rows } = await printed('income', { by: 'month', ...SPAN });
    const chart = chartOf('income', /^Left for an hour/);
    expect(chart.table.rows.map(({ item }) => item)).toEqual(rows.map(({ item }) => item));
    for (const [at, { marginPerHour }] of rows.entries())
      expect(figures(chart, 'marginPerHour')[at]).toBeCloseTo(Number(marginPerHour), 6);
  });

  it('is the largest expense first, and all of them together', () => {
    const { table } = chartOf('income', /^Expenses/);
    const amounts = table.rows.map(({ amount }) => figure(amount));
    expect(amounts).toEqual(amounts.toSorted((one, other) => other - one));
    expect(amounts.length).toBeGreaterThan(5);
    expect(sumOf(amounts)).toBe(figure(table.totals?.['amount']));
  });

  it('is what a firing cost, and a piece in it, month by month', async () => {
    const { rows } = await printed('firings', SPAN);
    const chart = chartOf('firings', /^Cost of a firing/);
    for (const { month, perFiring } of chart.table.rows) {
      const those = rows.filter(({ date }) => String(date).startsWith(String(month)));
      const all = sumOf(those.map(({ total }) => Number(total)));
      expect(figure(perFiring)).toBeCloseTo(all / those.length, 6);
    }
  });

  it('is each firing beside its limits, and the one out of line by name', async () => {
    const { rows } = await printed('losses', { chart: true, ...SPAN });
    const glaze = rows.filter(({ kind }) => kind === 'glaze');
    const chart = chartOf('losses-chart', /glaze/);
    expect(chart.table.rows.map(({ date }) => date)).toEqual(glaze.map(({ date }) => date));
    expect(chart.table.rows.map(({ out }) => out).filter(Boolean)).toEqual(
      glaze.filter(({ outOfLine }) => outOfLine !== null).map(({ firing }) => firing),
    );
    expect(chart.table.rows.map(({ out }) => out)).toContain('f260216py');
    // A kind of firing that lost nothing has nothing to show.
    expect(REPORTS.find(({ name }) => name === 'losses-chart')?.charts).toHaveLength(2);
  });

  it('is every piece once, by stage, by product and by place', async () => {
    const { rows } = await printed('pieces', { by: 'place' });
    const all = sumOf(rows.map(({ count }) => Number(count)));
    expect(sumOf(figures(chartOf('pieces', /each stage/), 'pieces'))).toBe(all);
    expect(sumOf(figures(chartOf('pieces', /each product/), 'pieces'))).toBe(all);
    expect(sumOf(figures(chartOf('pieces-place', /each place/), 'count'))).toBe(all);
  });

  it('is the cost of a piece beside its price and the floor of the dearest channel', async () => {
    const { rows } = await printed('costs', SPAN);
    const chart = chartOf('costs', /^What one good piece costs/);
    expect(chart.marks).toEqual(['price', 'floorConsignment']);
    for (const [at, row] of rows.slice(0, 20).entries()) {
      const parts = ['energy', 'wear', 'supplies'].map((key) => Number(row[key]));
      expect(figures(chart, 'firing')[at]).toBeCloseTo(sumOf(parts), 2);
      expect(figures(chart, 'floorConsignment')[at]).toBe(Number(row['floorConsignment']));
    }
  });

  it('is what one product is made of, and what each of its prices leaves', async () => {
    const { out } = await runCommand('costs', { as: 'json' }, { argument: 'mug' });
    const { rows, totals } = JSON.parse(out) as Printed;
    const of = (part: RegExp): Printed['rows'][number][] =>
      rows.filter((row) => part.test(String(row['part'])));
    const made = chartOf('costs-mug', /made of/);
    expect(sumOf(figures(made, 'cost'))).toBeCloseTo(Number(totals['cost']), 2);
    const left = chartOf('costs-mug', /leaves/);
    expect(figures(left, 'margin').map((margin) => margin.toFixed(6))).toEqual(
      of(/sold for/).map(({ margin }) => Number(margin).toFixed(6)),
    );
  });

  it('is every pot of a load once, and a chart for a group with a firing out of line first', () => {
    const [line] = chartOf('load', /came out/).table.rows;
    expect(Number(line?.['in'])).toBeGreaterThan(0);
    const charts = REPORTS.find(({ name }) => name === 'losses-cones')?.charts ?? [];
    expect(charts[0]?.title).toBe('Cone 6, glaze firings, each beside its limits');
    const isOut = charts.map(({ table }) => table.rows.some(({ out }) => out !== null));
    expect(isOut).toEqual(isOut.toSorted((one, other) => Number(other) - Number(one)));
    expect(isOut[0]).toBe(true);
  });
});

describe('the months of a tax summary', () => {
  it('add up to its income less its expenses', async () => {
    const { out } = await runCommand('quarter', { as: 'html' }, { argument: '2025' });
    const { rows } = await printedQuarter('2025');
    const total = (item: string): number =>
      Number(rows.find((row) => row['item'] === item)?.['amount']);
    const left = [...out.matchAll(/^<tr[^>]*><th[^>]*>(2025-\d\d)<\/th>.*?<td[^>]*>(-?[\d,.]+)/gm)];
    expect(left).toHaveLength(12);
    const all = sumOf(left.map(([, , amount = '']) => Number(amount.replaceAll(',', ''))));
    expect(all).toBe(sumOf([total('income'), -total('expenses')]));
  });
});

async function printedQuarter(argument: string): Promise<Printed> {
  const { out } = await runCommand('quarter', { as: 'json' }, { argument });
  return JSON.parse(out) as Printed;
}
