/** What was sold, so that it can come back at what it had cost. */
import type { Day } from '../book.ts';
import { addTo } from '../grouping.ts';
import { monthOf } from '../number/date.ts';
import { NO_PIECES } from './batch.ts';
import type { SoldPieces, TakenFrom, Ware } from './ware.ts';

/** Keeps pieces of a product that a sale took. */
export function keepSold(
  ware: Ware,
  product: string,
  { day, taken }: { readonly day: Day; readonly taken: TakenFrom },
): void {
  const { lot, count, cost } = taken;
  const key = soldKey(monthOf(day), ware.soldNow.length);
  ware.soldNow.push({ product, fact: ware.facts.length });
  addTo(ware.sold, product, { lot, count, cost, gone: NO_PIECES, key });
}

/** What tells pieces that were sold from all others. */
export function soldKey(month: string, at: number): string {
  return `${month} ${at}`;
}

/** All that was sold of a product, the last first. */
export function* lastSold(ware: Ware, product: string): Generator<SoldPieces> {
  yield* (ware.sold.get(product) ?? []).toReversed();
  for (const month of ware.soldEarlier(product)) yield* month.toReversed();
}
