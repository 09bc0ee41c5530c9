/** Glazes that are named nowhere: no fault, for a book may well leave them open. */
import type { Book, Day } from '../book.ts';
import type { Spot } from '../problem.ts';
import { countsFlow } from '../reckon/flow.ts';
import { lotsWithoutGlaze, openTakings } from '../reckon/ware/glaze-doubts.ts';
import { keySpot } from './finding.ts';

/** Where a glaze is missing: the first place of each way, and in how many it is. */
export interface UnnamedGlazes {
  /** Lines without a lot or a glaze, where pieces with different glazes were there. */
  readonly lines: Places;
  /** Lots without a glaze, though others of the product have one. */
  readonly lots: Places;
}

interface Places {
  readonly count: number;
  readonly first: Spot | undefined;
}

/** Those of a book, as it is on a day. */
export function unnamedGlazes(book: Book, day: Day): UnnamedGlazes {
  const { ware } = countsFlow(book, day);
  const lines = openTakings(ware);
  const lots = lotsWithoutGlaze(book, ware);
  return {
    lines: { count: lines.length, first: lines[0]?.at },
    lots: { count: lots.length, first: lots[0] && keySpot(lots[0]) },
  };
}
