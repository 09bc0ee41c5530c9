/** One kiln's log: parts fitted, money spent on it, and each firing beside those of its kind. */
import { recordsNaming, type DaysUpTo } from '../../among.ts';
import type { Book, Day, Firing, Kiln, Spent } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { counted, sentences } from '../../in-words.ts';
import type { OutOfLine } from '../../number/individuals.ts';
import { LEAST_CHARTED } from '../../number/individuals.ts';
import { total } from '../../number/money.ts';
import { once } from '../../once.ts';
import { booked } from '../../reckon/booked.ts';
import { kilnLog, type KilnChart, type LoggedFiring } from '../../reckon/kilns/kiln-log.ts';
import type { Unit } from '../../number/unit.ts';
import { compareTexts } from '../../text-order.ts';
import { backed, spanInWords, tableHead, type BackedRow } from '../head.ts';
import type { Chart } from '../page.ts';
import type { Column, Table, Verdict } from '../table.ts';
import { DRIFT_CAUTION } from './kilns.ts';

const LOG_COLUMNS = (unit: Unit): readonly Column[] => [
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'record', title: 'Record', type: 'id' },
  { key: 'what', title: 'What', type: 'text' },
  { key: 'cone', title: 'Cone', type: 'text', drop: 2 },
  { key: 'coneSeen', title: 'Cone seen', type: 'text', drop: 3 },
  { key: 'peak', title: 'Peak', type: 'text', drop: 5 },
  { key: 'hours', title: 'Hours', type: 'quantity', places: 1 },
  { key: 'energy', title: 'Energy', type: 'quantity', places: 1, unit },
  { key: 'outOfLine', title: 'Out of line', type: 'text', drop: 1 },
  { key: 'spent', title: 'Spent', type: 'money', drop: 4 },
];

/** The log of a kiln by date. */
export function kilnTable(book: Book, kiln: Kiln, { asOf, days }: KilnAsked): Table {
  const { firings, charts, unit } = kilnLog(book, kiln, days);
  const spent = spentOn(book, kiln, days);
  const rows = [
    ...fittingRows(kiln, days),
    ...firings.map((each) => firingRow(each, charts)),
    ...spent.map((each) => spentRow(book, each)),
  ].sort(({ row: one }, { row: other }) =>
    compareTexts(String(one['date']), String(other['date'])),
  );
  return {
    report: 'kilns',
    title: `Log of ${kiln.name}, ${spanInWords(days)}`,
    ...tableHead(book, asOf),
    columns: LOG_COLUMNS(unit),
    totals: { spent: total(spent.map(({ amount }) => booked(book, amount))) },
    ...backed(rows),
    verdict: logVerdict(charts),
    alerts: {
      column: 'outOfLine',
      of: rows.map(({ row }) => ((row['outOfLine'] ?? '') === '' ? undefined : 'now')),
    },
    notes: sentences(
      ...charts.map(chartText),
      charts.some(({ values }) => values.some(({ found }) => found !== undefined)) && DRIFT_CAUTION,
      'Limits: mean ± 3 × mean moving range ÷ 1.128; eight on one side of the mean are a run.',
    ),
  };
}

/** Whether the latest firing of each kind is as usual; undefined where there are too few to say. */
function logVerdict(charts: readonly KilnChart[]): Verdict | undefined {
  const told = charts.filter(({ chart }) => chart !== undefined);
  if (told.length === 0) return undefined;
  const odd = told.flatMap(({ kind, of, values }) => {
    const found = values.at(-1)?.found;
    return found === undefined ? [] : [`${of} of ${kind} firings (${FOUND_WORDS[found]})`];
  });
  const energies = told.filter(({ of }) => of === 'energy').slice(0, 3);
  const figures = energies.map(({ kind, unit, values }) => ({
    label: `Energy, last ${kind}`,
    column: { type: 'quantity', places: 1, unit } as const,
    cell: values.at(-1)?.value ?? null,
  }));
  const sentence =
    odd.length === 0
      ? 'The latest firings are as usual in energy and hours.'
      : `Out of line at the latest firing: ${listed(odd)}.`;
  return { sentence, figures };
}

/** The day that the kiln is looked at, and the days of its log. */
interface KilnAsked {
  readonly asOf: Day;
  readonly days: DaysUpTo;
}

/** Parts that were fitted or taken out; a new one in place of the old is told once. */
function fittingRows({ id, wear = [] }: Kiln, { from = '', to }: DaysUpTo): BackedRow[] {
  const fitted = new Set(wear.map(({ part, fitted: date }) => `${part} ${date ?? ''}`));
  const told = wear.flatMap(({ part, fitted: date, replaced }) => [
    { date, what: `${part} fitted` },
    ...(fitted.has(`${part} ${replaced ?? ''}`)
      ? []
      : [{ date: replaced, what: `${part} taken out` }]),
  ]);
  return told
    .filter(({ date }) => date !== undefined && from <= date && date <= to)
    .map(({ date, what }) => ({ row: { date, record: id, what }, behind: [id] }));
}

function firingRow(
  { firing, energy, hours }: LoggedFiring,
  charts: readonly KilnChart[],
): BackedRow {
  const { id, date, kind, cone, coneSeen, peak } = firing;
  const outOfLine = charts.flatMap((chart) => outOfLineText(chart, firing)).join('; ');
  const row = { date, record: id, what: kind, cone, coneSeen, peak, hours, energy, outOfLine };
  return { row, behind: [id] };
}

const FOUND_WORDS: Readonly<Record<OutOfLine, string>> = {
  above: 'above its limit',
  below: 'below its limit',
  'run-above': 'run above the mean',
  'run-below': 'run below the mean',
};

function outOfLineText({ of, values }: KilnChart, firing: Firing): string[] {
  const found = values.find((each) => each.firing === firing)?.found;
  return found === undefined ? [] : [`${of} ${FOUND_WORDS[found]}`];
}

/** What was spent on its parts and repairs in the days. */
function spentOn(book: Book, { id }: Kiln, { from = '', to }: DaysUpTo): Spent[] {
  return [...recordsNaming(book.spent, new Set([id]))].filter(
    ({ kiln, date }) => kiln === id && from <= date && date <= to,
  );
}

function spentRow(book: Book, { id, date, note, to, amount }: Spent): BackedRow {
  const what = `spent: ${note ?? to}`;
  return { row: { date, record: id, what, spent: booked(book, amount) }, behind: [id] };
}

/** `glaze, hours: mean 8.2 h, limits 7.1 to 9.4, 38 firings.`. */
function chartText({ kind, of, unit, values, chart }: KilnChart): string {
  const head = `${kind}, ${of}: `;
  if (!chart)
    return `${head}${counted(values.length, 'firing')}, too few to say anything (${LEAST_CHARTED}).`;
  const { centre, limits } = chart;
  const [low, high] = [limits.lower.toFixed(1), limits.upper.toFixed(1)];
  return `${head}mean ${centre.toFixed(1)} ${unit}, limits ${low} to ${high}, ${counted(values.length, 'firing')}.`;
}

/** A course of each figure of each kind, between its limits; what is out of line is named. */
export function kilnCharts(book: Book, kiln: Kiln, { asOf, days }: KilnAsked): Chart[] {
  const { charts } = kilnLog(book, kiln, days);
  return charts
    .filter(({ values }) => values.length > 1)
    .map((chart) => ({
      shape: 'control',
      title: chartTitle(chart),
      named: 'out',
      span: spanInWords(days),
      table: { ...tableHead(book, asOf), ...chartedTable(chart) },
      label: 'date',
      value: 'value',
      bounds: { low: 'lower', high: 'upper' },
    }));
}

function chartTitle({ kind, of, unit }: KilnChart): string {
  return of === 'hours' ? `Hours of ${kind} firings` : `Energy of ${kind} firings, ${unit}`;
}

function chartedTable(
  chart: KilnChart,
): Omit<Table, 'studio' | 'asOf' | 'currency' | 'minorDigits'> {
  const { values, chart: limits } = chart;
  const figure = { type: 'quantity', places: 1 } as const;
  return {
    report: 'kilns',
    title: chartTitle(chart),
    columns: [
      { key: 'date', title: 'Date', type: 'date' },
      { key: 'value', title: chart.of === 'hours' ? 'Hours' : 'Energy', ...figure },
      { key: 'lower', title: 'Lower limit', ...figure },
      { key: 'upper', title: 'Upper limit', ...figure },
      { key: 'out', title: 'Out of line', type: 'text' },
    ],
    rows: values.map(({ firing, value, found }) => ({
      date: firing.date,
      value,
      lower: limits?.limits.lower ?? null,
      upper: limits?.limits.upper ?? null,
      out: found === 'above' || found === 'below' ? firing.id : null,
    })),
    notes: [],
    behind: once(() => values.map(({ firing }) => [firing.id])),
  };
}
