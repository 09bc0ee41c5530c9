/** The tax summary of a book that is written in a test, and its figures by their stable names. */
import { TAX_SHEETS } from '../../schema/generated/tax-sheets.js';
import type { Book } from '../../src/book.ts';
import { isSheet, namedSheet } from '../../src/check/sheets/named-sheet.ts';
import { typeTaxSheet } from '../../src/check/sheets/tax-sheet.ts';
import { decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import type { Basis } from '../../src/reckon/sales/income-fact.ts';
import { taxPeriod, type TaxPeriod } from '../../src/reckon/tax/tax-period.ts';
import type { TaxSheet } from '../../src/reckon/tax/tax-sheet.ts';
import { quarterTable } from '../../src/report/quarter/quarter.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { told } from './minor.ts';

/** A sheet that comes with the program. */
export function builtIn(id: string): TaxSheet {
  const sheet = typeTaxSheet(TAX_SHEETS[id] ?? {}, { id, file: `${id}.yaml` });
  if (!('lines' in sheet)) throw new Error(`${id}: ${JSON.stringify(sheet)}`);
  return sheet;
}

/** What is asked of a summary in a test. */
export interface Wanted {
  readonly period: string;
  readonly sheet?: string;
  readonly asOf?: string;
  readonly basis?: Basis;
  readonly taxRate?: string;
}

/** The summary of a period; it is looked at on the period's last day. */
export function summaryOf(book: Book, wanted: Wanted): Table {
  const period = taxPeriod(wanted.period, book.studio.yearStarts);
  if (!period) throw new Error(`no period ${wanted.period}`);
  const sheet = sheetFor(book, { period, sheet: wanted.sheet ?? 'us-schedule-c-2025' });
  return quarterTable(book, flow(book, wanted.asOf ?? period.to), {
    period,
    sheet,
    basis: wanted.basis,
    taxRate: wanted.taxRate === undefined ? undefined : decimal(wanted.taxRate),
  });
}

/** The sheet of a name, of the period's year where the name is that of all years. */
function sheetFor(
  { studio }: Book,
  { period: { year }, sheet: name }: { readonly period: TaxPeriod; readonly sheet: string },
): TaxSheet {
  const sheet = namedSheet(name, { studio, own: [], year });
  if (!isSheet(sheet)) throw new Error(`no sheet ${name}`);
  return sheet;
}

/** The row of an item. */
export function rowIn(table: Table, item: string): Row | undefined {
  return table.rows.find((row) => row['item'] === item);
}

/** A figure to the cent: of the period, or of the year to date; undefined where there is no such row. */
export function figureIn(
  table: Table,
  item: string,
  key: 'amount' | 'toDate' = 'amount',
): string | undefined {
  const cell = rowIn(table, item)?.[key];
  return typeof cell === 'bigint' ? told(cell, table.minorDigits) : undefined;
}

/** Figures by their items. */
export function figuresIn(table: Table, items: readonly string[]): (string | undefined)[] {
  return items.map((item) => figureIn(table, item));
}
