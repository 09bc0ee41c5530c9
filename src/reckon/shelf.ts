/** Finished ware by grade and place: what each holds of the cost of its lot. */
import type { Grade } from '../book.ts';
import { leftIn, restOf, type Pieces } from './batch.ts';
import { shareCost } from './cost.ts';
import { STUDIO_PLACE, placeKey, type LotState } from './ware.ts';

/** Finished pieces of one lot, grade and place. */
export interface PlacedPieces extends Pieces {
  readonly grade: Grade;
  readonly place: string;
}

/**
 * All finished pieces of a lot are one batch, whatever their grade and wherever they stand: so they cost
 * the same, and being sent or coming back moves no money. What a grade at a place holds of the cost is
 * its share by count, in the order of the studio, then the galleries by id, firsts before seconds.
 */
export function placedPieces(state: LotState): PlacedPieces[] {
  if (leftIn(state.shelf) === 0) return [];
  const placed = placesOf(state).flatMap((place) =>
    (['first', 'second'] as const).flatMap((grade) => {
      const count = state.places.get(placeKey(grade, place)) ?? 0;
      return count === 0 ? [] : [{ grade, place, count }];
    }),
  );
  const costs = shareCost(
    restOf(state.shelf).cost,
    placed.map(({ count }) => BigInt(count)),
  );
  return placed.map((pieces, at) => ({ ...pieces, cost: costs[at] ?? {} }));
}

/** The studio first; its own place is empty, so it comes before every id. */
function placesOf({ places }: LotState): string[] {
  const found = [...places.keys()].map((key) => key.split(' ')[1] ?? STUDIO_PLACE);
  return [...new Set(found)].sort();
}
