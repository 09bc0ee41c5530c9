/** Opens a studio for a command: finds it, reads it, checks it. */
import { setFlagsFromString } from 'node:v8';
import type { Book, Day } from '../book.ts';
import { takeIn, type Checked, type Reading, type Taken } from '../check/check.ts';
import { countOf } from '../fold.ts';
import type { Finding } from '../problem.ts';
import type { KnownEnd } from '../entry/book-end.ts';
import { bookEnd } from '../entry/find-end.ts';
import { holdingsOf } from '../entry/holdings.ts';
import type { KeptOfStudio } from '../read/answers.ts';
import { textOnDisk, type TextOf } from '../read/place.ts';
import { readStudio } from '../read/read.ts';
import type { OwnSheet } from '../read/tax-sheet.ts';
import { findInTime, type Found, type Past } from './find-studio.ts';
import { judgedOnce } from './judged.ts';
import { keepEnd, keptEnd } from './kept-book.ts';
import { openKnown, type KnownStudio } from './known.ts';
import { isRefusal, type Asked, type Refusal, type World } from './world.ts';

/** A studio, read and checked. */
export interface Opened {
  readonly folder: string;
  readonly book: Book;
  readonly asOf: Day;
  /** All that is wrong, in no particular order and without line numbers. */
  readonly findings: readonly Finding[];
  readonly errors: number;
  /** Id of the commit whose book it is, where it is not the one on the disk. */
  readonly commit?: string;
  /** The tax sheet that the settings name, where it is a file of the studio's own. */
  readonly sheet?: OwnSheet | undefined;
  /** All tax sheets of the studio's own that the settings or filings name. */
  readonly sheets: readonly OwnSheet[];
  /** The text of a file, in the state that the book is of. */
  readonly textOf: TextOf;
}

/** The same with the files as they were read, for those who change some of them. */
export interface OpenedFiles extends Opened {
  readonly reading: Reading;
  /** What is known of the studio as it is. */
  readonly kept: KeptOfStudio;
  /** Where the book ends, as far as that is known. */
  readonly known: KnownEnd | undefined;
}

/** Opens the studio that is asked for as it is or was, or says why it can't. */
export async function openStudio(asked: Asked, world: World): Promise<Opened | Refusal> {
  const found = await findInTime(asked, world);
  return isRefusal(found) ? found : openFound(found);
}

/**
 * Reads and checks a studio that was found; `prepare` is given the book before the rules are run. The
 * raw files are let go before that: of a large studio they take more room than its book.
 */
export async function openFound(
  found: Found,
  prepare?: (book: Book) => void,
): Promise<Opened | Refusal> {
  const { folder, asOf, past, kept } = found;
  if (past) return openPast({ ...found, past }, prepare);
  const taken = await takenIn(found);
  if (isRefusal(taken)) return taken;
  const checked = judgedOnce({ taken, asOf, kept, ...(prepare && { prepare }) });
  return opened({ ...found, taken, textOf: onDisk(folder) }, checked);
}

/** Opens what a commit has of the studio; what is on the disk just so comes from the cache. */
async function openPast(
  { folder: studioDir, asOf, past, store }: Found & { readonly past: Past },
  prepare?: (book: Book) => void,
): Promise<Opened | Refusal> {
  const { readCommit } = await import('../read/git/commit.ts');
  const { keptOfCommit } = await import('../read/git/kept.ts');
  const { commit, repository } = past;
  const reading = await readCommit(repository, commit, { disk: { studioDir, store } });
  if (isRefusal(reading)) return reading;
  if (!reading.files.some(({ kind }) => kind === 'studio'))
    return { refused: `${commit.name} has no studio.yaml there` };
  const taken = takeIn(reading);
  const kept = keptOfCommit({ store: past.store, reading });
  const checked = judgedOnce({ taken, asOf, kept, ...(prepare && { prepare }) });
  const { textOf } = reading;
  return { ...opened({ folder: studioDir, asOf, taken, textOf }, checked), commit: commit.id };
}

function onDisk(folder: string): TextOf {
  return (file) => textOnDisk(folder, file);
}

/** Opens the studio that is asked for with its files, so that some of them can be changed. */
export async function openFiles(asked: Asked, world: World): Promise<OpenedFiles | Refusal> {
  const known = openKnown(asked, world);
  return isRefusal(known) ? known : openKnownFiles(known);
}

/** Opens a studio with its files, of which is known what was kept of them. */
export async function openKnownFiles({
  kept,
  ...found
}: KnownStudio): Promise<OpenedFiles | Refusal> {
  const { folder, asOf } = found;
  const reading = await read(found);
  if (isRefusal(reading)) return reading;
  const taken = remembered(reading);
  const checked = judgedOnce({ taken, asOf, kept });
  const files = { ...opened({ ...found, taken, textOf: onDisk(folder) }, checked), reading, kept };
  return { ...files, known: endOnce(files) };
}

/** Where a book without errors ends; kept where it was not known, to spare the next change a look at it all. */
function endOnce({ kept, book, asOf, errors }: Omit<OpenedFiles, 'known'>): KnownEnd | undefined {
  if (errors > 0) return undefined;
  const known = keptEnd(kept, asOf);
  if (known) return known;
  const found = { held: holdingsOf(book, asOf), end: bookEnd(book) };
  keepEnd(kept, asOf, found);
  return found;
}

async function takenIn(found: Readable): Promise<Taken | Refusal> {
  const reading = await read(found);
  return isRefusal(reading) ? reading : remembered(reading);
}

// Left to itself the heap doubles before it is swept, which a book of decades pays in memory. At 70 % one
// of a hundred years takes a twelfth more time and a third less memory; one of ten years has room enough.
const SWEEP_SOON = '--heap-growing-percent=70';
const MANY_FILES = 10_000;

type Readable = Pick<Found, 'folder' | 'store'>;

async function read({ folder, store }: Readable): ReturnType<typeof readStudio> {
  const reading = await readStudio(folder, { store });
  if ('files' in reading && reading.files.length > MANY_FILES) setFlagsFromString(SWEEP_SOON);
  return reading;
}

function remembered(reading: Reading & { remember: (clean: readonly string[]) => void }): Taken {
  const taken = takeIn(reading);
  reading.remember(taken.clean);
  return taken;
}

interface TakenStudio extends Pick<Opened, 'folder' | 'asOf' | 'textOf'> {
  readonly taken: Taken;
}

function opened(
  { folder, asOf, textOf, taken: { sheet, sheets } }: TakenStudio,
  { book, findings }: Checked,
): Opened {
  const errors = countOf(findings.filter(({ severity }) => severity === 'error'));
  return { folder, book, asOf, findings, errors, sheet, sheets, textOf };
}
