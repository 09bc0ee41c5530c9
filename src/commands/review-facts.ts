/** What is wrong in one state of the book, and what it comes to: found once for each state. */
import type { Book, Day } from '../book.ts';
import type { Taken } from '../check/check.ts';
import type { Finding } from '../problem.ts';
import type { Kept } from '../read/kept.ts';
import { flow } from '../reckon/flow.ts';
import { figuresOf, type AskedFigures, type Figure } from '../review/follows.ts';
import { figuresWords, keepable, revived } from '../review/kept-figures.ts';
import { judgedOnce } from './judged.ts';

/** The book of one state with its problems and figures. */
export interface StateFacts {
  readonly book: Book;
  readonly findings: readonly Finding[];
  readonly figures: (asked: AskedFigures) => readonly Figure[];
}

/** Takes what is kept of the state, and keeps what is not. */
export function factsOf(taken: Taken, asOf: Day, kept?: Kept): StateFacts {
  // The figures need the whole of it all the same, and the rules make do with it.
  const prepare = (each: Book): void => void flow(each, asOf);
  const { book, findings } = judgedOnce({ taken, asOf, kept, prepare });
  return { book, findings, figures: figuresIn(book, kept) };
}

function figuresIn(book: Book, kept?: Kept): StateFacts['figures'] {
  return (asked) => {
    const words = figuresWords(asked);
    const known = revived(kept?.recall(words));
    if (known) return known;
    const figures = figuresOf(book, asked);
    kept?.keep(words, keepable(figures));
    return figures;
  };
}
