/** What is written of a table's cells: for people rounded and marked, for programs with every digit. */
import { revisionWords, setApart } from '../in-words.ts';
import { type Decimal, decimal, isDecimal, roundTo } from '../number/decimal.ts';
import { type Money, moneyText, writtenMoney } from '../number/money.ts';
import { RATIO_PLACES } from '../number/ratio-places.ts';
import type { Behind, Cell, Column, ColumnType, Reckoning, Row, Table } from '../report/table.ts';
import { madeOnce, once } from '../once.ts';

const QUANTITY_PLACES = 2;
const PERCENT_PLACES = 1;
const HUNDRED = decimal(100);
const FIGURE_TYPES: ReadonlySet<ColumnType> = new Set([
  'count',
  'money',
  'rate',
  'quantity',
  'fraction',
]);

/** Whether a column holds figures, which stand at the right and are never broken. */
export function isFigure(column: Column): boolean {
  return FIGURE_TYPES.has(column.type);
}

/** The title, and the unit in brackets where there is one. */
function headOf(column: Column): string {
  return column.unit === undefined ? column.title : `${column.title} (${column.unit})`;
}

/** How many decimals of a column are shown, unless it says. */
function placesOf({ type, places }: Column, minorDigits: number): number {
  if (type !== 'money' && type !== 'rate') return places ?? QUANTITY_PLACES;
  return places ?? minorDigits;
}

/** A column's cells, in the rows' order, and its total. */
interface CellsOf<T> {
  readonly cells: readonly T[];
  readonly total: T;
}

/** The table of one of its rows. */
export function rowAlone(table: Table, row: number): Table {
  return { ...table, rows: table.rows.slice(row, row + 1) };
}

/** The unit of a row's figure, where a column has it row by row. */
export function unitInRow(
  { rows }: Pick<Table, 'rows'>,
  { unitFrom }: Column,
  row: number,
): string | undefined {
  const unit = unitFrom === undefined ? undefined : rows[row]?.[unitFrom];
  return typeof unit === 'string' ? unit : undefined;
}

/** A column's cells as they stand in the table; what a row lacks is null. */
export function exactColumn(table: Table, column: Column): CellsOf<Cell> {
  return {
    cells: table.rows.map((row) => row[column.key] ?? null),
    total: table.totals?.[column.key] ?? null,
  };
}

/**
 * A figure for programs, without marks: money with all decimals of its currency, always the same text
 * for the same amount; ratios rounded half up, rates to 8 decimals and fractions to 12; quantities exact.
 */
export function plainFigure(
  cell: Decimal | Money,
  { type }: Pick<Column, 'type'>,
  minorDigits: number,
): string {
  if (typeof cell === 'bigint') return moneyText(cell, minorDigits);
  if (type === 'money') return writtenMoney(cell, minorDigits);
  const places = RATIO_PLACES[type];
  return places === undefined ? cell.toFixed() : roundTo(cell, places).toFixed();
}

/** A figure near enough to be drawn; undefined for what is none. */
export function drawnSize(
  cell: Cell,
  { minorDigits }: Pick<Table, 'minorDigits'>,
): number | undefined {
  if (typeof cell === 'bigint') return Number(cell) / 10 ** minorDigits;
  if (typeof cell === 'number') return cell;
  return isDecimal(cell) ? cell.toNumber() : undefined;
}

/** A rounded value with its trailing zeros; padding the text is faster than rounding again. */
function withZeros(value: Decimal, places: number): string {
  const text = value.toFixed();
  const missing = places - value.decimalPlaces();
  if (missing <= 0) return text;
  return `${text}${missing === places ? '.' : ''}${'0'.repeat(missing)}`;
}

function percentage(value: Decimal): string {
  const percent = roundTo(value.times(HUNDRED), PERCENT_PLACES);
  return `${setApart(withZeros(percent, PERCENT_PLACES))}%`;
}

function shownFigure(value: Decimal | Money, column: Column, minorDigits: number): string {
  if (typeof value === 'bigint') return setApart(moneyText(value, minorDigits));
  if (column.type === 'fraction') return percentage(value);
  if (column.type === 'count') return setApart(value.toFixed());
  const places = placesOf(column, minorDigits);
  return setApart(withZeros(roundTo(value, places), places));
}

/** How a renderer guards text from the book. */
export type Guard = (text: string) => string;

/** A cell as people see it. */
function shownCell(cell: Cell, show: (value: Decimal | Money) => string, guard: Guard): string {
  if (cell === null || cell === false) return '';
  if (cell === true) return 'yes';
  if (typeof cell === 'string') return guard(cell);
  return typeof cell === 'number' ? setApart(String(cell)) : show(cell);
}

/** A column as people see it. */
export interface ShownColumn extends CellsOf<string> {
  readonly column: Column;
  readonly head: string;
}

/** A column as people see it, whether it is one of the table's own or a sum of some. */
export function shownColumn(table: Table, column: Column, guard: Guard): ShownColumn {
  const { cells, total } = exactColumn(table, column);
  const show = (value: Decimal | Money): string => shownFigure(value, column, table.minorDigits);
  return {
    column,
    head: guard(headOf(column)),
    cells: cells.map((cell, row) => branchTo(table, column, row) + shownCell(cell, show, guard)),
    total: shownCell(total, show, guard),
  };
}

/** What leads the eye to a row that is further down a tree: longer for each step. */
function branchTo({ rows }: Table, { stepsFrom }: Column, row: number): string {
  const steps = stepsFrom === undefined ? 0 : Number(rows[row]?.[stepsFrom] ?? 0);
  return steps > 0 ? `└${'─'.repeat(2 * (steps - 1))} ` : '';
}

/**
 * The columns that people see: money as it was booked, ratios and quantities rounded half up each by
 * itself, fractions as percentages with one decimal, thousands set apart by a comma, a minus as `-`, flags
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

/** The line below the title: whose figures, of which day and commit, in which currency. */
export function caption(table: Table): string {
  const { studio, asOf, revision, currency } = table;
  const at = revision ? revisionWords(revision) : '';
  return [studio, asOf === '' ? '' : `as of ${asOf}`, at, currency]
    .filter((part) => part !== '')
    .join(' · ');
}

/** What stands in the place of a table without rows. */
export const NOTHING_TO_SHOW = 'Nothing to show.';

/** Row → the heading that stands above it. */
export type Headings = ReadonlyMap<number, string>;

/** A table for people, and where its parts begin. */
export interface TableToRead {
  /** Without the column that parts the rows, which the headings stand for. */
  readonly table: Table;
  /** Headings as the table has them, not guarded yet. */
  readonly headings: Headings;
}

/**
 * What people see of a table: rows whose figures are all zero are left out where the table says so,
 * and a column that parts the rows becomes headings.
 */
export function forReading(table: Table): TableToRead {
  const kept = table.leavesOutZeros === true ? withoutZeros(table) : table;
  const { partedBy } = kept;
  if (partedBy === undefined) return { table: kept, headings: new Map() };
  const columns = kept.columns.filter(({ key }) => key !== partedBy);
  return { table: { ...kept, columns }, headings: headingsOf(kept.rows, partedBy) };
}

function headingsOf(rows: readonly Row[], key: string): Headings {
  const names = rows.map((row) => String(row[key] ?? ''));
  return new Map([...names.entries()].filter(([at, name]) => at === 0 || name !== names[at - 1]));
}

function withoutZeros(table: Table): Table {
  const keys = table.columns.filter(isFigure).map(({ key }) => key);
  const saysNothing = (row: Row): boolean => {
    const figures = keys.map((key) => row[key] ?? null).filter((cell) => cell !== null);
    return figures.length > 0 && figures.every(isZero);
  };
  const kept = [...table.rows.keys()].filter(
    (at) => table.emphases?.[at]?.kept === true || !saysNothing(table.rows[at] ?? {}),
  );
  const rows = kept.map((at) => table.rows[at] ?? {});
  return { ...table, rows, ...keptLeads(table, kept) };
}

/** What leads from the rows that are kept, which have other numbers now. */
function keptLeads(
  { alerts, behind, further, reckoned, emphases, brought }: Table,
  kept: readonly number[],
): Partial<Table> {
  const pick = (behind: Behind): Behind =>
    once(() => {
      const ids = behind();
      return kept.map((at) => ids?.[at] ?? []);
    });
  const numbers = new Map(kept.map((before, now) => [before, now]));
  const moved = (rows: readonly number[]): number[] =>
    rows.flatMap((before) => numbers.get(before) ?? []);
  const again = ({ plus, less, of, words }: Reckoning): Reckoning => ({
    plus: moved(plus),
    less: moved(less),
    of: moved(of),
    words,
  });
  const ways = kept.map((at) => reckoned?.[at]);
  return {
    ...(alerts ? { alerts: { ...alerts, of: kept.map((at) => alerts.of[at]) } } : {}),
    ...(behind ? { behind: pick(behind) } : {}),
    ...(further ? { further: { ...further, behind: pick(further.behind) } } : {}),
    ...(brought ? { brought: keptAmounts(brought, kept) } : {}),
    ...(emphases
      ? { emphases: kept.map((at) => emphases[at] ?? { kept: undefined, strong: undefined }) }
      : {}),
    ...(reckoned ? { reckoned: ways.map((way) => way && again(way)) } : {}),
  };
}

function keptAmounts(
  brought: NonNullable<Table['brought']>,
  kept: readonly number[],
): NonNullable<Table['brought']> {
  const columns = Object.entries(brought);
  return Object.fromEntries(
    columns.map(([key, rows]) => [key, madeOnce(() => kept.map((at) => rows()[at]))]),
  );
}

/** Whether a figure is exactly nothing. */
export function isZero(cell: Cell): boolean {
  return cell === 0 || cell === 0n || (isDecimal(cell) && cell.isZero());
}
