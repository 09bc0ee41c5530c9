/** The whole check, without disk: what was taken in of a studio to the book of all that is sound, and what is wrong. */
import type { Book, Day } from '../book.ts';
import type { Finding } from '../problem.ts';
import { unanswered } from './answered.ts';
import { finishBook, namedIn } from './draft.ts';
import { foundTogether, isStillUnique, type FoundParts, type StateBefore } from './going-on.ts';
import { withMeaning } from './meant.ts';
import { RULES, runRules } from './rules.ts';
import { onceOfEachLot } from './rules/early.ts';
import { duplicateIds } from './rules/files.ts';
import { filedBesideErrors } from './filed-beside-errors.ts';
import { filingFindings } from './rules/filings.ts';
import { sheetYearFindings } from './rules/sheet-years.ts';
import type { TakenIn } from './taken.ts';
import { unnamedGlazes, type UnnamedGlazes } from './unnamed-glazes.ts';
import { unsoundIn } from './unsound.ts';

/** The book, and everything that is wrong with it. */
export interface Checked {
  readonly book: Book;
  /** In no particular order. */
  readonly findings: readonly Finding[];
  readonly unnamed: UnnamedGlazes;
  /** What the rules found, part by part; none where something is left out for its faults. */
  readonly parts?: FoundParts | undefined;
}

/** The day that a state is looked at, and how. */
interface LookedOn {
  readonly day: Day;
  /** Is given the book before the rules are run, so that they find what it reckons. */
  readonly prepare?: (book: Book) => void;
  /** What is known of an earlier state. */
  readonly before?: StateBefore | undefined;
}

/** Runs the rules over what was taken in, where they may find something new. */
export function judge(taken: TakenIn, { day, prepare, before }: LookedOn): Checked {
  const { draft, unread, faults, sheets, strays } = taken;
  if (before && isStillUnique(before, draft.files)) draft.isUnique = true;
  const book = finishBook(draft);
  prepare?.(book);
  const unsound = unsoundIn(draft.unsound, unread);
  const doubled = draft.isUnique ? [] : duplicateIds(namedIn(draft));
  // Before the others, which then make do with what it has reckoned.
  const filed = filingFindings(book, { day, own: sheets, files: strays });
  const isWhole = draft.isUnique && unsound.ids.size + unsound.kinds.size === 0;
  const together = isWhole ? foundTogether({ rules: RULES, taken, book, day, before }) : undefined;
  const broken = together?.findings ?? runRules(book, day, unsound);
  const years = sheetYearFindings(book, { day, own: sheets, files: draft.files });
  const own = [...unread, ...withMeaning(faults, book), ...doubled, ...years];
  const still = filedBesideErrors(filed, [...own, ...broken], {
    book,
    unsound: draft.unsound,
  });
  const findings = unanswered([...own, ...still, ...onceOfEachLot(broken)], book);
  return { book, findings, unnamed: unnamedGlazes(book, day), parts: together?.parts };
}

/** All that is wrong in a state. */
export interface FoundInState {
  /** A fingerprint of all that was read. */
  readonly content: string;
  readonly asOf: Day;
  /** From this day on nothing is found or not found by the mere passing of time. */
  readonly settled: Day;
  /** Whether no id stands twice. */
  readonly isUnique: boolean;
  readonly findings: readonly Finding[];
  readonly unnamed: UnnamedGlazes;
}

/** A state that was looked at. */
export interface Judged extends Omit<Checked, 'unnamed'> {
  readonly taken: TakenIn;
  readonly found: FoundInState;
}

/** Whether what was found of a state holds on a day. */
export function holdsOn({ asOf, settled }: FoundInState, day: Day): boolean {
  return day === asOf || (settled <= asOf && settled <= day);
}
