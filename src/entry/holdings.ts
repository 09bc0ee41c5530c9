/** Reckons what a studio holds on a day, by going through its book. */
import type { Book, Day } from '../book.ts';
import { countsFlow } from '../reckon/flow.ts';
import { STUDIO_PLACE, countAt, stageName, type LotState } from '../reckon/ware.ts';
import { IN_THE_STUDIO, atGallery, finishedName, type HeldPieces, type Holdings } from './held.ts';

/** Goes through the whole book, unless its counts are known already. */
export function holdingsOf(book: Book, day: Day): Holdings {
  const { stock, ware } = countsFlow(book, day);
  const pieces = new Map<string, number>();
  for (const state of ware.lots.values())
    for (const [name, count] of standing(state)) pieces.set(name, (pieces.get(name) ?? 0) + count);
  return {
    stock: [...stock.pools.values()].map(({ id, unit, pool }) => [id, unit, String(pool.onHand)]),
    pieces: [...pieces],
  };
}

function standing(state: LotState): HeldPieces[] {
  const { product } = state.lot;
  const underway = state.fired.map((_, stage): HeldPieces => [
    `${product} ${stageName(state.fired, stage)}`,
    countAt(state, stage),
  ]);
  const inKiln = state.inKiln.map(({ count }): HeldPieces => [`${product} in the kiln`, count]);
  const finished = [...state.places].map(([key, count]): HeldPieces => {
    const [grade = '', place = ''] = key.split(' ');
    const where = place === STUDIO_PLACE ? IN_THE_STUDIO : atGallery(place);
    return [finishedName(product, grade === 'second' ? grade : 'first', where), count];
  });
  return [...underway, ...inKiln, ...finished];
}
