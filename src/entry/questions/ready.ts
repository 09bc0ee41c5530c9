/** What stands ready: lots for a kind of firing, and finished ware in the studio. */
import type { Book, Day } from '../../book.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { lotsStanding } from '../../reckon/ware.ts';
import { stageName } from '../../check/shortage-words.ts';
import { countAt, piecesAt } from '../../reckon/lot.ts';

/** Pieces of one lot that stand ready for a firing. */
export interface ReadyLot {
  readonly lot: string;
  readonly count: number;
  /** `mug, 24 greenware ready`. */
  readonly note: string;
}

/** The lots whose next firing is of a kind, the oldest first. */
export function lotsReadyFor(book: Book, day: Day, kind: string): readonly ReadyLot[] {
  return [...lotsStanding(countsFlow(book, day).ware.lots)].flatMap((state) => {
    const stage = state.fired.findIndex((firing, at) => firing === kind && countAt(state, at) > 0);
    if (stage < 0) return [];
    const count = countAt(state, stage);
    const { id, product, title } = state.lot;
    const what = `${title ?? product}, ${count} ${stageName(state.fired, stage)} ready`;
    return [{ lot: id, count, note: what }];
  });
}

/**
 * Products with how many finished pieces stand at a place, none left out that has any there.
 * @param place a gallery's channel, or STUDIO_PLACE
 */
export function wareAt(book: Book, day: Day, place: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const state of lotsStanding(countsFlow(book, day).ware.lots)) {
    const count = piecesAt(state, place);
    const { product } = state.lot;
    if (count > 0) counts.set(product, (counts.get(product) ?? 0) + count);
  }
  return counts;
}
