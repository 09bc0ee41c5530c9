/** Opens a studio for a command: reads it and checks it. */
import { setFlagsFromString } from 'node:v8';
import type { Book, Day } from '../../book.ts';
import type { Judged } from '../../check/check.ts';
import type { TakenIn } from '../../check/taken.ts';
import type { UnnamedGlazes } from '../../check/unnamed-glazes.ts';
import { countOf } from '../../fold.ts';
import { madeOnce } from '../../once.ts';
import type { Finding } from '../../problem.ts';
import type { Commit } from '../../read/git/repository.ts';
import { SETTINGS_FILE } from '../../read/kinds.ts';
import { filesDigest } from '../../read/kept/fingerprint.ts';
import { openMemory } from '../../read/kept/memory.ts';
import { textOnDisk, type TextOf } from '../../read/place.ts';
import {
  readStudio,
  type EditedFile,
  type ReadingTold,
  type StudioReading,
} from '../../read/read.ts';
import type { OwnSheet } from '../../read/tax-sheet.ts';
import { printed } from '../../render/printable.ts';
import { findAsked, type StudioFound } from './find-studio.ts';
import { knowledgeIn, type Knowledge } from './judged.ts';
import type { FindingOptions } from '../options.ts';
import { isRefusal, type Asked, type Refusal, type World } from '../world.ts';

/** A studio, read and checked. */
export interface OpenedBook {
  readonly folder: string;
  readonly book: Book;
  readonly asOf: Day;
  /** All that is wrong, in no particular order and without line numbers. */
  readonly findings: readonly Finding[];
  readonly errors: number;
  readonly unnamed: UnnamedGlazes;
  /** The commit whose book it is, where it is not the one on the disk. */
  readonly commit?: Commit;
  /** Path of the studio in the repository of that commit: empty, or with a slash at its end. */
  readonly prefix?: string;
  /** The tax sheet that the settings name, where it is a file of the studio's own. */
  readonly sheet?: OwnSheet | undefined;
  /** All tax sheets of the studio's own that the settings or filings name. */
  readonly sheets: readonly OwnSheet[];
  /** A digest of the files that were read. */
  readonly digest: () => string;
  /** The text of a file, in the state that the book is of. */
  readonly textOf: TextOf;
  /** Keeps what was found and reckoned, for the next run; to be called at the end. */
  readonly save: () => void;
}

/** The same with the files as they were read, for those who change some of them. */
export interface OpenedFiles extends OpenedBook {
  readonly reading: StudioReading;
  readonly taken: TakenIn;
  readonly judge: Knowledge['judge'];
  /** Keeps what the studio comes to after a change, in place of what it came to before. */
  readonly saveAs: (judged: Judged, edited: readonly EditedFile[]) => void;
}

/** Reads and checks a studio that was found, as it is or was; `prepare` is given the book before the rules are run. */
export async function openFound(
  found: StudioFound | Refusal,
  prepare?: (book: Book) => void,
): Promise<OpenedBook | Refusal> {
  if (isRefusal(found)) return found;
  return found.past ? openPast(found, found.past, prepare) : openRead(found, prepare);
}

/** Opens what a commit has of the studio; what is on the disk just so comes from the memory. */
async function openPast(
  { folder, asOf, store, progress }: StudioFound,
  { commit, repository }: NonNullable<StudioFound['past']>,
  prepare?: (book: Book) => void,
): Promise<OpenedBook | Refusal> {
  const { readCommit } = await import('../../read/git/commit.ts');
  const memory = openMemory(folder, store);
  const disk = { studioDir: folder, memory };
  const reading = await readCommit(repository, commit, { disk, told: tellOfFiles(progress) });
  if (isRefusal(reading)) return reading;
  if (reading.blobOf(SETTINGS_FILE) === undefined)
    return { refused: `${commit.name} has no studio.yaml there` };
  const knowledge = knowledgeIn(memory, asOf, progress);
  const judged = knowledge.judge(reading, prepare);
  const state = opened({ folder, asOf, textOf: reading.textOf, reading }, judged);
  const save = (): void => {
    knowledge.save(undefined, [judged]);
  };
  return { ...state, commit, prefix: repository.prefix, save };
}

/** Opens the studio that is asked for with its files, so that some of them can be changed. */
export async function openFiles(
  asked: Asked<FindingOptions>,
  world: World,
): Promise<OpenedFiles | Refusal> {
  const found = findAsked(asked, world);
  return isRefusal(found) ? found : openRead(found);
}

// Left to itself the heap doubles before it is swept, which a book of decades pays in memory. At 70 % one
// of a hundred years takes a twelfth more time and a third less memory; one of ten years has room enough.
const SWEEP_SOON = '--heap-growing-percent=70';
const MANY_FILES = 10_000;

async function openRead(
  { folder, asOf, store, progress }: StudioFound,
  prepare?: (book: Book) => void,
): Promise<OpenedFiles | Refusal> {
  const memory = openMemory(folder, store);
  const reading = await readStudio(folder, { memory, told: tellOfFiles(progress) });
  if (isRefusal(reading)) return reading;
  if (reading.files.length > MANY_FILES) setFlagsFromString(SWEEP_SOON);
  const knowledge = knowledgeIn(memory, asOf, progress);
  const judged = knowledge.judge(reading, prepare);
  const { taken } = judged;
  reading.remember(taken.clean);
  const textOf: TextOf = (file) => textOnDisk(folder, file);
  return {
    ...opened({ folder, asOf, textOf, reading }, judged),
    save: () => {
      knowledge.save(judged);
    },
    reading,
    taken,
    judge: knowledge.judge,
    saveAs: (after, edited) => {
      reading.remember(after.taken.clean, edited);
      knowledge.save(after);
    },
  };
}

/** Says of each file that it is being read. */
export function tellOfFiles(progress: World['progress']): ReadingTold {
  return (file) => progress?.(printed`Reading ${file}`);
}

function opened(
  {
    reading,
    ...looked
  }: Pick<OpenedBook, 'folder' | 'asOf' | 'textOf'> & Pick<OpenedFiles, 'reading'>,
  { book, findings, taken, found }: Judged,
): Omit<OpenedBook, 'save'> {
  const { unnamed } = found;
  const { sheet, sheets } = taken;
  const errors = countOf(findings.filter(({ severity }) => severity === 'error'));
  const digest = madeOnce(() => filesDigest(reading.files, sheets));
  return { ...looked, book, findings, errors, unnamed, sheet, sheets, digest };
}
