/** What a state of the studio comes to: its book, and all that is wrong with it, unless that is known. */
import type { Book, Day } from '../book.ts';
import { judge, takeIn, type ChangedReading, type Taken } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import { holdsOn, type Found, type Judged } from '../check/found.ts';
import { fingerprintOf } from '../read/fingerprint.ts';
import type { Memory } from '../read/memory.ts';
import { monthKeys, type KeyOf } from '../read/month-keys.ts';
import { monthShelf } from './known-months.ts';

/** Something that is known of a studio, or is to be. */
export interface Knowledge {
  /** What a state of the studio comes to; `prepare` is given the book before the rules are run, where they are. */
  readonly judge: (reading: ChangedReading, prepare?: (book: Book) => void) => Judged;
  /** Keeps what that state came to, in place of any other. */
  readonly save: (judged: Pick<Judged, 'book' | 'found'>) => void;
}

const FOUND = 'found';
/** A few states are kept: the studio as it is, as it was before the last change, a branch, a commit. */
const MOST_FOUND = 4;

/** What a memory knows of a studio as it is looked at on a day. */
export function knowledgeIn(memory: Memory, asOf: Day): Knowledge {
  const months = monthShelf(memory);
  const known = (memory.recallMore(FOUND) ?? []) as readonly Found[];
  // Of two records with one id nobody can tell which one an outline is of.
  const goOn = (book: Book, { draft, outlines }: Taken, content: string): void => {
    const keys = (): KeyOf => monthKeys(outlines.map((outline) => outline()));
    if (draft.isUnique) months.goOn(book, { content, keys });
  };
  return {
    judge: (reading, prepare) => {
      const taken = takeIn(reading);
      const content = fingerprintOf(reading);
      const found = known.find((each) => each.content === content && holdsOn(each, asOf));
      if (found) {
        taken.draft.isUnique = found.isUnique;
        const book = finishBook(taken.draft);
        goOn(book, taken, content);
        return { book, findings: found.findings, taken, found };
      }
      const { book, findings } = judge(taken, asOf, (made) => {
        goOn(made, taken, content);
        prepare?.(made);
      });
      const { draft, settled } = taken;
      const isUnique = draft.isUnique === true;
      return { book, findings, taken, found: { content, asOf, settled, isUnique, findings } };
    },
    save: ({ book, found }) => {
      months.keep(book);
      if (!known.includes(found)) memory.keepMore(FOUND, withFound(known, found));
      memory.save();
    },
  };
}

function withFound(known: readonly Found[], found: Found): readonly Found[] {
  const others = known.filter(({ content }) => content !== found.content);
  return [found, ...others].slice(0, MOST_FOUND);
}
