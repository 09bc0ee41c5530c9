/** A table as people read it: without rows that say nothing, and its parts under headings. */
import { isDecimal } from '../number/decimal.ts';
import { once } from '../once.ts';
import type { Behind, Cell, Reckoning, Row, Table } from '../report/table.ts';
import { isFigure } from './shown.ts';

/** Row → the heading that stands above it. */
export type Headings = ReadonlyMap<number, string>;

/** A table for people, and where its parts begin. */
export interface Reading {
  /** Without the column that parts the rows, which the headings stand for. */
  readonly table: Table;
  /** Headings as the table has them, not guarded yet. */
  readonly headings: Headings;
}

/**
 * What people see of a table: rows whose figures are all zero are left out where the table says so,
 * and a column that parts the rows becomes headings.
 */
export function forReading(table: Table): Reading {
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
  const kept = [...table.rows.keys()].filter((at) => !saysNothing(table.rows[at] ?? {}));
  const rows = kept.map((at) => table.rows[at] ?? {});
  return { ...table, rows, ...keptLeads(table, kept) };
}

/** What leads from the rows that are kept, which have other numbers now. */
function keptLeads({ behind, further, reckoned }: Table, kept: readonly number[]): Partial<Table> {
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
    ...(behind ? { behind: pick(behind) } : {}),
    ...(further ? { further: { ...further, behind: pick(further.behind) } } : {}),
    ...(reckoned ? { reckoned: ways.map((way) => way && again(way)) } : {}),
  };
}

function isZero(cell: Cell): boolean {
  return cell === 0 || cell === 0n || (isDecimal(cell) && cell.isZero());
}
