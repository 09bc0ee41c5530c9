/** Reads and checks the two states of a studio that are compared, from the disk or from git. */
import type { Book, Day } from '../book.ts';
import { judge, takeIn, type Taken } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import type { Finding } from '../problem.ts';
import { readCommit, unchangedOnDisk, type CommitReading } from '../read/git/commit.ts';
import type { Commit, Repository } from '../read/git/repository.ts';
import { placesOf, textOnDisk, type TextOf } from '../read/place.ts';
import { readStudio, type ReadFile } from '../read/read.ts';
import type { ReviewSide } from '../review/review.ts';
import { isRefusal, type Refusal } from './world.ts';

/** Two states to compare; without a new commit the new state is the working tree. */
export interface States {
  readonly repository: Repository;
  readonly old: Commit;
  readonly now: Commit | undefined;
}

/** Where and as of which day they are looked at. */
export interface Looking {
  readonly folder: string;
  readonly stamp: string;
  readonly asOf: Day;
  /** Is given each book before its rules are run. */
  readonly prepare: (book: Book) => void;
}

/** Both states, checked, and the files that are not alike. */
export interface Sides {
  readonly old: ReviewSide;
  readonly now: ReviewSide;
  readonly touched: readonly string[];
  readonly notes: readonly string[];
}

/** Files of one state, before anything is said of them. */
interface State {
  readonly name: string;
  readonly files: readonly ReadFile[];
  readonly textOf: TextOf;
  readonly taken: Taken;
  readonly passedOver: CommitReading['passedOver'];
  /** Whether a file is the same here as one of this content. */
  readonly isSame: (file: string, blob: string) => boolean;
}

/** Reads and checks both; what they have in common is read once. */
export async function readSides(states: States, looking: Looking): Promise<Sides | Refusal> {
  const now = await newState(states, looking);
  if (isRefusal(now)) return now;
  const { isSame } = now;
  const files = new Map(now.files.map((file) => [file.file, file]));
  const clean = new Set(now.taken.clean);
  const isShared = (file: string, blob: string): boolean => clean.has(file) && isSame(file, blob);
  const before = { isSame: isShared, fileOf: (file: string) => files.get(file) };
  const reading = await readCommit(states.repository, states.old, { before });
  if (!reading) return { refused: `git can't list the files of ${states.old.name}` };
  const blobOf = (file: string): string => reading.blobOf(file) ?? '';
  // Records that both have are typed once, and told alike at a glance.
  const book = finishBook(now.taken.draft);
  const shared = reading.files.map((file) =>
    isShared(file.file, blobOf(file.file)) ? { ...file, book } : file,
  );
  const old = stateOf(states.old.name, reading, takeIn({ ...reading, files: shared }));
  const listed = new Set([...files.keys(), ...old.files.map(({ file }) => file)]);
  return {
    old: await sideOf(old, looking),
    now: await sideOf(now, looking),
    touched: [...listed].filter((file) => !files.has(file) || !isSame(file, blobOf(file))).sort(),
    notes: notesOn(old, now),
  };
}

async function newState(
  { repository, old, now }: States,
  { folder, stamp }: Looking,
): Promise<State | Refusal> {
  if (!now) return treeState(folder, { stamp, isSame: unchangedOnDisk(repository, old) });
  const disk = repository.isBare ? {} : { disk: { studioDir: folder, stamp } };
  const reading = await readCommit(repository, now, disk);
  if (!reading) return { refused: `git can't list the files of ${now.name}` };
  return stateOf(now.name, reading, takeIn(reading));
}

async function treeState(
  folder: string,
  { stamp, isSame }: { readonly stamp: string; readonly isSame: State['isSame'] },
): Promise<State | Refusal> {
  const reading = await readStudio(folder, { cache: true, stamp });
  if ('refused' in reading) return reading;
  const taken = takeIn(reading);
  reading.remember(taken.clean);
  const textOf = (file: string): string | undefined => textOnDisk(folder, file);
  const { files } = reading;
  return { name: 'the working tree', files, textOf, taken, passedOver: [], isSame };
}

function stateOf(name: string, reading: CommitReading, taken: Taken): State {
  const { files, textOf, passedOver, blobOf } = reading;
  const isSame = (file: string, blob: string): boolean => blobOf(file) === blob;
  return { name, files, textOf, taken, passedOver, isSame };
}

async function sideOf(
  { name, taken, textOf }: State,
  { asOf, prepare }: Looking,
): Promise<ReviewSide> {
  const { book, findings } = judge(taken, asOf, prepare);
  const ids = new Set(taken.draft.unsound.map(({ id }) => id));
  const files = new Set(taken.unread.filter(isError).map(({ at }) => at.file));
  return { name, book, findings, faulty: { ids, files }, placeOf: await placesOf(textOf) };
}

// An id that stands twice keeps nothing else of its file from being read.
function isError({ severity, rule }: Finding): boolean {
  return severity === 'error' && rule !== 'duplicate-id';
}

function notesOn(...states: readonly State[]): string[] {
  const passed = new Map(
    states.flatMap(({ passedOver }) => passedOver).map((each) => [each.path, each.what]),
  );
  return [...passed].map(([path, what]) =>
    what === 'link'
      ? `${path} is a link, which is not followed in a commit.`
      : `${path} is a repository of its own, which is passed over.`,
  );
}
