/** Sorts the rows of a list by its map: what becomes a record, what is passed over, what adds others up. */
import { grouped } from '../../grouping.ts';
import { numberOfCell } from './cell.ts';
import type { ListMap, RowTest } from './map.ts';
import { NOTE_DAY, type ListRow, type ListTable } from './table.ts';

/** The rows of one record, and what tells it apart. */
export interface RowGroup {
  readonly key: string;
  readonly rows: readonly ListRow[];
}

export interface SortedRows {
  readonly groups: readonly RowGroup[];
  readonly skipped: number;
  readonly payouts: readonly ListRow[];
  readonly sums: readonly ListRow[];
  /** Rows of records that nothing tells apart. */
  readonly unnamed: readonly ListRow[];
  /** Rows that become records, in the list's order. */
  readonly used: readonly ListRow[];
}

/** Each row goes to one place, the first of: sums, payouts, skipped, records. */
export function sortRows({ rows }: ListTable, map: ListMap): SortedRows {
  const sums = rows.filter((row) => isSingledOut(row, map.sums));
  const payouts = rows.filter((row) => !sums.includes(row) && isSingledOut(row, map.payouts));
  const apart = new Set([...sums, ...payouts]);
  const others = rows.filter((row) => !apart.has(row));
  const used = others.filter((row) => !isSingledOut(row, map.skip) && isOfMoney(row, map));
  const named = grouped(used, (row) => keyOfRow(row, map));
  const unnamed = named.get('') ?? [];
  named.delete('');
  return {
    groups: [...named].map(([key, of]) => ({ key, rows: of })),
    skipped: others.length - used.length,
    payouts,
    sums,
    unnamed,
    used: used.filter((row) => !unnamed.includes(row)),
  };
}

/** What a row says in the column that tells rows apart. */
export function keyOfRow({ cells }: ListRow, { unique, form }: ListMap): string {
  return cells.get(form === 'notes' ? NOTE_DAY : (unique ?? '')) ?? '';
}

function isSingledOut({ cells }: ListRow, test: RowTest): boolean {
  return [...test].some(([column, values]) => values.includes(cells.get(column) ?? ''));
}

/** Where the map wants only money that went out, or came in, the sign of the amount decides. */
function isOfMoney({ cells }: ListRow, { money, columns, decimals }: ListMap): boolean {
  if (money === undefined) return true;
  const amount = numberOfCell(cells.get(columns.get('amount') ?? '') ?? '', decimals);
  return !amount || amount.isZero() || amount.isNegative() === (money === 'out');
}
