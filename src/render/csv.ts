/** A table as comma-separated values (RFC 4180), safe to open in a spreadsheet. */
import { isDecimal } from '../number/decimal.ts';
import type { Cell, Column, Table } from '../report/table.ts';
import { defuse } from './escape.ts';
import { exactColumn, placesOf, roundedColumn, withZeros } from './shown.ts';

const LINE_END = '\r\n';
/** The semicolon is no separator here, but is one for spreadsheets set to many languages. */
const NEEDS_QUOTES = /[",;\r\n]|^\s|\s$/;

function quoted(text: string): string {
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function csvCell(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return quoted(defuse(cell));
  return isDecimal(cell) ? cell.toFixed() : String(cell);
}

function moneyCells(table: Table, column: Column): string[] {
  const places = placesOf(column, table.minorDigits);
  const { cells } = roundedColumn(table, column);
  return cells.map((cell) => (isDecimal(cell) ? withZeros(cell, places) : csvCell(cell)));
}

function csvColumn(table: Table, column: Column): string[] {
  if (column.type === 'money') return moneyCells(table, column);
  return exactColumn(table, column).cells.map(csvCell);
}

/**
 * RFC 4180: the columns' keys as head, a line for each row, CRLF line ends, quotes where needed.
 * Money at the shown rounding, so that a column adds up to the shown total; quantities and fractions
 * exact; flags true or false; what is missing empty. No totals, which would be summed twice, and no
 * notes. Hidden signs of a text are shown, and what would run as a formula is defused.
 */
export function renderCsv(table: Table): string {
  const columns = table.columns.map((column) => csvColumn(table, column));
  const rows = table.rows.map((_, at) => columns.map((cells) => cells[at] ?? ''));
  const head = table.columns.map((column) => quoted(column.key));
  return [head, ...rows].map((line) => line.join(',') + LINE_END).join('');
}
