/** What a studio holds on a day: every pool of stock and every pile of pieces. */
import type { Book, Day, Grade } from '../book.ts';
import type { Measure } from '../number/measure.ts';
import type { Unit } from '../number/unit.ts';
import { countsFlow } from '../reckon/flow.ts';
import { lotsStanding } from '../reckon/ware.ts';
import { stageName } from '../check/shortage-words.ts';
import { STUDIO_PLACE, countAt, type LotState } from '../reckon/lot.ts';

/** So much of a material or of a recipe's mix, and the unit that it is told in. */
interface HeldStock {
  readonly id: string;
  readonly unit: Unit;
  readonly quantity: Measure;
}

/** So many pieces under one name: `mug bisqueware`, `mug seconds at west-window`. */
type HeldPieces = readonly [name: string, count: number];

export interface Holdings {
  readonly stock: readonly HeldStock[];
  readonly pieces: ReadonlyMap<string, number>;
}

/** All that is there at the end of the day. */
export function holdingsOf(book: Book, day: Day): Holdings {
  const { stock, ware } = countsFlow(book, day);
  const pieces = new Map<string, number>();
  for (const state of lotsStanding(ware.lots))
    for (const [name, count] of piles(state)) pieces.set(name, (pieces.get(name) ?? 0) + count);
  return {
    stock: [...stock.pools.values()].map(({ id, unit, pool }) => ({
      id,
      unit,
      quantity: pool.onHand,
    })),
    pieces,
  };
}

function piles(state: LotState): HeldPieces[] {
  const { product } = state.lot;
  const underway = state.fired.map((_, stage): HeldPieces => [
    `${product} ${stageName(state.fired, stage)}`,
    countAt(state, stage),
  ]);
  const inKiln = state.inKiln.map(({ count }): HeldPieces => [`${product} in the kiln`, count]);
  const finished = [...state.places].map(([key, count]): HeldPieces => {
    const [grade = '', place = ''] = key.split(' ');
    const where = place === STUDIO_PLACE ? 'in the studio' : `at ${place}`;
    return [finishedName(product, grade === 'second' ? grade : 'first', where), count];
  });
  return [...underway, ...inKiln, ...finished];
}

function finishedName(product: string, grade: Grade, where: string): string {
  return `${product} ${grade === 'second' ? 'seconds ' : ''}${where}`;
}
