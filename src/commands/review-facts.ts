/** What is wrong in one state of the book, and what it comes to. */
import type { Book, Day } from '../book.ts';
import type { Judged } from '../check/found.ts';
import type { Finding } from '../problem.ts';
import { filedFigures, type FiledFigures } from '../review/filed.ts';
import { figuresOf, type AskedFigures, type Figure } from '../review/follows.ts';
import { filedIn } from './tables/filed.ts';

/** The book of one state with its problems and figures. */
export interface StateFacts {
  readonly book: Book;
  readonly findings: readonly Finding[];
  readonly figures: (asked: AskedFigures) => readonly Figure[];
  readonly filed: () => readonly FiledFigures[];
}

/** What is asked of a state as it is looked at on a day. */
export function factsOf({ book, findings, taken }: Judged, asOf: Day): StateFacts {
  const { sheets } = taken;
  return {
    book,
    findings,
    figures: (asked) => figuresOf(book, asked),
    filed: () => filedFigures(book, filedIn({ book, asOf, sheets })),
  };
}
