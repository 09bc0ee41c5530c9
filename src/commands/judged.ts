/** Runs the rules over a state of the studio, unless what they find in it is known. */
import type { Book, Day } from '../book.ts';
import { judge, type Checked, type Taken } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import type { Kept } from '../read/kept.ts';
import { keepFindings, keptFindings } from './kept-book.ts';

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
  const findings = kept && keptFindings(kept, asOf);
  if (findings) {
    const { draft, clean } = taken;
    return { book: finishBook(draft), findings, clean };
  }
  const checked = judge(taken, asOf, prepare);
  if (kept) keepFindings(kept, asOf, checked.findings);
  return checked;
}
