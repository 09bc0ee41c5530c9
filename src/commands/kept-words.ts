/** The words under which is kept what was found of a studio. */
import type { Day } from '../book.ts';
import { asBookEnd, type KnownEnd } from '../entry/book-end.ts';
import { asHoldings } from '../entry/held.ts';
import type { Kept } from '../read/kept.ts';

/** What the findings of a day are kept under. */
export function findingsWords(asOf: Day): string {
  return JSON.stringify(['findings', asOf]);
}

/** What the holdings of a day are kept under. */
export function holdingsWords(asOf: Day): string {
  return JSON.stringify(['holdings', asOf]);
}

/** What is kept under these is where the book ends, whatever day it is looked at. */
export const END_WORDS = JSON.stringify(['end']);

/** Where the book ends and what is held there on a day, as far as that was kept. */
export function keptEnd(kept: Kept, asOf: Day): KnownEnd | undefined {
  const end = asBookEnd(kept.recall(END_WORDS));
  const held = end && asHoldings(kept.recall(holdingsWords(asOf)));
  return held && { end, held };
}
