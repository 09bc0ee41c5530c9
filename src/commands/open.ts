/** Opens a studio for a command: finds it, reads it, checks it. */
import type { Book, Day } from '../book.ts';
import { checkStudio, type Reading } from '../check/check.ts';
import type { Finding } from '../problem.ts';
import { findStudio } from '../read/find.ts';
import { readStudio } from '../read/read.ts';
import { askedDay } from './span.ts';
import { isRefusal, textOption, type Asked, type Refusal, type World } from './world.ts';

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

/** A studio that was found, and the day that it is looked at. */
export type Found = Pick<Opened, 'folder' | 'asOf'>;

/** Finds the studio that is asked for; refuses when there is none or when the day is no day. */
export function findAsked(asked: Asked, world: World): Found | Refusal {
  const asOf = askedDay(asked, world);
  if (typeof asOf !== 'string') return asOf;
  const folder = askedFolder(asked, world);
  return typeof folder === 'string' ? { folder, asOf } : folder;
}

/** Opens the studio that is asked for, or says why it can't. */
export async function openStudio(asked: Asked, world: World): Promise<Opened | Refusal> {
  const found = findAsked(asked, world);
  return isRefusal(found) ? found : openFound(found, world);
}

/** Reads and checks a studio that was found. */
export async function openFound({ folder, asOf }: Found, world: World): Promise<Opened | Refusal> {
  const reading = await readStudio(folder, { cache: true, stamp: world.stamp });
  if (isRefusal(reading)) return reading;
  const { book, findings, clean } = checkStudio(reading, asOf);
  reading.remember(clean);
  const errors = findings.filter((finding) => finding.severity === 'error').length;
  return { folder, reading, book, asOf, findings, errors };
}

function askedFolder(asked: Asked, world: World): string | Refusal {
  const named = textOption(asked, 'studio');
  const folder = findStudio(named ?? world.folder);
  if (folder !== undefined) return folder;
  const where = named ?? 'this folder or any above it';
  return {
    refused: `there is no studio.yaml in ${where}; go to your studio's folder, or name it with --studio FOLDER`,
  };
}
