/** Any two reports that show the same thing show the same amount of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { INCOME_GROUPS } from '../../src/groups.ts';
import { addDays, yearOf } from '../../src/number/date.ts';
import { add, less, total, type Money } from '../../src/number/money.ts';
import { USAGE_WINDOW } from '../../src/reckon/stock/depletion.ts';
import { dayReport } from '../../src/report/day/day.ts';
import { materialOf, restOf, totalOf } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { taxPeriod, type TaxPeriod } from '../../src/reckon/tax/tax-period.ts';
import { fairTable, fairsTable } from '../../src/report/fairs.ts';
import { firingLoad, firingsTable } from '../../src/report/firings.ts';
import { galleriesTable, galleryHistory } from '../../src/report/galleries.ts';
import { galleryTable } from '../../src/report/gallery.ts';
import { incomeTable } from '../../src/report/income.ts';
import { materialHistory, materialValueTable, materialsTable } from '../../src/report/materials.ts';
import { piecesTable } from '../../src/report/pieces.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { summaryOf } from '../helpers/quarter.ts';
import { filesOf } from './support/broken.ts';
import { FIRST_DAY, dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

interface Studio {
  readonly book: Book;
  readonly flows: Flows;
  readonly asOf: Day;
  /** A day at which spans are cut. */
  readonly cut: Day;
}

/** Every law is held against the same studios. */
const known = new Map<string, Promise<Studio>>();

function studioOf(plan: StudioPlan, when: number): Promise<Studio> {
  const key = JSON.stringify([plan, when]);
  const found = known.get(key) ?? reckoned(plan, when);
  known.set(key, found);
  return found;
}

async function reckoned(plan: StudioPlan, when: number): Promise<Studio> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  return { book, asOf, flows: flow(book, asOf), cut: dayIn(plan, when) };
}

function law(look: (studio: Studio) => void): () => Promise<void> {
  const plans = studioPlan({ days: 150, breaks: 'some' });
  const property = fc.asyncProperty(plans, part, async (plan, when) => {
    look(await studioOf(plan, when));
  });
  return () => holds(property, 2);
}

function moneyIn(row: Row | undefined, ...keys: readonly string[]): Money {
  const cells = keys.map((key) => row?.[key]);
  return total(cells.filter((cell) => typeof cell === 'bigint'));
}

/** The money of a row, by its columns. */
function moneyOf({ columns }: Table, row: Row | undefined): Record<string, Money> {
  const keys = columns.filter(({ type }) => type === 'money').map(({ key }) => key);
  return Object.fromEntries(keys.map((key) => [key, moneyIn(row, key)]));
}

/** The columns of several rows, each added up. */
function added(table: Table, rows: readonly (Row | undefined)[]): Record<string, Money> {
  const keys = Object.keys(moneyOf(table, undefined));
  return Object.fromEntries(keys.map((key) => [key, total(rows.map((row) => moneyIn(row, key)))]));
}

function rowBy(table: Table, key: string, value: string): Row | undefined {
  return table.rows.find((row) => row[key] === value);
}

describe('firings', () => {
  const SHARED = ['energyCost', 'wearCost', 'suppliesCost', 'labourCost', 'total'];
  const PARTS = SHARED.slice(0, -1);

  it(
    'cost the same in the list, in any other span, and line by line',
    law(({ book, flows, asOf, cut }) => {
      const all = firingsTable(book, flows, { to: asOf });
      const later = firingsTable(book, flows, { from: cut, to: asOf });
      const soon = firingsTable(book, flow(book, cut), { to: cut });
      for (const row of [...later.rows, ...soon.rows])
        expect(moneyOf(all, row)).toEqual(
          moneyOf(all, rowBy(all, 'firing', String(row['firing']))),
        );
      for (const row of all.rows) {
        const load = firingLoad(book, flows, String(row['firing']));
        if (!load) throw new Error('a firing without a load');
        expect(SHARED.map((key) => moneyIn(load.totals, key))).toEqual(
          SHARED.map((key) => moneyIn(row, key)),
        );
        if (load.rows.length > 0)
          expect(added(load, load.rows)).toEqual(moneyOf(load, load.totals));
        for (const one of [row, ...load.rows])
          expect(moneyIn(one, ...PARTS)).toBe(moneyIn(one, 'total'));
      }
      expect(moneyIn(all.totals, ...PARTS)).toBe(moneyIn(all.totals, 'total'));
    }),
  );

  it(
    'of the parts of a span add up to those of the whole',
    law(({ book, flows, asOf, cut }) => {
      const spans = [{ to: addDays(cut, -1) }, { from: cut, to: asOf }];
      const parts = spans.map((span) => firingsTable(book, flows, span).totals);
      const whole = firingsTable(book, flows, { to: asOf });
      expect(added(whole, parts)).toEqual(moneyOf(whole, whole.totals));
    }),
  );
});

describe('fairs', () => {
  it(
    'bring in the same in the list and one by one',
    law(({ book, flows, asOf, cut }) => {
      const all = fairsTable(book, flows, { to: asOf });
      for (const row of all.rows) {
        const fair = fairTable(book, flows, String(row['fair']))?.totals;
        const net = less(moneyIn(row, 'gross'), moneyIn(row, 'discounts', 'returns'));
        const cost = moneyIn(row, 'cost', 'booth', 'travel', 'other', 'broken');
        expect(moneyIn(fair, 'net')).toBe(net);
        expect(moneyIn(fair, 'fees')).toBe(moneyIn(row, 'fees'));
        expect(moneyIn(fair, 'cost')).toBe(cost);
        expect(moneyIn(fair, 'profit')).toBe(moneyIn(row, 'profit'));
        expect(less(net, moneyIn(row, 'fees'), cost)).toBe(moneyIn(row, 'profit'));
      }
      const spans = [{ to: addDays(cut, -1) }, { from: cut, to: asOf }];
      const parts = spans.map((span) => fairsTable(book, flows, span).totals);
      expect(added(all, parts)).toEqual(moneyOf(all, all.totals));
    }),
  );
});

describe('pieces', () => {
  it(
    'cost the same by product, by place, and lot by lot',
    law(({ book, flows }) => {
      const [byProduct, byPlace] = [
        piecesTable(book, flows, 'product'),
        piecesTable(book, flows, 'place'),
      ];
      const keyOf = ({ product, glaze }: Row): string => `${String(product)} ${String(glaze)}`;
      for (const row of byProduct.rows) {
        const places = byPlace.rows.filter((each) => keyOf(each) === keyOf(row));
        expect(total(places.map((each) => moneyIn(each, 'cost')))).toBe(moneyIn(row, 'cost'));
      }
      const lots = [...flows.ware.lots.values()];
      const costs = lots.flatMap(({ stages, shelf, inKiln }) => [
        ...[...stages, shelf].map((batch) => restOf(batch).cost),
        ...inKiln.map(({ cost }) => cost),
      ]);
      const all = total(costs.map(totalOf));
      for (const table of [byProduct, byPlace]) expect(moneyIn(table.totals, 'cost')).toBe(all);
      const where = materialValueTable(book, flows, undefined);
      const ware = where.rows.filter(({ part: of }) =>
        /^(?:greenware|bisqueware|in the kiln|finished ware)/.test(String(of)),
      );
      expect(ware).toHaveLength(5);
      expect(total(ware.map((row) => moneyIn(row, 'wentTo')))).toBe(total(costs.map(materialOf)));
    }),
  );
});

describe('materials', () => {
  it(
    'are worth the same in the list, in their histories, and where value is',
    law(({ book, flows }) => {
      const all = materialsTable(book, flows, 90);
      const lastOf = (id: string): Row | undefined => materialHistory(book, flows, id)?.rows.at(-1);
      for (const row of all.rows) {
        const last = lastOf(String(row['material']));
        expect(moneyIn(row, 'value')).toBe(moneyIn(last, 'value'));
        expect(String(last?.['onHand'] ?? 0)).toBe(String(row['onHand']));
      }
      const where = materialValueTable(book, flows, undefined);
      const standing = (place: string): Money => moneyIn(rowBy(where, 'part', place), 'wentTo');
      expect(standing('materials in stock')).toBe(moneyIn(all.totals, 'value'));
      const buckets = [...book.recipes.keys()].map((id) => moneyIn(lastOf(id), 'value'));
      expect(standing('glaze buckets and mixed clay')).toBe(total(buckets));
      expect(moneyIn(where.totals, 'wentTo')).toBe(moneyIn(where.totals, 'cameFrom'));
    }),
  );

  it(
    'are to be ordered by the list where the day says so, and are named in the same order',
    law(({ book, flows }) => {
      const around = { errors: 0, warnings: 0, uncommitted: 0, typed: () => 'next' };
      const day = dayReport(book, flows, around).rows;
      const toOrder = day.filter(({ section }) => section === 'to-order');
      const all = materialsTable(book, flows, USAGE_WINDOW);
      const listed = all.rows.filter(({ isToOrder }) => isToOrder === true);
      expect(listed.map(({ material }) => material)).toEqual(toOrder.map(({ what }) => what));
      const said = all.verdict?.sentence ?? '';
      expect(said.startsWith('Order ')).toBe(toOrder.length > 0);
      expect(said).toContain(toOrder[0] ? String(toOrder[0]['name']) : '');
    }),
  );

  it(
    'stand at the end of a span where they stand at the start of the next, and parts add up',
    law(({ book, flows, cut }) => {
      const eve = flow(book, addDays(cut, -1));
      const [before, after, whole] = [
        materialValueTable(book, eve, undefined),
        materialValueTable(book, flows, { from: cut, eve }),
        materialValueTable(book, flows, undefined),
      ];
      const stands = before.rows.filter(({ side }) => side === 'stands');
      const opening = moneyIn(rowBy(after, 'part', 'opening stock'), 'cameFrom');
      expect(opening).toBe(total(stands.map((row) => moneyIn(row, 'wentTo'))));
      const flowing = whole.rows.filter(({ side, part: of }) => side === 'left' || of === 'bought');
      for (const { part: of } of flowing) {
        const parts = [before, after].map((table) => rowBy(table, 'part', String(of)));
        const row = rowBy(whole, 'part', String(of));
        expect({ of, ...added(whole, parts) }).toEqual({ of, ...moneyOf(whole, row) });
      }
    }),
  );
});

describe('galleries', () => {
  it(
    'have sold and hold the same in the list and delivery by delivery',
    law(({ book, flows }) => {
      for (const row of galleriesTable(book, flows).rows) {
        const gallery = String(row['gallery']);
        const now = galleryTable(book, flows, gallery);
        expect(moneyIn(now?.totals, 'value')).toBe(moneyIn(row, 'value'));
        expect(now?.totals?.['here']).toBe(row['here']);
        const one = galleryHistory(book, flows, gallery);
        const keys = ['value', 'takings', 'commission', 'owedForMissing'];
        for (const key of keys) {
          expect(moneyIn(one?.totals, key)).toBe(moneyIn(row, key));
          expect(total((one?.rows ?? []).map((each) => moneyIn(each, key)))).toBe(
            moneyIn(row, key),
          );
        }
      }
    }),
  );
});

describe('income', () => {
  it(
    'of a quarter is the same by every group, in the tax summary and in a review',
    law((studio) => {
      for (const period of quartersOf(studio)) {
        const { book, flows, asOf } = studio;
        const tables = INCOME_GROUPS.filter((by) => by !== 'class').map((by) =>
          incomeTable(book, flows, { by, period }),
        );
        const [first] = tables;
        if (!first) throw new Error('no groups');
        for (const { totals } of tables)
          expect(moneyOf(first, totals)).toEqual(moneyOf(first, first.totals));
        const { basis } = book.studio;
        const summary = summaryOf(book, {
          period: period.name,
          asOf,
          ...(basis === undefined ? {} : { basis }),
        });
        const amount = (item: string): Money => moneyIn(rowBy(summary, 'item', item), 'amount');
        expect(amount('income')).toBe(moneyIn(first.totals, 'net'));
        expect(add(amount('expense.card-fees'), amount('expense.gallery-commissions'))).toBe(
          moneyIn(first.totals, 'fees'),
        );
      }
    }),
  );
});

/** The quarters that a studio's days fall in. */
function quartersOf({ book, asOf }: Studio): TaxPeriod[] {
  const { yearStarts } = book.studio;
  const years = new Set([FIRST_DAY, asOf].map((day) => yearOf(day, yearStarts)));
  const names = [...years].flatMap((year) => ['Q1', 'Q2', 'Q3', 'Q4'].map((q) => `${year}-${q}`));
  return names
    .flatMap((name) => taxPeriod(name, yearStarts) ?? [])
    .filter(({ from, to }) => from <= asOf && to >= FIRST_DAY);
}
