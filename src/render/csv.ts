/** A table as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import { isDecimal } from '../number/decimal.ts';
import type { Cell, Column, Table } from '../report/table.ts';
import { defuse } from './escape.ts';
import { plainFigure } from './shown.ts';

/** Ends every line. */
export const CSV_LINE_END = '\r\n';
/** The semicolon is no separator here, but is one for spreadsheets set to many languages. */
const NEEDS_QUOTES = /[",;\r\n]|^\s|\s$/;

/** Most texts: nothing of them has to be quoted, shown or defused. */
const PLAIN_CELL = /^\w(?:[\w ./:-]*\w)?$/;

function csvQuoted(text: string): string {
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function csvCell(cell: Cell, column: Column, minorDigits: number): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return PLAIN_CELL.test(cell) ? cell : csvQuoted(defuse(cell));
  if (typeof cell === 'bigint' || isDecimal(cell)) return plainFigure(cell, column, minorDigits);
  return String(cell);
}

/**
 * RFC 4180: the columns' keys as head, a line for each row, CRLF line ends, quotes where needed.
 * Figures as `plainFigure` writes them; flags true or false; what is missing empty. No totals, which would be summed twice, and no
 * notes. Hidden signs of a text are shown, and what would run as a formula is defused.
 */
export function renderCsv(table: Table): string {
  return [...tableLines(table)].join('');
}

/** The same line by line. */
export function tableLines(table: Table): Iterable<string> {
  const { columns, rows } = table;
  return csvLines(
    table,
    rows.map((row) => columns.map(({ key }) => row[key] ?? null)),
  );
}

/** Lines of rows that need not be there all at once, each with a cell for every column. */
export function* csvLines(
  { columns, minorDigits }: Pick<Table, 'columns' | 'minorDigits'>,
  rows: Iterable<readonly Cell[]>,
): Generator<string> {
  yield csvHead(columns);
  for (const cells of rows) yield csvCells(columns, cells, minorDigits) + CSV_LINE_END;
}

/** The first line. */
export function csvHead(columns: readonly Column[]): string {
  return columns.map(({ key }) => csvQuoted(key)).join(',') + CSV_LINE_END;
}

/** A line, or a part of one, without its end. */
export function csvCells(
  columns: readonly Column[],
  cells: readonly Cell[],
  minorDigits: number,
): string {
  return columns.map((column, at) => csvCell(cells[at] ?? null, column, minorDigits)).join(',');
}
