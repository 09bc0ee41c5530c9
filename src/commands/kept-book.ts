/** What is kept of a book in one state of its files: what was found, what is held, and where it ends. */
import type { Day } from '../book.ts';
import { asFindings } from '../check/kept-findings.ts';
import { asBookEnd, type BookEnd, type KnownEnd } from '../entry/book-end.ts';
import { asHoldings } from '../entry/held.ts';
import type { Finding } from '../problem.ts';
import type { Kept } from '../read/kept.ts';

/** All that is wrong as of a day, as far as that was kept. */
export function keptFindings(kept: Kept, asOf: Day): readonly Finding[] | undefined {
  return asFindings(kept.recall(findingsWords(dayKept(kept, asOf))));
}

/** Keeps it. */
export function keepFindings(kept: Kept, asOf: Day, findings: readonly Finding[]): void {
  kept.keep(findingsWords(dayKept(kept, asOf)), findings);
}

/** Where the book ends and what is held there on a day, as far as that was kept. */
export function keptEnd(kept: Kept, asOf: Day): KnownEnd | undefined {
  const { end } = endIn(kept);
  const held = end && asHoldings(kept.recall(holdingsWords(dayKept(kept, asOf))));
  return held && { end, held };
}

/** Keeps what a look at a book on a day came to. */
export function keepEnd(kept: Kept, asOf: Day, { held, end }: KnownEnd): void {
  kept.keep(holdingsWords(asOf), held);
  kept.keep(END_WORDS, { end, lookedAt: asOf });
}

/** The day that a book was last looked at, where nothing but the time has passed since; else the day itself. */
function dayKept(kept: Kept, asOf: Day): Day {
  const { end, lookedAt } = endIn(kept);
  if (!end || lookedAt === undefined) return asOf;
  return end.settled <= asOf && end.settled <= lookedAt ? lookedAt : asOf;
}

function endIn(kept: Kept): { readonly end?: BookEnd | undefined; readonly lookedAt?: Day } {
  const { end, lookedAt } = (kept.recall(END_WORDS) ?? {}) as Record<string, unknown>;
  return typeof lookedAt === 'string' ? { end: asBookEnd(end), lookedAt } : {};
}

function findingsWords(day: Day): string {
  return JSON.stringify(['findings', day]);
}

function holdingsWords(day: Day): string {
  return JSON.stringify(['holdings', day]);
}

const END_WORDS = JSON.stringify(['end']);
