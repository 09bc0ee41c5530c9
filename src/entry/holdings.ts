/** What a studio holds on a day: every pool of stock and every pile of pieces, in a form that JSON can keep. */
import type { Book, Day } from '../book.ts';
import type { Unit } from '../number/unit.ts';
import { countsFlow } from '../reckon/flow.ts';
import { quantityOf } from '../reckon/pool.ts';
import { STUDIO_PLACE, countAt, stageName, type LotState } from '../reckon/ware.ts';

/** So much of a material or of a recipe's mix, with every digit. */
export type HeldStock = readonly [id: string, unit: Unit, quantity: string];

/** So many pieces under one name: `mug bisqueware`, `mug seconds at west-window`. */
export type HeldPieces = readonly [name: string, count: number];

export interface Holdings {
  readonly stock: readonly HeldStock[];
  readonly pieces: readonly HeldPieces[];
}

/** Goes through the whole book, unless its counts are known already. */
export function holdingsOf(book: Book, day: Day): Holdings {
  const { stock, ware } = countsFlow(book, day);
  const pieces = new Map<string, number>();
  for (const state of ware.lots.values())
    for (const [name, count] of standing(state)) pieces.set(name, (pieces.get(name) ?? 0) + count);
  return {
    stock: [...stock.pools.values()].map(({ id, unit, pool }) => [
      id,
      unit,
      quantityOf(pool).toString(),
    ]),
    pieces: [...pieces],
  };
}

/** Holdings that were kept; undefined where it is something else. */
export function asHoldings(kept: unknown): Holdings | undefined {
  const { stock, pieces } = (kept ?? {}) as Partial<Holdings>;
  return Array.isArray(stock) && Array.isArray(pieces) ? { stock, pieces } : undefined;
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
    const where = place === STUDIO_PLACE ? 'in the studio' : `at ${place}`;
    return [`${product} ${grade === 'second' ? 'seconds ' : ''}${where}`, count];
  });
  return [...underway, ...inKiln, ...finished];
}
