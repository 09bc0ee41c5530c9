/** Rows of the tax summary while they are put together: two figures, a line of the sheet, the records. */
import type { Decimal } from '../number/decimal.ts';
import { ZERO } from '../number/decimal.ts';
import type { TaxAmount } from '../reckon/tax-view.ts';
import type { Row } from './table.ts';

/** One row; `amount` is of the period, `toDate` of the business year up to its end. */
export interface QuarterRow {
  readonly item: string;
  readonly name: string;
  readonly amount: Decimal | null;
  readonly toDate: Decimal | null;
  readonly sheetLine?: string | undefined;
  readonly behind?: readonly string[];
}

/** A part with its heading. */
export interface QuarterPart {
  readonly part: string;
  readonly rows: readonly QuarterRow[];
}

/** A figure of the period and of the year to date. */
export interface Both {
  readonly amount: Decimal;
  readonly toDate: Decimal;
}

/** The same figure of the period and of the year to date. */
export function both<T>(pair: readonly [T, T], figure: (of: T) => Decimal): Both {
  return { amount: figure(pair[0]), toDate: figure(pair[1]) };
}

/**
 * Rows for all amounts of the period or of the year to date, in the order of the year's; where nothing
 * is in the period, the records are the year's.
 */
export function amountRows(
  [period, year]: readonly [readonly TaxAmount[], readonly TaxAmount[]],
  lineOf: (counts: string) => string | undefined,
): QuarterRow[] {
  const inPeriod = new Map(period.map((each) => [each.item, each]));
  const inYear = new Map(year.map((each) => [each.item, each]));
  const more = period.filter(({ item }) => !inYear.has(item));
  return [...year, ...more].map(({ item, name, counts, behind }) => ({
    item,
    name,
    amount: inPeriod.get(item)?.amount ?? ZERO,
    toDate: inYear.get(item)?.amount ?? ZERO,
    sheetLine: lineOf(counts),
    behind: inPeriod.get(item)?.behind ?? behind,
  }));
}

/** The row as a table has it. */
export function tableRow(part: string, row: QuarterRow): Row {
  const { item, name, amount, toDate, sheetLine = null } = row;
  return { part, item, name, amount, toDate, sheetLine };
}
