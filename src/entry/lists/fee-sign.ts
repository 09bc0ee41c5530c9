/** How a list writes its fees: below zero as what was taken off, or above it as what it cost. */
import { numberOfCell } from './cell.ts';
import type { ListMap } from './map.ts';
import type { ListRow } from './table.ts';

/** Whether the first fee of a row whose amounts are above zero is below zero. */
export function feesAreBelowZero(
  { columns, decimals }: ListMap,
  rows: readonly ListRow[],
): boolean {
  const figure = (row: ListRow, field: string) =>
    numberOfCell(row.cells.get(columns.get(field) ?? '') ?? '', decimals);
  const isSold = (row: ListRow): boolean =>
    !['total', 'amount', 'price', 'count'].some((field) => figure(row, field)?.isNegative());
  for (const row of rows) {
    const fee = figure(row, 'fee') ?? figure(row, 'commission');
    if (fee && !fee.isZero() && isSold(row)) return fee.isNegative();
  }
  return false;
}
