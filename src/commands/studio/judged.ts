/** What a state of the studio comes to: its book, and all that is wrong with it, unless that is known. */
import { deserialize, serialize } from 'node:v8';
import type { Book, Day } from '../../book.ts';
import { holdsOn, judge, type FoundInState, type Judged } from '../../check/check.ts';
import { finishBook, typedRecords } from '../../check/draft.ts';
import {
  keptParts,
  partsKept,
  type FoundParts,
  type KeptParts,
  type StateBefore,
} from '../../check/going-on.ts';
import { takeIn, type ChangedReading, type TakenIn } from '../../check/taken.ts';
import { fingerprintOf } from '../../read/kept/fingerprint.ts';
import { DEFINITIONS } from '../../read/kept/kept-files.ts';
import type { Memory } from '../../read/kept/memory.ts';
import { monthKeys, type KeyOf } from '../../read/kept/outline.ts';
import { printed } from '../../render/printable.ts';
import { monthShelf, withState } from './known-months.ts';
import type { World } from '../world.ts';

/** Something that is known of a studio, or is to be. */
export interface Knowledge {
  /** What a state of the studio comes to; `prepare` is given the book before the rules are run, where they are. */
  readonly judge: (reading: ChangedReading, prepare?: (book: Book) => void) => Judged;
  /** Keeps what states came to: the studio as it is now, and commits beside it. */
  readonly save: (now: ToSave | undefined, beside?: readonly ToSave[]) => void;
}

type ToSave = Pick<Judged, 'book' | 'found' | 'parts'>;

const FOUND = 'found';

/** What is found by the hundred is not kept of several states. */
const FEW = 100;

/** The parts of what was found in one of them. */
const FOUND_PARTS = 'parts';

/** What a memory knows of a studio as it is looked at on a day. */
export function knowledgeIn(memory: Memory, asOf: Day, progress?: World['progress']): Knowledge {
  const months = monthShelf(memory, (month) => progress?.(printed`Going through ${month}`));
  let known = (memory.recallMore(FOUND) ?? []) as readonly FoundInState[];
  let before: StateBefore | undefined;
  // Of two records with one id nobody can tell which one an outline is of.
  const goOn = (book: Book, { draft, outlines }: TakenIn, content: string): void => {
    const keys = (): KeyOf => monthKeys(outlines.map((outline) => outline()));
    if (draft.isUnique) months.goOn(book, { content, keys });
  };
  const keep = ({ book, found }: ToSave, isBeside: boolean): void => {
    months.keep(book, isBeside);
    if (known.includes(found)) return;
    const few = known.filter(({ findings }) => findings.length <= FEW);
    known = withState(few, found, isBeside);
    memory.keepMore(FOUND, known);
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
      before ??= keptState(memory);
      progress?.(printed`Checking the records`);
      const checked = judge(taken, {
        day: asOf,
        before,
        prepare: (made) => {
          goOn(made, taken, content);
          prepare?.(made);
        },
      });
      const { findings, unnamed, parts } = checked;
      if (parts) before = { parts, typedIn: typedIn(taken) };
      const { draft, settled } = taken;
      const isUnique = draft.isUnique === true;
      return { ...checked, taken, found: { content, asOf, settled, isUnique, findings, unnamed } };
    },
    save: (now, beside = []) => {
      if (now) keep(now, false);
      for (const each of beside) keep(each, true);
      if (now?.parts) keepParts(memory, now.parts);
      memory.save();
    },
  };
}

function keepParts(memory: Memory, parts: FoundParts): void {
  memory.keepMore(FOUND_PARTS, true);
  memory.keepPart(DEFINITIONS, FOUND_PARTS, serialize(keptParts(parts)));
}

/** The state in which something was last kept. */
function keptState(memory: Memory): StateBefore | undefined {
  if (memory.recallMore(FOUND_PARTS) !== true) return undefined;
  const parts = partsKept(deserialize(memory.recallPart(DEFINITIONS, FOUND_PARTS)) as KeptParts);
  const known = new Map<string, ReturnType<StateBefore['typedIn']>>();
  return {
    parts,
    typedIn: (file) => {
      const was = memory.asItWas(file);
      if (!was || was.kind === 'studio' || was.content !== parts.files.get(file)?.content)
        return undefined;
      const typed = known.get(file) ?? typedRecords({ file, kind: was.kind, root: was.root });
      known.set(file, typed);
      return typed;
    },
  };
}

function typedIn({ draft }: TakenIn): StateBefore['typedIn'] {
  const files = new Map(draft.files.map((file) => [file.file, file]));
  return (file) => files.get(file)?.typed();
}
