/** Reads and checks the two states of a studio that are compared, from the disk or from git. */
import type { Day } from '../book.ts';
import { takeIn, type Taken } from '../check/check.ts';
import { finishBook } from '../check/draft.ts';
import type { Store } from '../memory/store.ts';
import type { Finding } from '../problem.ts';
import { compareFiles, readCommit, type CommitReading } from '../read/git/commit.ts';
import { keptOfStudio } from '../read/answers.ts';
import { keptOfCommit } from '../read/git/kept.ts';
import type { OnDisk } from '../read/git/on-disk.ts';
import type { Kept } from '../read/kept.ts';
import type { Commit, Repository } from '../read/git/repository.ts';
import { listCommit } from '../read/git/tree.ts';
import { placesOf, textOnDisk, type TextOf } from '../read/place.ts';
import { readStudio, type ReadFile } from '../read/read.ts';
import type { ReviewSide } from '../review/review.ts';
import { factsOf } from './review-facts.ts';
import { uncomparedTexts } from './uncompared.ts';
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
  /** Where the studio is remembered, if anywhere. */
  readonly store: Store | undefined;
  /** Where it is remembered what commits come to, if anywhere. */
  readonly commits: Store | undefined;
  readonly asOf: Day;
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
  /** Files of which nobody can tell whether they are the same here. */
  readonly uncompared?: OnDisk['uncompared'];
  /** Whether a file is the same here as one of this content. */
  readonly isSame: (file: string, blob: string) => boolean;
  /** What was found of it before. */
  readonly kept?: Kept | undefined;
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
  if (isRefusal(reading)) return reading;
  const blobOf = (file: string): string => reading.blobOf(file) ?? '';
  // Records that both have are typed once, and told alike at a glance.
  const book = finishBook(now.taken.draft);
  const twins = reading.files.map((file) => {
    const twin = files.get(file.file);
    return twin ? { ...file, before: { book, root: twin.root } } : file;
  });
  const taken = takeIn({ ...reading, files: twins });
  const kept = keptOfCommit({ store: looking.commits, reading });
  const old = { ...stateOf(states.old.name, reading, taken), kept };
  const listed = new Set([...files.keys(), ...old.files.map(({ file }) => file)]);
  return {
    old: await sideOf(old, looking),
    now: await sideOf(now, looking),
    touched: [...listed].filter((file) => !files.has(file) || !isSame(file, blobOf(file))).sort(),
    notes: notesOn(old, now),
  };
}

async function newState(states: States, looking: Looking): Promise<State | Refusal> {
  const { repository, old, now } = states;
  const { folder, store, commits } = looking;
  if (!now) {
    const listing = listCommit(repository, old);
    if (isRefusal(listing)) return listing;
    return treeState(folder, { store, onDisk: compareFiles(repository, listing) });
  }
  const disk = repository.isBare ? {} : { disk: { studioDir: folder, store } };
  const reading = await readCommit(repository, now, disk);
  if (isRefusal(reading)) return reading;
  const kept = keptOfCommit({ store: commits, reading });
  return { ...stateOf(now.name, reading, takeIn(reading)), kept };
}

async function treeState(
  folder: string,
  { store, onDisk }: Pick<Looking, 'store'> & { readonly onDisk: OnDisk },
): Promise<State | Refusal> {
  const kept = keptOfStudio(folder, store);
  const reading = await readStudio(folder, { store });
  if ('refused' in reading) return reading;
  const taken = takeIn(reading);
  reading.remember(taken.clean);
  const textOf = (file: string): string | undefined => textOnDisk(folder, file);
  const { files } = reading;
  const { same, uncompared } = onDisk;
  const isSame = (file: string): boolean => same.has(file);
  const name = 'the working tree';
  return { name, files, textOf, taken, passedOver: [], isSame, kept, uncompared };
}

function stateOf(name: string, reading: CommitReading, taken: Taken): State {
  const { files, textOf, passedOver, blobOf } = reading;
  const isSame = (file: string, blob: string): boolean => blobOf(file) === blob;
  return { name, files, textOf, taken, passedOver, isSame };
}

async function sideOf(
  { name, taken, textOf, kept }: State,
  { asOf }: Looking,
): Promise<ReviewSide> {
  const ids = new Set(taken.draft.unsound.map(({ id }) => id));
  const files = new Set(taken.unread.filter(isError).map(({ at }) => at.file));
  const facts = factsOf(taken, asOf, kept);
  return { name, ...facts, faulty: { ids, files }, placeOf: await placesOf(textOf) };
}

// An id that stands twice keeps nothing else of its file from being read.
function isError({ severity, rule }: Finding): boolean {
  return severity === 'error' && rule !== 'duplicate-id';
}

function notesOn(...states: readonly State[]): string[] {
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
