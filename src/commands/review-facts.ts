/** What is wrong in one state of the book, and what it comes to: found once for each state. */
import type { Book, Day } from '../book.ts';
import type { Taken } from '../check/check.ts';
import type { Finding } from '../problem.ts';
import type { Kept } from '../read/kept.ts';
import { flow } from '../reckon/flow.ts';
import { filedFigures, revivedFiled, type FiledFigures } from '../review/filed.ts';
import { figuresOf, type AskedFigures, type Figure } from '../review/follows.ts';
import { figuresWords, keepable, revived } from '../review/kept-figures.ts';
import { judgedOnce } from './judged.ts';
import { filedIn } from './tables/filed.ts';

/** The book of one state with its problems and figures. */
export interface StateFacts {
  readonly book: Book;
  readonly findings: readonly Finding[];
  readonly figures: (asked: AskedFigures) => readonly Figure[];
  readonly filed: () => readonly FiledFigures[];
}

/** Takes what is kept of the state, and keeps what is not. */
export function factsOf(taken: Taken, asOf: Day, kept?: Kept): StateFacts {
  // The figures need the whole of it all the same, and the rules make do with it.
  const prepare = (each: Book): void => void flow(each, asOf);
  const { book, findings } = judgedOnce({ taken, asOf, kept, prepare });
  const filed = (): readonly FiledFigures[] => filedOf(book, { asOf, sheets: taken.sheets, kept });
  return { book, findings, figures: figuresIn(book, kept), filed };
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

interface FiledAsked extends Pick<Taken, 'sheets'> {
  readonly asOf: Day;
  readonly kept: Kept | undefined;
}

function filedOf(book: Book, { asOf, sheets, kept }: FiledAsked): readonly FiledFigures[] {
  if (book.filed.size === 0) return [];
  const words = JSON.stringify(['filed', asOf]);
  const known = revivedFiled(kept?.recall(words));
  if (known) return known;
  const figures = filedFigures(book, filedIn({ book, asOf, sheets }));
  kept?.keep(words, figures);
  return figures;
}
