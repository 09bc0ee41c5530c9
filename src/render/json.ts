/** A table as one JSON document with exact figures. */
import { isDecimal } from '../number/decimal.ts';
import type { Cell, Column, Row, Table } from '../report/table.ts';
import { visibleJson } from './escape.ts';
import { plainFigure } from './shown.ts';

type JsonCell = string | number | boolean | null;

function jsonCell(cell: Cell, column: Column, minorDigits: number): JsonCell {
  if (cell === null || typeof cell === 'string' || typeof cell === 'boolean') return cell;
  if (typeof cell === 'number') return column.type === 'count' ? cell : String(cell);
  if (column.type === 'count' && isDecimal(cell)) return cell.toNumber();
  const text = plainFigure(cell, column, minorDigits);
  return column.type === 'rate' ? withDecimals(text, minorDigits) : text;
}

/** No fewer decimals than the currency has. */
function withDecimals(text: string, least: number): string {
  const [whole = '', decimals = ''] = text.split('.');
  return least === 0 ? text : `${whole}.${decimals.padEnd(least, '0')}`;
}

function jsonRow(table: Table, row: Row, columns = table.columns): Record<string, JsonCell> {
  return Object.fromEntries(
    columns.map((column) => [
      column.key,
      jsonCell(row[column.key] ?? null, column, table.minorDigits),
    ]),
  );
}

function jsonTotals(table: Table): { totals?: Record<string, JsonCell> } {
  const { totals } = table;
  if (totals === undefined) return {};
  return {
    totals: jsonRow(
      table,
      totals,
      table.columns.filter((column) => Object.hasOwn(totals, column.key)),
    ),
  };
}

function jsonColumn({ key, title, type, unit }: Column): Partial<Column> {
  return unit === undefined ? { key, title, type } : { key, title, type, unit };
}

/** The version of the shape of all JSON that goes to standard output: schema/output has a schema of each. */
const JSON_VERSION = 1;

/**
 * A document as text, indented by two spaces, with a line end; it begins with the version of its shape.
 * Signs that could act on a terminal stand as `\u` escapes inside the strings.
 */
export function jsonDocument(content: object): string {
  const document = { version: JSON_VERSION, ...content };
  return `${visibleJson(JSON.stringify(document, null, 2))}\n`;
}

/**
 * A table as JSON: version, report, studio, asOf, at, currency, columns, rows, totals (the columns that
 * have one) and notes. Counts are numbers; money, rates,
 * quantities and fractions decimal strings as `plainFigure` writes them, without exponent, rates with no
 * fewer decimals than the currency has; dates ISO; flags true or false; what is
 * missing null.
 */
export function renderJson(table: Table): string {
  const { report, studio, asOf, revision, currency, notes } = table;
  return jsonDocument({
    ...{ report, studio, asOf, ...(revision && { at: revision }), currency },
    ...jsonCells(table),
    ...jsonTotals(table),
    notes,
  });
}

/** The columns and rows of a table, for a document that is more than the table. */
export function jsonCells(table: Table): object {
  return {
    columns: table.columns.map(jsonColumn),
    rows: table.rows.map((row) => jsonRow(table, row)),
  };
}
