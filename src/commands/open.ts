/** Opens a studio for a command: finds it, reads it, checks it. */
import type { Book, Day } from '../book.ts';
import { checkStudio, type Reading } from '../check/check.ts';
import type { Finding } from '../problem.ts';
import { readStudio } from '../read/read.ts';
import { findAsked, type Found } from './find-studio.ts';
import { isRefusal, type Asked, type Refusal, type World } from './world.ts';

/** A studio, read and checked. */
export interface Opened {
  readonly folder: string;
  /** The files as they were read, for those who change some of them. */
  readonly reading: Reading;
  readonly book: Book;
  readonly asOf: Day;
  /** All that is wrong, in no particular order and without line numbers. */
  readonly findings: readonly Finding[];
  readonly errors: number;
}

/** Opens the studio that is asked for, or says why it can't. */
export async function openStudio(asked: Asked, world: World): Promise<Opened | Refusal> {
  const found = findAsked(asked, world);
  return isRefusal(found) ? found : openFound(found, world);
}

/** Reads and checks a studio that was found; `prepare` is given the book before the rules are run. */
export async function openFound(
  { folder, asOf }: Found,
  world: World,
  prepare?: (book: Book) => void,
): Promise<Opened | Refusal> {
  const reading = await readStudio(folder, { cache: true, stamp: world.stamp });
  if (isRefusal(reading)) return reading;
  const { book, findings, clean } = checkStudio(reading, asOf, prepare);
  reading.remember(clean);
  const errors = findings.filter((finding) => finding.severity === 'error').length;
  return { folder, reading, book, asOf, findings, errors };
}
