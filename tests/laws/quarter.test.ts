/** The tax summary adds up: quarters to the year, lines to the profit, cash to accrual, and not a cent is lost. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { yearOf } from '../../src/number/date.ts';
import { NO_MONEY, less, opposite, total, type Money } from '../../src/number/money.ts';
import { feeOfAdvance } from '../../src/reckon/sales/advance.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { BASIS_ITEMS } from '../../src/reckon/tax/tax-bases.ts';
import { STANDING } from '../../src/reckon/stock/where.ts';
import { STANDING_WORDS } from '../../src/report/goods-words.ts';
import type { Table } from '../../src/report/table.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { summaryOf, type Wanted } from '../helpers/quarter.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const SHEETS = ['us-schedule-c-2025', 'uk-sa103s', 'plain'] as const;

const cases = fc.tuple(
  studioPlan({ breaks: 'some' }),
  fc.option(fc.nat(), { nil: undefined }),
  fc.record({
    sheet: fc.constantFrom(...SHEETS),
    basis: fc.constantFrom('cash', 'accrual'),
    yearStarts: fc.constantFrom('01-01', '04-06', '10-15', undefined),
  }),
);

type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never;

interface Summaries {
  readonly book: Book;
  readonly year: Table;
  readonly quarters: readonly Table[];
}

/** The summaries of the business year that the studio's last day is in, and of its four quarters. */
async function summariesOf([plan, seed, asked]: Case): Promise<Summaries> {
  const { asOf } = growStudio(plan);
  const { book: read } = await openFiles(filesOf(plan, seed), asOf);
  const { yearStarts = read.studio.yearStarts } = asked;
  const studio = { ...read.studio, ...(yearStarts === undefined ? {} : { yearStarts }) };
  const book = { ...read, studio };
  const year = yearOf(asOf, yearStarts);
  const wanted = { ...asked, asOf } satisfies Omit<Wanted, 'period'>;
  const periods = ['Q1', 'Q2', 'Q3', 'Q4'].map((quarter) => `${year}-${quarter}`);
  return {
    book,
    year: summaryOf(book, { ...wanted, period: year }),
    quarters: periods.map((period) => summaryOf(book, { ...wanted, period })),
  };
}

function figure(table: Table, item: string, key: 'amount' | 'toDate' = 'amount'): Money {
  const cell = table.rows.find((row) => row['item'] === item)?.[key];
  return typeof cell === 'bigint' ? cell : NO_MONEY;
}

function figures(table: Table, items: readonly string[]): Money {
  return total(items.map((item) => figure(table, item)));
}

function itemsOf(table: Table, beginning: RegExp): string[] {
  return table.rows.map(({ item }) => String(item)).filter((item) => beginning.test(item));
}

function slug(words: string): string {
  return words.replace(/[^a-z]+/g, '-');
}

/** Figures of one moment, of what is owed at it, of the year so far, or between other days than the quarters'. */
const NO_FLOW =
  /^(?:opening|closing|used-unpaid|missing|estimate|closed|basis|line|self-employment|allowance|update|payee|processed)\b/;

/** Figures of a filing period, which have none to date. */
const OF_PERIOD = /^return\b/;

const PAIRS = [
  ['basis.sales-unpaid', 'basis.sales-paid'],
  ['basis.bills-unpaid', 'basis.bills-paid'],
  ['basis.classes'],
  ['basis.advances-taken'],
  ['basis.advances-used'],
  ['basis.cash'],
  ['basis.accrual'],
  ['line.net-profit'],
];

describe('the quarters of a year', () => {
  it('add up to it, and so does each year to date', async () => {
    const property = fc.asyncProperty(cases, async (asked) => {
      const { year, quarters } = await summariesOf(asked);
      const flows = itemsOf(year, /./)
        .filter((item) => !NO_FLOW.test(item))
        .map((item) => [item]);
      for (const items of [...flows, ...PAIRS]) {
        const parts = quarters.map((quarter) => figures(quarter, items));
        const whole = figures(year, items);
        expect({ items, sum: total(parts) }).toEqual({ items, sum: whole });
      }
      for (const item of flows.flat().filter((each) => !OF_PERIOD.test(each))) {
        const running = quarters.map((_, at) =>
          total(quarters.slice(0, at + 1).map((quarter) => figure(quarter, item))),
        );
        const toDate = quarters.map((quarter) => figure(quarter, item, 'toDate'));
        expect({ item, toDate }).toEqual({ item, toDate: running });
      }
    });
    await holds(property, 2);
  });

  it('begin with the stock that the one before ends with', async () => {
    const property = fc.asyncProperty(cases, async (asked) => {
      const { quarters } = await summariesOf(asked);
      for (const place of STANDING) {
        const openings = quarters.map((each) =>
          figure(each, `opening.${slug(STANDING_WORDS[place])}`),
        );
        const closings = quarters.map((each) =>
          figure(each, `closing.${slug(STANDING_WORDS[place])}`),
        );
        expect(openings.slice(1)).toEqual(closings.slice(0, -1));
      }
    });
    await holds(property, 2);
  });
});

describe('a summary', () => {
  it('adds up in every part, to the cent', async () => {
    const property = fc.asyncProperty(cases, async (asked) => {
      const { year, quarters } = await summariesOf(asked);
      for (const table of [year, ...quarters]) {
        const add = (items: readonly string[]): Money => figures(table, items);
        const own =
          /^(?:sales|consignment|advances)\.|^(?:classes|firing|other-income|outside-trade|missing-pieces|shipping|discounts|returns)$/;
        expect(add(itemsOf(table, own))).toBe(add(['income']));
        expect(add(itemsOf(table, /^expense\./))).toBe(add(['expenses']));
        const stock = (when: string): string[] =>
          STANDING.map((place) => `${when}.${slug(STANDING_WORDS[place])}`);
        expect([add(stock('opening')), add(stock('closing'))]).toEqual([
          add(['opening']),
          add(['closing']),
        ]);
        const byStock = less(add(['opening', 'purchases']), add(['own-use', 'closing']));
        const isPaidFor = itemsOf(table, /^cost-of-goods-sold$/).length === 0;
        if (!isPaidFor) {
          expect(add(['cost-of-goods-sold'])).toBe(byStock);
          expect(add(itemsOf(table, /^consumed\./))).toBe(byStock);
        }
        const unpaid = less(add(['used-unpaid-before']), add(['used-unpaid']));
        const cost = total([byStock, unpaid]);
        if (itemsOf(table, /^cost-of-goods$/).length > 0) expect(add(['cost-of-goods'])).toBe(cost);
        const gross = less(add(['income']), cost);
        expect(add(['gross-profit'])).toBe(gross);
        expect(add(['net-profit'])).toBe(less(gross, add(['expenses'])));
        expect(table.behind?.()).toHaveLength(table.rows.length);
      }
    });
    await holds(property, 2);
  });

  it('has all of the profit on the lines of its sheet', async () => {
    const property = fc.asyncProperty(cases, async (asked) => {
      const { year, quarters } = await summariesOf(asked);
      for (const table of [year, ...quarters]) {
        const profit = figure(table, 'net-profit');
        // Of meals half is not on Schedule C, rounded once; the sheet says so.
        const [meals, onLine] = [figure(table, 'expense.meals'), figure(table, 'line.meals')];
        const rest = itemsOf(table, /^line\.meals$/).length > 0 ? less(meals, onLine) : NO_MONEY;
        expect(less(figure(table, 'line.net-profit'), rest)).toBe(profit);
        expect(itemsOf(table, /^line\.none$/)).toHaveLength(rest === NO_MONEY ? 0 : 1);
      }
    });
    await holds(property, 2);
  });

  it('comes from cash to accrual by what it lists', async () => {
    const property = fc.asyncProperty(cases, async (asked) => {
      const { year, quarters } = await summariesOf(asked);
      const [, , { basis }] = asked;
      const items = BASIS_ITEMS.map((item) => `basis.${item}`);
      for (const table of [year, ...quarters]) {
        const accrual = figures(table, ['basis.cash', ...items]);
        expect(accrual).toBe(figure(table, 'basis.accrual'));
        expect(figure(table, `basis.${basis}`)).toBe(figure(table, 'net-profit'));
      }
    });
    await holds(property, 2);
  });

  it('has every cent of discounts, fees and commission', async () => {
    const property = fc.asyncProperty(cases, async ([plan, seed, asked]) => {
      const { book, year } = await summariesOf([plan, seed, { ...asked, basis: 'accrual' }]);
      const span = /(\d{4}-\d\d-\d\d) to (\d{4}-\d\d-\d\d)/.exec(year.title) ?? [];
      const [, from = '', to = ''] = span;
      const sales = [...book.sales.values()].filter(
        ({ date }) => date >= from && date <= to && date <= year.asOf,
      );
      const money = sales.map((sale) => saleMoney(book, sale));
      const advances = [...book.advances.values()].filter(
        ({ date }) => date >= from && date <= to && date <= year.asOf,
      );
      const kept = total([
        ...money.flatMap(({ fee, commission }) => [fee, commission]),
        ...advances.map((advance) => feeOfAdvance(book, advance)),
      ]);
      const shown = figures(year, ['expense.card-fees', 'expense.gallery-commissions']);
      expect(shown).toBe(kept);
      const tax = total(itemsOf(year, /^sales-tax(-back)?\./).map((item) => figure(year, item)));
      expect(tax).toBe(total(money.map((each) => each.tax)));
      const off = total(
        money.flatMap(({ lines }) =>
          lines.flatMap(({ returned, discounts }) => (returned ? [] : [discounts])),
        ),
      );
      // What a class line is discounted by is earned meeting by meeting.
      if (![...book.sales.values()].some(({ lines }) => lines.some((line) => line.class)))
        expect(opposite(figure(year, 'discounts'))).toBe(off);
    });
    await holds(property, 2);
  });
});
