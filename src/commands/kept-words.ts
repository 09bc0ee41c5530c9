/** The words under which is kept what was found of a studio. */
import type { Day } from '../book.ts';

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
