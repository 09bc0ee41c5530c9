/** Every figure of the tax summary leads somewhere: to records of the book, or to rows that it is reckoned from. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type Book } from '../../src/book.ts';
import { yearOf } from '../../src/number/date.ts';
import { forReading } from '../../src/render/shown.ts';
import { broughtTo } from '../../src/report/brought.ts';
import type { Table } from '../../src/report/table.ts';
import { summaryOf } from '../helpers/quarter.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

type Figure = 'amount' | 'toDate';

function figure(table: Table, row: number, key: Figure): bigint {
  const cell = table.rows[row]?.[key];
  return typeof cell === 'bigint' ? cell : 0n;
}

function sumOf(figures: readonly bigint[]): bigint {
  return figures.reduce((sum, each) => sum + each, 0n);
}

/** Items whose records, where it is known what each brings, don't bring the figure. */
function notBrought(table: Table, key: Figure): unknown[] {
  return [...table.rows.keys()]
    .filter((at) => {
      const brought = broughtTo(table, key, at);
      return (
        brought !== undefined &&
        sumOf([...brought.values()].map((each) => BigInt(String(each)))) !== figure(table, at, key)
      );
    })
    .map((at) => table.rows[at]?.['item']);
}

/** Rows that rest on what the records of the year don't bring, or that the law of a tax makes out of others. */
const NOT_BY_RECORD =
  /^(opening-tax|closing-tax|closed|filed|estimate|self-employment|allowance|update|payee)\b/;

/** Items of which it isn't known what each record brings. */
function unknownByRecord(table: Table, key: Figure): unknown[] {
  return [...table.rows.keys()]
    .filter((at) => figure(table, at, key) !== 0n && broughtTo(table, key, at) === undefined)
    .map((at) => table.rows[at]?.['item'])
    .filter((item) => !NOT_BY_RECORD.test(String(item)));
}

/** Items whose figure is not nil and which lead nowhere: not to records, nor to rows, nor words on them. */
function leadingNowhere(table: Table, key: Figure): unknown[] {
  const { behind, further, reckoned } = table;
  const later = key === 'toDate' ? further?.behind() : undefined;
  const leads = (at: number): boolean => {
    const { plus = [], less = [], of = [], words } = reckoned?.[at] ?? {};
    if (words !== undefined) return true;
    const ids = [...(behind?.()?.[at] ?? []), ...(later?.[at] ?? [])];
    return ids.length + plus.length + less.length + of.length > 0;
  };
  return [...table.rows.keys()]
    .filter((at) => figure(table, at, key) !== 0n && !leads(at))
    .map((at) => table.rows[at]?.['item']);
}

/** Items that are the sum of other rows, and are not what those come to. */
function notAddingUp(table: Table, key: Figure): unknown[] {
  return [...table.rows.keys()]
    .filter((at) => {
      const { plus = [], less = [], of = [] } = table.reckoned?.[at] ?? {};
      // A line of a sheet may take records beside what it adds up.
      const isSum =
        plus.length + less.length > 0 && of.length + (table.behind?.()?.[at] ?? []).length === 0;
      if (!isSum || (table.further?.behind()?.[at] ?? []).length > 0) return false;
      const all = (rows: readonly number[]): bigint =>
        sumOf(rows.map((row) => figure(table, row, key)));
      return table.rows[at]?.[key] !== null && all(plus) - all(less) !== figure(table, at, key);
    })
    .map((at) => table.rows[at]?.['item']);
}

describe('the figures of the tax summary', () => {
  it('lead to records or rows, and those rows come to them', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'none' }),
      fc.constantFrom('us-schedule-c-2025', 'uk-sa103s', 'plain'),
      fc.constantFrom('cash' as const, 'accrual' as const),
      (plan, sheet, basis) => expectAllToLead(plan, { sheet, basis }),
    );
    await holds(property, 2);
  });

  it('lead to what the running figure rests on where they are a cent of rounding', async () => {
    const plan: StudioPlan = {
      seed: 94756129,
      days: 104,
      products: 1,
      pace: 2,
      features: [
        ...(['recipe-versions', 'clay-recipe', 'two-glazes', 'fired-otherwise'] as const),
        ...(['purchase-tax', 'reclaimed', 'making-losses', 'still-in-kiln'] as const),
        ...(['part-loads', 'supplies', 'gas', 'fuel-from-stock', 'guests'] as const),
        ...(['material-counts', 'consigned'] as const),
      ],
      breaks: [],
    };
    await expectAllToLead(plan, { sheet: 'us-schedule-c-2025', basis: 'cash' });
  });
});

async function expectAllToLead(
  plan: StudioPlan,
  asked: { readonly sheet: string; readonly basis: 'cash' | 'accrual' },
): Promise<void> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  const year = yearOf(asOf, book.studio.yearStarts);
  for (const period of [year, `${year}-Q2`, `${year}-Q4`]) {
    const table = summaryOf(book, { ...asked, period, asOf });
    expectToLead(table, book);
    // The rows that people see have other numbers.
    expectToLead(forReading(table).table, book);
  }
}

function expectToLead(table: Table, book: Book): void {
  const known = new Set(KINDS.flatMap((kind) => [...book[kind].keys()]));
  const ids = [...(table.behind?.() ?? []), ...(table.further?.behind() ?? [])].flat();
  expect(ids.filter((id) => !known.has(id))).toEqual([]);
  for (const key of ['amount', 'toDate'] as const) {
    expect(leadingNowhere(table, key)).toEqual([]);
    expect(notAddingUp(table, key)).toEqual([]);
    expect(notBrought(table, key)).toEqual([]);
    expect(unknownByRecord(table, key)).toEqual([]);
  }
}
