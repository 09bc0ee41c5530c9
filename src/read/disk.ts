/** Files on the disk: what state one is in, and its text. */
import { Buffer, isUtf8 } from 'node:buffer';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readFileSync,
  readSync,
  statSync,
  type Stats,
} from 'node:fs';
import { attempt } from '../attempt.ts';
import type { Finding } from '../problem.ts';
import { wholeFile } from './lines.ts';
import { decodeText } from './text.ts';

/** Files larger than this are not read; in bytes, 5 MiB. */
export const LARGEST_FILE = 5 * 1024 * 1024;

/**
 * What tells one state of a file from another: a change of content changes at least one of these,
 * for nobody can set the time of the change itself. Times in milliseconds with their fractions.
 */
export interface Stamp {
  readonly size: number;
  readonly modified: number;
  readonly changed: number;
  readonly inode: number;
}

/** A file's text without byte order mark, and the state that it was in before it was read. */
export interface Source {
  readonly text: string;
  readonly stamp: Stamp;
}

/** The state of a file that is not a link; undefined when there is none. */
export function stampOf(path: string): Stamp | undefined {
  const stats = attempt(() => lstatSync(path, { throwIfNoEntry: false }));
  return stats?.isFile() ? asStamp(stats) : undefined;
}

/** Whether there is anything of that path, be it what it may. */
export function isThere(path: string): boolean {
  return attempt(() => statSync(path)) !== undefined;
}

/** Whether two stamps are of the same state. */
export function isSameState(a: Stamp, b: Stamp): boolean {
  return (
    a.size === b.size && a.modified === b.modified && a.changed === b.changed && a.inode === b.inode
  );
}

/** How long a file must have been left alone, in milliseconds: some disks count time in twos of seconds. */
const SETTLING = 3000;

/**
 * Whether a file that is looked at from a moment on can't change any more without a new stamp. One that
 * was changed just before, or by the stamp only after, can: some disks know no shorter times.
 * @param moment by this machine's clock, in milliseconds
 */
export function isSettled({ modified, changed }: Stamp, moment: number): boolean {
  return moment - modified > SETTLING && moment - changed > SETTLING;
}

// Opening a pipe would else wait for someone to write into it.
const OPEN_MODE = constants.O_RDONLY | constants.O_NONBLOCK;

/** Reads a file of the studio, or says why not (`unreadable-file`). Never throws. */
export function readSource(studioDir: string, file: string): Source | Finding {
  let handle: number | undefined;
  try {
    handle = openSync(`${studioDir}/${file}`, OPEN_MODE);
    return readOpen(handle, file);
  } catch (error) {
    return unreadable(file, whyUnreadable(error));
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

const NO_LINK = OPEN_MODE | constants.O_NOFOLLOW;

/**
 * What comes of an open file, never a link; undefined where it is not a file or can't be read.
 * @param failed what is made of an error instead
 */
export function withPlainFile<T>(
  path: string,
  work: (handle: number, stats: Stats) => T,
  failed: (error: unknown) => T | undefined = () => undefined,
): T | undefined {
  let handle: number | undefined;
  try {
    handle = openSync(path, NO_LINK);
    const stats = fstatSync(handle);
    return stats.isFile() ? work(handle, stats) : undefined;
  } catch (error) {
    return failed(error);
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/** A finding for a file or folder that could not be read. */
export function unreadable(file: string, words: { message: string; hint: string }): Finding {
  return { rule: 'unreadable-file', severity: 'error', at: wholeFile(file), ...words };
}

const REASONS: Readonly<Record<string, { message: string; hint: string }>> = {
  ENOENT: { message: 'it is not there any more', hint: 'run the command again' },
  EACCES: { message: 'it may not be read', hint: 'give yourself the right to read it' },
  EPERM: { message: 'it may not be read', hint: 'give yourself the right to read it' },
  EISDIR: { message: 'it is a folder, not a file', hint: 'give the folder another name' },
  ELOOP: { message: 'it is a link that leads in a circle', hint: 'take the link away' },
};

/** Why a file or folder could not be read, from what the system threw. */
export function whyUnreadable(error: unknown): { message: string; hint: string } {
  const { code = 'no reason given' } = error as { code?: string };
  return (
    REASONS[code] ?? {
      message: `it could not be read (${code})`,
      hint: 'see whether the disk and the file are in order',
    }
  );
}

function readOpen(handle: number, file: string): Source | Finding {
  const stats = fstatSync(handle);
  if (!stats.isFile())
    return unreadable(file, {
      message: 'it is not an ordinary file',
      hint: 'give it another name, or put it elsewhere',
    });
  const bytes = stats.size > LARGEST_FILE ? undefined : readBytes(handle, stats.size);
  if (bytes === undefined) return tooLarge(file, stats.size);
  const text = decodeText(file, bytes);
  return typeof text === 'string' ? { text, stamp: asStamp(stats) } : text;
}

function asStamp({ size, mtimeMs, ctimeMs, ino }: Stats): Stamp {
  return { size, modified: mtimeMs, changed: ctimeMs, inode: ino };
}

// One buffer serves all files: what is read is made into text before the next one comes.
let buffer = Buffer.allocUnsafe(256 * 1024);

/** All bytes of an open file, even if it has grown meanwhile; undefined if it has become too large. */
function readBytes(handle: number, size: number): Buffer | undefined {
  let filled = 0;
  let got: number;
  if (buffer.length <= size) buffer = Buffer.allocUnsafe(size + 1);
  do {
    got = readSync(handle, buffer, filled, buffer.length - filled, filled);
    filled += got;
    if (filled === buffer.length) buffer = Buffer.concat([buffer, Buffer.allocUnsafe(filled)]);
  } while (got > 0 && filled <= LARGEST_FILE);
  return filled <= LARGEST_FILE ? buffer.subarray(0, filled) : undefined;
}

/** A finding for a file of more bytes than are read. */
export function tooLarge(file: string, size: number): Finding {
  const mebibytes = (size / (1024 * 1024)).toFixed(1);
  return unreadable(file, {
    message: `the file is too large, ${mebibytes} MiB: files up to 5 MiB are read`,
    hint: 'split it by year or by month, in a folder of the same name',
  });
}

/** The folder in which things were remembered once; nothing in it is read any more. */
const FOLDER = '.saggar';

/** The path of the leftover in a studio, where there is one. */
export function leftoverIn(studioDir: string): string | undefined {
  const path = `${studioDir}/${FOLDER}`;
  return lstatSync(path, { throwIfNoEntry: false }) === undefined ? undefined : path;
}

/**
 * The text with its byte order mark, if it has one, so that it can be compared with the file's bytes.
 * Undefined where there is no file of that path (from the studio's root), or no text in it.
 */
export function wholeText(studioDir: string, file: string): string | undefined {
  const bytes = attempt(() => readFileSync(`${studioDir}/${file}`));
  return bytes && isUtf8(bytes) ? bytes.toString('utf8') : undefined;
}
