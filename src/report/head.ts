/** What every table begins with, and small shapes that reports share. */
import type { Book, Day } from '../book.ts';
import { decimal, divide } from '../number/decimal.ts';
import { decimalOf, total, type Money } from '../number/money.ts';
import { revisionWords } from '../in-words.ts';
import { once } from '../once.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Cell, ColumnOf, BookCommit, Row, Table, TableHead } from './table.ts';

/** The head of a table on the book as it is on a day. */
export function tableHead(book: Book, asOf: Day): TableHead {
  const { name, currency } = book.studio;
  return { studio: name, asOf, currency, minorDigits: digitsOf(book) };
}

/** What a book was read from: a commit, or files on the disk. */
interface StateRead {
  readonly commit?: BookCommit | undefined;
  readonly digest: () => string;
}

/** The table with the state of the book that it is of; one of a commit says so in its head. */
export function ofState(table: Table, { commit, digest }: StateRead): Table {
  return commit ? ofRevision(table, commit) : { ...table, digest };
}

function ofRevision(table: Table, revision: BookCommit): Table {
  const { sheet, below } = table;
  const title = [sheet?.title ?? '', revisionWords(revision)].join(' · ');
  return {
    ...table,
    revision,
    ...(sheet && { sheet: { ...sheet, title } }),
    ...(below && { below: { ...below, revision } }),
  };
}

/** The columns, and of each line what it has under their keys. */
export function withRows<T>(
  columns: readonly ColumnOf<T>[],
  lines: readonly T[],
): Pick<Table, 'columns' | 'rows'> {
  return { columns, rows: lines.map((line) => cellsOf(columns, line)) };
}

/** What a line has under the columns' keys. */
export function cellsOf<T>(columns: readonly ColumnOf<T>[], line: T): Row {
  return Object.fromEntries(
    columns.map(({ key }) => [key, (line[key as keyof T] as Cell | undefined) ?? null]),
  );
}

/** The sums of all columns of counts and of money. */
export function sumsOf({ columns, rows }: Pick<Table, 'columns' | 'rows'>): Row {
  const counts = columns.filter(({ type }) => type === 'count').map(({ key }) => key);
  const money = columns.filter(({ type }) => type === 'money').map(({ key }) => key);
  const cells = (key: string): Cell[] => rows.map((row) => row[key] ?? null);
  return Object.fromEntries([
    ...counts.map((key) => [key, cells(key).reduce((sum: number, cell) => sum + Number(cell), 0)]),
    ...money.map((key) => [key, total(cells(key).filter((cell) => typeof cell === 'bigint'))]),
  ]) as Row;
}

/** The ids of the records that things come from, each once. */
export function idsOf(things: Iterable<{ readonly by: string }>): string[] {
  return [...new Set([...things].map(({ by }) => by))];
}

/** A row with the ids of the records behind it. */
export interface BackedRow {
  readonly row: Row;
  readonly behind: readonly string[];
}

/** The rows, and what is behind them. */
export function backed(rows: readonly BackedRow[]): Pick<Table, 'rows' | 'behind'> {
  return { rows: rows.map(({ row }) => row), behind: once(() => rows.map(({ behind }) => behind)) };
}

/** A stretch of days in words: `2025-01-01 to 2025-12-31`, `up to 2025-12-31`. */
export function spanInWords({ from, to }: { from?: Day | undefined; to: Day }): string {
  return from === undefined ? `up to ${to}` : `${from} to ${to}`;
}

/** An amount ÷ pieces, a ratio; null for none. */
export function perPiece(book: Book, amount: Money, pieces: number): Cell {
  if (pieces === 0) return null;
  return divide(decimalOf(amount, digitsOf(book)), decimal(pieces));
}

const LEVELS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;
const MISSING = '·';

function isNumber(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

/**
 * A spark line: one sign for each value, its height in eighths between the lowest and the highest
 * value, with zero always among them, so that a small
 * change looks small; a dot where a value is missing. For drawing only.
 */
export function sparkLine(values: readonly (number | null)[]): string {
  const numbers = values.filter(isNumber);
  const low = numbers.reduce((least, value) => Math.min(least, value), 0);
  const high = numbers.reduce((most, value) => Math.max(most, value), 0);
  const level = (value: number): number =>
    high === low ? 0 : Math.round(((value - low) / (high - low)) * (LEVELS.length - 1));
  return values.map((value) => (isNumber(value) ? LEVELS[level(value)] : MISSING)).join('');
}
