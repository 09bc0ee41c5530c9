/** Lots that have finished pieces, by product, grade and place: first finished, first taken. */
import type { LotState, Ware } from './ware.ts';

/** The list of a product's lots that have pieces of a grade at a place, first finished first; it can be changed. */
export function readyLots(ware: Ware, product: string, key: string): LotState[] {
  if (ware.unlisted.size > 0) listProduct(ware, product);
  const places = ware.ready.get(product) ?? new Map<string, LotState[]>();
  const ready = places.get(key) ?? [];
  if (ready.length === 0) {
    places.set(key, ready);
    ware.ready.set(product, places);
  }
  return ready;
}

/** Puts a lot into such a list. */
export function insertInOrder(ready: LotState[], state: LotState): void {
  const index = ready.findLastIndex((other) => comesBefore(other, state));
  ready.splice(index + 1, 0, state);
}

/** Whether a lot was finished before another; of one day by id. */
export function comesBefore(one: LotState, other: LotState): boolean {
  const [a = '', b = ''] = [one.finishedOn, other.finishedOn];
  return a === b ? one.lot.id < other.lot.id : a < b;
}

/** Makes the lists of a product's lots that have finished pieces, where nobody has asked for them yet. */
function listProduct(ware: Ware, product: string): void {
  const ids = ware.unlisted.get(product) ?? [];
  ware.unlisted.delete(product);
  for (const state of ids.flatMap((id) => ware.lots.get(id) ?? [])) listLot(ware, state);
}

function listLot(ware: Ware, state: LotState): void {
  for (const [key, count] of state.places)
    if (count !== 0) insertInOrder(readyLots(ware, state.lot.product, key), state);
}

/** Lots of a product that have pieces of a grade at a place, first finished first. */
export function readyAt(ware: Ware, product: string, key: string): readonly LotState[] {
  if (ware.unlisted.size > 0) listProduct(ware, product);
  return ware.ready.get(product)?.get(key) ?? [];
}

/** The lot that was finished first, first; of one day by id. */
export function byFinish(one: LotState, other: LotState): number {
  return comesBefore(one, other) ? -1 : 1;
}
