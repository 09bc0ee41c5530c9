/** Income is the same however it is grouped and cut, and every cent of a fee is on a line. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Sale } from '../../src/book.ts';
import { INCOME_GROUPS } from '../../src/groups.ts';
import { type Span, addDays, daysBetween, yearOf, yearSpan } from '../../src/number/date.ts';
import { ZERO } from '../../src/number/decimal.ts';
import {
  NO_MONEY,
  add,
  fractionOf,
  less,
  opposite,
  times,
  total,
  type Money,
} from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { booked } from '../../src/reckon/booked.ts';
import { saleMoney, type LineMoney } from '../../src/reckon/sales/sale-money.ts';
import { incomeTable } from '../../src/report/income.ts';
import type { Row } from '../../src/report/table.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const KEYS = ['count', 'gross', 'discounts', 'returns', 'net', 'fees', 'cost', 'margin'] as const;

type Figures = Readonly<Record<(typeof KEYS)[number], bigint>>;

function figuresOf(row: Row | undefined): Figures {
  return Object.fromEntries(KEYS.map((key) => [key, amountIn(row, key)])) as Figures;
}

/** Money in minor units, and counts. */
function amountIn(row: Row | undefined, key: string): bigint {
  const cell = row?.[key] ?? null;
  return typeof cell === 'bigint' || typeof cell === 'number' ? BigInt(cell) : 0n;
}

function added(rows: readonly (Row | undefined)[]): Figures {
  const sum = (key: string): bigint => rows.reduce((all, row) => all + amountIn(row, key), 0n);
  return Object.fromEntries(KEYS.map((key) => [key, sum(key)])) as Figures;
}

interface Case {
  readonly book: Book;
  readonly asOf: string;
}

async function bookOf(plan: StudioPlan, seed: number | undefined): Promise<Case> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, seed), asOf);
  return { book, asOf };
}

const cases = fc.tuple(studioPlan({ breaks: 'some' }), fc.option(fc.nat(), { nil: undefined }));

function totalsOf({ book, asOf }: Case, period: Span): Row | undefined {
  return incomeTable(book, flow(book, asOf), { by: 'product', period }).totals;
}

describe('the income of a period', () => {
  it('is the same by every group, and is what the rows add up to', async () => {
    const property = fc.asyncProperty(cases, async ([plan, seed]) => {
      const { book, asOf } = await bookOf(plan, seed);
      const period = { from: '2025-09-20', to: asOf };
      const tables = INCOME_GROUPS.map((by) => incomeTable(book, flow(book, asOf), { by, period }));
      for (const { rows, totals } of tables) {
        expect(added(rows)).toEqual(figuresOf(totals));
        for (const row of [...rows, totals].map(figuresOf)) {
          expect(row.gross - row.discounts - row.returns).toBe(row.net);
          expect(row.net - row.fees - row.cost).toBe(row.margin);
        }
      }
      const totals = INCOME_GROUPS.map((by, at) => [by, figuresOf(tables[at]?.totals)] as const);
      for (const [by, figures] of totals)
        if (by !== 'class') expect({ by, ...figures }).toEqual({ by, ...totals[0]?.[1] });
    });
    await holds(property, 3);
  });

  it('is what its parts add up to, wherever the year is cut', async () => {
    const cuts = fc.array(fc.nat({ max: 364 }), { maxLength: 4 });
    const property = fc.asyncProperty(cases, cuts, async ([plan, seed], days) => {
      const studio = await bookOf(plan, seed);
      const { yearStarts } = studio.book.studio;
      const year = yearSpan(yearOf(studio.asOf, yearStarts), yearStarts);
      const inYear = days.filter((day) => day < daysBetween(year.from, year.to));
      const ends = [...new Set(inYear)].sort((a, b) => a - b).map((day) => addDays(year.from, day));
      const starts = [year.from, ...ends.map((day) => addDays(day, 1))];
      const parts = starts.map((from, at) => ({ from, to: ends[at] ?? year.to }));
      const totals = parts.map((period) => totalsOf(studio, period));
      expect(added(totals)).toEqual(figuresOf(totalsOf(studio, year)));
    });
    await holds(property, 3);
  });
});

describe('the money of a sale', () => {
  it('is all on its lines: fee, commission, discount, and tax in the price', async () => {
    const property = fc.asyncProperty(cases, async ([plan, seed]) => {
      const { book } = await bookOf(plan, seed);
      for (const sale of book.sales.values()) {
        const { lines, shipping, fee, commission, tax } = saleMoney(book, sale);
        expect(total(lines.map((line) => line.fee))).toBe(fee);
        expect(total(lines.map((line) => line.commission))).toBe(commission);
        const due = total(lines.map((line) => signed(line, add(line.net, line.taxIncluded))));
        if (!sale.discount) expect(due).toBe(asked(book, sale));
        if (!book.channels.get(sale.channel)?.taxIncluded) continue;
        const goods = total(lines.map((line) => signed(line, line.net)));
        const within = less(add(due, booked(book, sale.shipping)), goods, shipping);
        expect(within).toBe(tax);
      }
    });
    await holds(property, 4);
  });
});

/** What comes back is negative. */
function signed({ returned }: LineMoney, amount: Money): Money {
  return returned ? opposite(amount) : amount;
}

/** What the lines ask without a discount of the sale, each rounded by itself. */
function asked(book: Book, sale: Sale): Money {
  return sale.lines.reduce((all, { price, count, discount, returned }) => {
    const whole = times(booked(book, price), count);
    const off = discount?.amount
      ? booked(book, discount.amount)
      : fractionOf(whole, discount?.percent ?? ZERO);
    const rest = less(whole, off);
    return returned === 'yes' ? less(all, rest) : add(all, rest);
  }, NO_MONEY);
}
