/** Runs the rules over a state of the studio, unless what they find in it is known. */
import type { Book, Day } from '../book.ts';
import { judge, type Checked, type Taken } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import type { Finding } from '../problem.ts';
import type { Kept } from '../read/kept.ts';
import { findingsWords } from './kept-words.ts';

/** A state's records, the day that it is looked at, and what was found of it before. */
export interface Judging {
  readonly taken: Taken;
  readonly asOf: Day;
  readonly kept: Kept | undefined;
  /** Is given the book before the rules are run, where they are. */
  readonly prepare?: (book: Book) => void;
}

/** The book and all that is wrong with it; kept where it was not known. */
export function judgedOnce({ taken, asOf, kept, prepare }: Judging): Checked {
  const words = findingsWords(asOf);
  const known = kept?.recall(words);
  if (Array.isArray(known)) {
    const { draft, clean } = taken;
    return { book: finishBook(draft), findings: known as Finding[], clean };
  }
  const checked = judge(taken, asOf, prepare);
  kept?.keep(words, checked.findings);
  return checked;
}
