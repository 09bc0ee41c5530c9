/** Reads and checks the two states of a studio that are compared, from the disk or from git. */
import type { Day } from '../../book.ts';
import type { Judged } from '../../check/check.ts';
import type { ChangedReading } from '../../check/taken.ts';
import type { Finding } from '../../problem.ts';
import { compareFiles, readCommit, type CommitReading } from '../../read/git/commit.ts';
import type { OnDisk } from '../../read/git/on-disk.ts';
import { listCommit } from '../../read/git/tree.ts';
import type { Memory } from '../../read/kept/memory.ts';
import { placesOf, textOnDisk, type TextOf } from '../../read/place.ts';
import { readStudio, type ReadFile } from '../../read/read.ts';
import { flow } from '../../reckon/flow.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { filedFigures } from '../../review/filed.ts';
import type { ReviewSide } from '../../review/review.ts';
import { uncomparedTexts } from '../reports/closed-since.ts';
import { knowledgeIn } from '../studio/judged.ts';
import { tellOfFiles } from '../studio/open.ts';
import { filedIn } from '../reports/filed.ts';
import { chooseSheet } from '../reports/tax-sheets.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';
import { notesOnConflicts, withConflicts } from './conflicts.ts';
import type { States } from './merging.ts';

/** Where and as of which day they are looked at. */
interface LookedFrom {
  readonly folder: string;
  readonly memory: Memory;
  readonly asOf: Day;
  readonly progress?: World['progress'];
}

/** Both states, checked, and the files that are not alike. */
interface ReviewSides {
  readonly old: ReviewSide;
  readonly now: ReviewSide;
  readonly touched: readonly string[];
  readonly notes: readonly string[];
  /** Keeps what both came to, for the next run. */
  readonly save: () => void;
}

/** Files of one state, before anything is said of them. */
interface ReviewState {
  readonly name: string;
  readonly files: readonly ReadFile[];
  readonly textOf: TextOf;
  readonly judged: Judged;
  readonly passedOver: CommitReading['passedOver'];
  /** Files of which nobody can tell whether they are the same here. */
  readonly uncompared?: OnDisk['uncompared'];
  /** Whether a file is the same here as one of this content. */
  readonly isSame: (file: string, blob: string) => boolean;
}

/** Reads and checks both; what they have in common is read and typed once. */
export async function readSides(
  states: States,
  looking: LookedFrom,
): Promise<ReviewSides | Refusal> {
  const { memory, asOf, progress } = looking;
  const knowledge = knowledgeIn(memory, asOf, progress);
  // The figures need the whole of it all the same, and the rules make do with it.
  const judge = (reading: ChangedReading): Judged =>
    knowledge.judge(reading, (book) => void flow(book, asOf));
  const now = await newState(states, { ...looking, judge });
  if (isRefusal(now)) return now;
  const { isSame, judged } = now;
  const taken = new Map(judged.taken.draft.files.map((file) => [file.file, file]));
  const clean = new Set(judged.taken.clean.map(({ file }) => file));
  const isShared = (file: string, blob: string): boolean => clean.has(file) && isSame(file, blob);
  const files = new Map(now.files.map((file) => [file.file, file]));
  const before = { isSame: isShared, fileOf: (file: string) => files.get(file)?.known };
  const reading = await readCommit(states.repository, states.old, {
    before,
    told: tellOfFiles(progress),
  });
  if (isRefusal(reading)) return reading;
  const blobOf = (file: string): string => reading.blobOf(file) ?? '';
  const shared = reading.files.map((file) =>
    isShared(file.file, blobOf(file.file)) ? (taken.get(file.file) ?? file) : file,
  );
  const old = stateOf(states.old.name, reading, judge({ ...reading, files: shared }));
  const listed = new Set([...files.keys(), ...old.files.map(({ file }) => file)]);
  const after = await reviewSide(now, looking);
  return {
    old: await reviewSide(old, looking),
    now: { ...after, findings: withConflicts(after.findings, states) },
    touched: [...listed].filter((file) => !files.has(file) || !isSame(file, blobOf(file))).sort(),
    notes: [...states.notes, ...notesOnConflicts(states), ...notesOn(old, now)],
    save: () => {
      if (states.now) knowledge.save(undefined, [judged, old.judged]);
      else knowledge.save(judged, [old.judged]);
    },
  };
}

/** The same with the way in which states are judged. */
interface JudgingStates extends LookedFrom {
  readonly judge: (reading: ChangedReading) => Judged;
}

async function newState(states: States, judging: JudgingStates): Promise<ReviewState | Refusal> {
  const { repository, old, now } = states;
  const { folder, memory, judge, progress } = judging;
  if (!now) {
    const listing = listCommit(repository, old);
    if (isRefusal(listing)) return listing;
    return treeState(judging, compareFiles(repository, listing));
  }
  const disk = repository.isBare ? {} : { disk: { studioDir: folder, memory } };
  const reading = await readCommit(repository, now, { ...disk, told: tellOfFiles(progress) });
  if (isRefusal(reading)) return reading;
  return { ...stateOf(now.name, reading, judge(reading)), uncompared: states.uncompared };
}

async function treeState(
  { folder, memory, judge, progress }: JudgingStates,
  onDisk: OnDisk,
): Promise<ReviewState | Refusal> {
  const reading = await readStudio(folder, { memory, told: tellOfFiles(progress) });
  if ('refused' in reading) return reading;
  const judged = judge(reading);
  reading.remember(judged.taken.clean);
  const textOf = (file: string): string | undefined => textOnDisk(folder, file);
  const { files } = reading;
  const { same, uncompared } = onDisk;
  const isSame = (file: string): boolean => same.has(file);
  const name = 'the working tree';
  return { name, files, textOf, judged, passedOver: [], isSame, uncompared };
}

function stateOf(name: string, reading: CommitReading, judged: Judged): ReviewState {
  const { files, textOf, passedOver, blobOf } = reading;
  const isSame = (file: string, blob: string): boolean => blobOf(file) === blob;
  return { name, files, textOf, judged, passedOver, isSame };
}

async function reviewSide(
  { name, judged, textOf }: ReviewState,
  { asOf }: LookedFrom,
): Promise<ReviewSide> {
  const { book, findings, taken } = judged;
  const { draft, unread, sheets } = taken;
  const ids = new Set(draft.unsound.map(({ id }) => id));
  const files = new Set(unread.filter(isError).map(({ at }) => at.file));
  const placeOf = await placesOf(textOf);
  const filed = (): ReturnType<typeof filedFigures> =>
    filedFigures(book, filedIn({ book, asOf, sheets }));
  const sheetOf = (year: string): TaxSheet | undefined => {
    const chosen = chooseSheet({ own: sheets, studio: book.studio, named: undefined, year });
    return isRefusal(chosen) ? undefined : chosen.sheet;
  };
  const ownSheets = new Map(
    sheets.map((sheet) => [
      sheet.file,
      'content' in sheet ? JSON.stringify(sheet.content.root) : '',
    ]),
  );
  return { name, book, findings, faulty: { ids, files }, placeOf, filed, sheetOf, ownSheets };
}

// An id that stands twice keeps nothing else of its file from being read.
function isError({ severity, rule }: Finding): boolean {
  return severity === 'error' && rule !== 'duplicate-id';
}

function notesOn(...states: readonly ReviewState[]): string[] {
  const passed = new Map(
    states.flatMap(({ passedOver }) => passedOver).map((each) => [each.path, each.what]),
  );
  const uncompared = states.flatMap((state) => uncomparedTexts(state.uncompared ?? new Map()));
  return [
    ...[...passed].map(([path, what]) =>
      what === 'link'
        ? `${path} is a link, which is not followed in a commit.`
        : `${path} is a repository of its own, which is passed over.`,
    ),
    ...uncompared.map((text) => `${text}.`),
  ];
}
