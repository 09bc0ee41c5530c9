/** Losses: rows add up to the totals, and every rate lies in its interval. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { LOSS_GROUPS, type LossGroup } from '../../src/groups.ts';
import { ONE, ZERO, decimal, divide, isDecimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import {
  lossChartTable,
  lossChartsTable,
  type ChartedGroup,
} from '../../src/report/loss-charts.ts';
import { lossesTable } from '../../src/report/losses.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const COUNTS = ['in', 'first', 'second', 'lost'] as const;

/** Groups of which every load line has just one; a line may have several recipes and causes. */
const WHOLE: readonly LossGroup[] = [
  ...(['firing', 'kiln', 'product', 'cone', 'month', 'maker', 'clay-lot'] as const),
];

function counts(rows: readonly Row[], keys: readonly string[] = COUNTS): Row {
  const sum = (key: string): number => rows.reduce((all, row) => all + Number(row[key]), 0);
  return Object.fromEntries(keys.map((key) => [key, sum(key)]));
}

/** Rows of first firings: makings and refires stand apart. */
function firings({ rows }: Table): Row[] {
  return rows.filter(({ firing, group }) => !/making|refire/.test(String(firing ?? group)));
}

/** The end of the keys of what a stage has of it: `bisqueIn` has that of `in`. */
function ofStage(of: string): string {
  return of.slice(0, 1).toUpperCase() + of.slice(1);
}

interface Case {
  readonly book: Book;
  readonly chartOf: (group: ChartedGroup) => Table;
  readonly by: (group: LossGroup) => Table;
  readonly chart: Table;
}

const cases = fc.record({
  plan: studioPlan({ breaks: 'some' }),
  when: part,
});

async function caseOf(
  { plan, when }: { plan: Parameters<typeof growStudio>[0]; when: number },
  seed?: number,
): Promise<Case> {
  const { book } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
  const asOf = dayIn(plan, 1);
  const span = { from: dayIn(plan, when / 2), to: dayIn(plan, (1 + when) / 2) };
  const flows = flow(book, asOf);
  return {
    book,
    by: (group) => lossesTable(book, flows, { by: group, span }),
    chart: lossChartTable(book, flows, span),
    chartOf: (group) => lossChartsTable(book, flows, { by: group, span }),
  };
}

describe('losses', () => {
  it('by any group of all that was fired add up to the totals', async () => {
    const property = fc.asyncProperty(
      cases,
      fc.option(fc.nat(), { nil: undefined }),
      async (one, seed) => {
        const { by, chart } = await caseOf(one, seed);
        const totals = counts([by('firing').totals ?? {}]);
        for (const group of WHOLE) expect(counts(firings(by(group))), group).toEqual(totals);
        for (const group of LOSS_GROUPS) expect(counts([by(group).totals ?? {}])).toEqual(totals);
        if (seed === undefined)
          expect(counts(chart.rows, ['in', 'lost'])).toEqual({
            in: totals['in'],
            lost: totals['lost'],
          });
        const byCause = counts(firings(by('cause')), ['faults', 'second', 'lost']);
        const faults = Number(totals['second']) + Number(totals['lost']);
        if (seed === undefined) expect(byCause['faults']).toBe(faults);
        // A spoilt line may have more causes than pieces that need one.
        else expect(byCause['faults']).toBeGreaterThanOrEqual(faults);
        expect(Number(byCause['lost'])).toBeLessThanOrEqual(Number(totals['lost']));
        expect(Number(byCause['second'])).toBeLessThanOrEqual(Number(totals['second']));
      },
    );
    await holds(property, 5);
  });

  it('by product add up stage by stage, in the totals too', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const { by } = await caseOf(one);
      const [stages, products] = [by('firing'), by('product')];
      const { totals = {} } = products;
      for (const of of ['in', 'first', 'second', 'lost', 'lossRate']) {
        const keys = products.columns.filter(({ key }) => key.endsWith(ofStage(of)));
        expect(keys.map(({ key }) => String(totals[key]))).toEqual(
          stages.rows.map((row) => String(row[of])),
        );
        if (of === 'lossRate') continue;
        const sums = counts(
          products.rows.map((row) =>
            Object.fromEntries(keys.map(({ key }) => [key, row[key] ?? 0])),
          ),
          keys.map(({ key }) => key),
        );
        expect(Object.values(sums)).toEqual(stages.rows.map((row) => row[of]));
      }
    });
    await holds(property, 3);
  });

  it('are charted by any group as they are counted by it', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const { by, chartOf } = await caseOf(one);
      for (const group of ['kiln', 'recipe', 'cone', 'maker', 'clay-lot'] as const) {
        const line = ({ group: name, firing, in: all, lost }: Row): string =>
          [name, firing, all, lost].map(String).join(' ');
        expect(chartOf(group).rows.map(line).sort()).toEqual(firings(by(group)).map(line).sort());
      }
    });
    await holds(property, 3);
  });

  it('have rates that are their counts, and lie in their intervals', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const { by, chart } = await caseOf(one);
      const tables = LOSS_GROUPS.map(by);
      for (const row of tables.flatMap(({ rows, totals = {} }) => [...rows, totals])) {
        const rates = [row['low'], row['faultRate'] ?? row['lossRate'], row['high']];
        if (row['in'] === 0) expect(rates.every((rate) => rate === null)).toBe(true);
        else expectRates(row, rates);
      }
      for (const row of chart.rows) {
        expect(inOrder([ZERO, row['lower'], row['upper'], ONE])).toBe(true);
        const inside = inOrder([row['lower'], row['lossRate'], row['upper']]);
        expect(row['outOfLine'] === null, JSON.stringify(row)).toBe(inside);
      }
    });
    await holds(property, 4);
  });
});

type Cells = readonly (Row[string] | undefined)[];

function expectRates(row: Row, rates: Cells): void {
  const isByCause = 'faults' in row;
  const faults = isByCause ? row['faults'] : Number(row['second']) + Number(row['lost']);
  expect(String(rates[1])).toBe(share(row, isByCause ? 'faults' : 'lost'));
  if (!isByCause) expect(String(row['secondRate'])).toBe(share(row, 'second'));
  expect(inOrder([ZERO, ...rates, ONE]), JSON.stringify(row)).toBe(true);
  expect(Number(row['in'])).toBe(Number(row['first']) + Number(faults));
}

function share(row: Row, key: string): string {
  return divide(decimal(Number(row[key])), decimal(Number(row['in']))).toString();
}

/** Whether none of the figures is less than the one before it. */
function inOrder(figures: readonly (Row[string] | undefined)[]): boolean {
  return figures.every((figure, at) => {
    const before = figures[at - 1];
    return isDecimal(figure) && (at === 0 || (isDecimal(before) && before.lte(figure)));
  });
}
