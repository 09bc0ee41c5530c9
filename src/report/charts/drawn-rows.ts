/** Charts of rows of a report's own table: the same cells, under the words of the drawing. */
import { setApart } from '../../in-words.ts';
import { ZERO, isDecimal, sum, type Decimal } from '../../number/decimal.ts';
import { drawnKeys, type Chart } from '../page.ts';
import type { Cell, Column, Row, Table } from '../table.ts';

/** Some rows of a table, and how many of all they are, where they are not all. */
export interface SomeRows {
  readonly rows: readonly Row[];
  /** `, the first 20 of 33`; empty for all. */
  readonly words: string;
}

/** What is drawn of a report's table. */
interface DrawnRows extends Pick<Chart, 'shape' | 'title' | 'span' | 'label' | 'value'> {
  readonly also?: Pick<
    Chart,
    'parts' | 'against' | 'marks' | 'count' | 'across' | 'named' | 'bounds' | 'corners'
  >;
  readonly some: SomeRows;
  /** Columns that the report has not. */
  readonly more?: readonly Column[];
  readonly totals?: Row;
}

/** A chart of rows of a report; its own table leads to the records, so that of the chart does not. */
export function chartOfRows(table: Table, drawn: DrawnRows): Chart {
  const { shape, title, span, label, value, also = {}, some, more = [], totals } = drawn;
  const { report, studio, asOf, revision, currency, minorDigits } = table;
  const keys = drawnKeys({ label, value, ...also });
  const all = [
    ...more,
    ...table.columns.filter(({ key }) => more.every((each) => each.key !== key)),
  ];
  const columns = keys.flatMap((key) => all.filter((column) => column.key === key).map(seen));
  return {
    shape,
    title,
    span: `${span}${some.words}`,
    label,
    value,
    ...also,
    table: {
      report,
      title,
      studio,
      asOf,
      revision,
      currency,
      minorDigits,
      columns,
      rows: some.rows,
      notes: [],
      ...(totals && { totals }),
    },
  };
}

/** A column as everybody sees it, also where its table has it for programs alone. */
function seen({ key, title, type, unit, places }: Column): Column {
  return { key, title, type, ...(unit && { unit }), ...(places !== undefined && { places }) };
}

/** More bars than these are a list again. */
const MOST_BARS = 20;

/** The first rows of many, or all; `what` says which they are. */
export function firstRows(rows: readonly Row[], what = 'first'): SomeRows {
  return { rows: rows.slice(0, MOST_BARS), words: someInWords(rows, MOST_BARS, what) };
}

/** The last rows of many, or all. */
export function lastRows(rows: readonly Row[], most = MOST_BARS): SomeRows {
  return { rows: rows.slice(-most), words: someInWords(rows, most, 'last') };
}

function someInWords({ length }: readonly Row[], most: number, what: string): string {
  return length > most ? `, the ${what} ${most} of ${setApart(String(length))}` : '';
}

/** Whether a cell has a figure other than zero. */
export function isSome(cell: Cell | undefined): boolean {
  return isDecimal(cell) ? !cell.isZero() : Number(cell ?? 0) !== 0;
}

/** The decimals of a row under some keys together. */
export function sumOfCells(row: Row, keys: readonly string[]): Decimal {
  return sum(keys.map((key) => row[key]).map((cell) => (isDecimal(cell) ? cell : ZERO)));
}

/** A column of names for rows that a report names by an id, or in two columns. */
export function whatColumn(title: string): Column {
  return { key: 'what', title, type: 'text' };
}

/** What a row is called: by its name, else by its id. */
export function nameIn(row: Row, name: string, id: string): string {
  return String(row[name] ?? row[id] ?? '');
}
