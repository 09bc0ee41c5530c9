/** What people see of a table's cells: rounded so that parts add up, with marks that can't be misread. */
import { decimal, isDecimal, roundTo, shownParts, sum } from '../number/decimal.ts';
import type { Decimal } from '../number/decimal.ts';
import type { Cell, Column, ColumnType, Table } from '../report/table.ts';

const QUANTITY_PLACES = 2;
const PERCENT_PLACES = 1;
const HUNDRED = decimal(100);
const FIGURES: ReadonlySet<ColumnType> = new Set(['count', 'money', 'quantity', 'fraction']);

/** Whether a column holds figures, which stand at the right and are never broken. */
export function isFigure(column: Column): boolean {
  return FIGURES.has(column.type);
}

/** The title, and the unit in brackets where there is one. */
function headOf(column: Column): string {
  return column.unit === undefined ? column.title : `${column.title} (${column.unit})`;
}

/** How many decimals of money (the currency's minor digits) or a quantity (2) are shown, unless the column says. */
export function placesOf(column: Column, minorDigits: number): number {
  return column.places ?? (column.type === 'money' ? minorDigits : QUANTITY_PLACES);
}

/** A column's cells, in the rows' order, and its total. */
export interface ColumnOf<T> {
  readonly cells: readonly T[];
  readonly total: T;
}

/** A column's cells as they stand in the table; what a row lacks is null. */
export function exactColumn(table: Table, column: Column): ColumnOf<Cell> {
  return {
    cells: table.rows.map((row) => row[column.key] ?? null),
    total: table.totals?.[column.key] ?? null,
  };
}

function roundedAlone(cell: Cell, places: number): Cell {
  return isDecimal(cell) && cell.decimalPlaces() > places ? roundTo(cell, places) : cell;
}

function roundedParts(cells: readonly Cell[], places: number): readonly Cell[] {
  if (!cells.some((cell) => isDecimal(cell) && cell.decimalPlaces() > places)) return cells;
  const parts = shownParts(cells.filter(isDecimal), places).values();
  return cells.map((cell) => (isDecimal(cell) ? (parts.next().value ?? cell) : cell));
}

function addsUp({ cells, total }: ColumnOf<Cell>): boolean {
  return isDecimal(total) && sum(cells.filter(isDecimal)).eq(total);
}

/**
 * A column of money or quantities rounded half up to the shown decimals (money: the column's places
 * or the currency's minor digits; quantities: the column's places or 2). Where the cells add up to
 * the total exactly, the rounded cells add up to the rounded total. Other columns come back as they are.
 */
export function roundedColumn(table: Table, column: Column): ColumnOf<Cell> {
  const exact = exactColumn(table, column);
  if (column.type !== 'money' && column.type !== 'quantity') return exact;
  const places = placesOf(column, table.minorDigits);
  const { cells, total } = exact;
  return {
    cells: addsUp(exact)
      ? roundedParts(cells, places)
      : cells.map((cell) => roundedAlone(cell, places)),
    total: roundedAlone(total, places),
  };
}

/** `12345.60` → `12,345.60`. */
export function setApart(digits: string): string {
  const point = digits.indexOf('.');
  const whole = point === -1 ? digits : digits.slice(0, point);
  if (whole.length < 4) return digits;
  return whole.replace(/\B(?=(?:\d{3})+$)/g, ',') + digits.slice(whole.length);
}

/** A rounded value with its trailing zeros; padding the text is faster than rounding again. */
export function withZeros(value: Decimal, places: number): string {
  const text = value.toFixed();
  const missing = places - value.decimalPlaces();
  if (missing <= 0) return text;
  return `${text}${missing === places ? '.' : ''}${'0'.repeat(missing)}`;
}

function percentage(value: Decimal): string {
  const percent = roundTo(value.times(HUNDRED), PERCENT_PLACES);
  return `${setApart(withZeros(percent, PERCENT_PLACES))}%`;
}

function shownDecimal(value: Decimal, column: Column, minorDigits: number): string {
  if (column.type === 'fraction') return percentage(value);
  const fixed = column.type === 'money' || column.type === 'quantity';
  return setApart(withZeros(value, fixed ? placesOf(column, minorDigits) : 0));
}

/** How a renderer guards text from the book. */
type Guard = (text: string) => string;

/** A cell that is rounded already, as people see it. */
function shownCell(cell: Cell, show: (value: Decimal) => string, guard: Guard): string {
  if (cell === null || cell === false) return '';
  if (cell === true) return 'yes';
  if (typeof cell === 'string') return guard(cell);
  return typeof cell === 'number' ? setApart(String(cell)) : show(cell);
}

/** A column as people see it. */
export interface ShownColumn extends ColumnOf<string> {
  readonly column: Column;
  readonly head: string;
}

function shownColumn(table: Table, column: Column, guard: Guard): ShownColumn {
  const { cells, total } = roundedColumn(table, column);
  const show = (value: Decimal): string => shownDecimal(value, column, table.minorDigits);
  return {
    column,
    head: guard(headOf(column)),
    cells: cells.map((cell) => shownCell(cell, show, guard)),
    total: shownCell(total, show, guard),
  };
}

/**
 * The columns that people see: money and quantities rounded so that parts add up to the total,
 * fractions as percentages with one decimal, thousands set apart by a comma, a minus as `-`, flags
 * as `yes` or nothing, what is missing as nothing, and texts as the guard makes them. Where totals
 * stand below and the first column has none, it says `Total`.
 */
export function shownTable(table: Table, guard: Guard): ShownColumn[] {
  const shown = table.columns
    .filter((column) => column.dataOnly !== true)
    .map((column) => shownColumn(table, column, guard));
  const [first, ...others] = shown;
  if (first === undefined || table.totals === undefined || first.total !== '') return shown;
  return [{ ...first, total: 'Total' }, ...others];
}

/** The line below the title: whose figures, of which day, in which currency. */
export function caption(table: Table): string {
  return [table.studio, `as of ${table.asOf}`, table.currency]
    .filter((part) => part !== '')
    .join(' · ');
}

/** What stands in the place of a table without rows. */
export const NOTHING = 'Nothing to show.';
