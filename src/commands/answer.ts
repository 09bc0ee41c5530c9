/** Tables to and from what can be kept between runs: decimals as texts, and back by their columns. */
import { decimal, isDecimal } from '../number/decimal.ts';
import type { Cell, Column, Row, Table } from '../report/table.ts';

/** A report as it was shown, and how many errors stood in its way. */
export interface Answer {
  readonly table: Table;
  readonly errors: number;
}

const DECIMAL_TYPES: readonly Column['type'][] = ['money', 'quantity', 'fraction'];

/** The answer as JSON can hold it. */
export function packAnswer({ table, errors }: Answer): unknown {
  const { totals, ...rest } = table;
  const packed = { ...rest, rows: table.rows.map(packRow) };
  return { errors, table: totals ? { ...packed, totals: packRow(totals) } : packed };
}

/** What `packAnswer` packed; undefined where it is something else. */
export function unpackAnswer(packed: unknown): Answer | undefined {
  if (typeof packed !== 'object' || packed === null || !('table' in packed)) return undefined;
  const { table, errors } = packed as Answer;
  const isDecimalKey = new Set(
    table.columns.filter(({ type }) => DECIMAL_TYPES.includes(type)).map(({ key }) => key),
  );
  const unpack = (row: Row): Row => unpackRow(row, isDecimalKey);
  const { totals } = table;
  const unpacked = { ...table, rows: table.rows.map(unpack) };
  return { errors, table: totals ? { ...unpacked, totals: unpack(totals) } : unpacked };
}

function packRow(row: Row): Record<string, unknown> {
  const cells = Object.entries(row).map(([key, cell]) => [
    key,
    isDecimal(cell) ? cell.toString() : cell,
  ]);
  return Object.fromEntries(cells) as Record<string, unknown>;
}

function unpackRow(row: Row, isDecimalKey: ReadonlySet<string>): Row {
  const cells = Object.entries(row).map(([key, cell]): [string, Cell] => [
    key,
    typeof cell === 'string' && isDecimalKey.has(key) ? decimal(cell) : cell,
  ]);
  return Object.fromEntries(cells);
}
