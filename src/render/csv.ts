/** A table as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import { isDecimal } from '../number/decimal.ts';
import type { Cell, Column, Row, Table } from '../report/table.ts';
import { defuse } from './escape.ts';
import { plainFigure } from './shown.ts';

const LINE_END = '\r\n';
/** The semicolon is no separator here, but is one for spreadsheets set to many languages. */
const NEEDS_QUOTES = /[",;\r\n]|^\s|\s$/;

function quoted(text: string): string {
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function csvCell(cell: Cell, column: Column, minorDigits: number): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return quoted(defuse(cell));
  if (typeof cell === 'bigint' || isDecimal(cell)) return plainFigure(cell, column, minorDigits);
  return String(cell);
}

/**
 * RFC 4180: the columns' keys as head, a line for each row, CRLF line ends, quotes where needed.
 * Figures as `plainFigure` writes them; flags true or false; what is missing empty. No totals, which would be summed twice, and no
 * notes. Hidden signs of a text are shown, and what would run as a formula is defused.
 */
export function renderCsv(table: Table): string {
  return [...csvLines(table, table.rows)].join('');
}

/** The same line by line, of rows that need not be there all at once. */
export function* csvLines(
  { columns, minorDigits }: Omit<Table, 'rows'>,
  rows: Iterable<Row>,
): Generator<string> {
  const line = (cells: readonly string[]): string => cells.join(',') + LINE_END;
  yield line(columns.map(({ key }) => quoted(key)));
  for (const row of rows)
    yield line(columns.map((column) => csvCell(row[column.key] ?? null, column, minorDigits)));
}
