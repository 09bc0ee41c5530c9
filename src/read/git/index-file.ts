/** Reads git's index by itself, since git touches files of its own where it reads a shared one. */
import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Repository } from './repository.ts';

/** What the index says of a path. */
export interface IndexEntry {
  /** Id of the content that is staged. */
  readonly id: string;
  readonly mode: number;
  /** The file's state when git last saw that it has this content. */
  readonly seen: Seen;
  /** Whether it has several contents, since a merge is not settled. */
  readonly isUnmerged: boolean;
  /** Whether git was told to take it for unchanged, or as not meant to be on the disk. */
  readonly isAssumed: boolean;
  readonly isSkipped: boolean;
}

/** What tells the state of a file from another: times in milliseconds, other numbers cut to 32 bits. */
interface Seen {
  readonly size: number;
  readonly inode: number;
  readonly changed: number;
  readonly modified: number;
}

/** The index of a working tree. */
export interface GitIndex {
  /** Path from the root of the working tree → what is staged there. */
  readonly entries: ReadonlyMap<string, IndexEntry>;
  /** When it was written, in milliseconds, and on which disk. */
  readonly written: number;
  readonly device: number;
}

const LARGEST_INDEX = 512 * 1024 * 1024;

/**
 * The index as it is on the disk; empty where there is none. Undefined where it can't be read, or is of
 * a kind that this can't read: one that shares its entries with another file. Never throws.
 */
export function readIndex({
  gitDir,
  idLength,
}: Pick<Repository, 'gitDir' | 'idLength'>): GitIndex | undefined {
  let handle: number | undefined;
  try {
    handle = openSync(join(gitDir, 'index'), constants.O_RDONLY | constants.O_NONBLOCK);
    const stats = fstatSync(handle);
    if (!stats.isFile() || stats.size > LARGEST_INDEX) return undefined;
    const entries = entriesIn(readFileSync(handle), idLength);
    return entries && { entries, written: stats.mtimeMs, device: stats.dev };
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    return isMissing ? { entries: new Map(), written: 0, device: 0 } : undefined;
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

const HEAD_LENGTH = 12;
const SIGNATURE = 'DIRC';

/** What is read, and how far; reading beyond its end throws. */
interface IndexReading {
  readonly bytes: Buffer;
  /** The same bytes; it reads numbers the fastest. */
  readonly view: DataView;
  readonly version: number;
  readonly idLength: number;
  at: number;
}

function entriesIn(bytes: Buffer, idLength: number): Map<string, IndexEntry> | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const version = view.getUint32(4);
  if (bytes.toString('latin1', 0, 4) !== SIGNATURE || version < 2 || version > 4) return undefined;
  const reading = { bytes, view, version, idLength, at: HEAD_LENGTH };
  const entries = new Map<string, IndexEntry>();
  let path = '';
  for (let left = view.getUint32(8); left > 0; left -= 1) {
    const start = reading.at;
    const entry = entryAt(reading);
    path = version === 4 ? shortPathAt(reading, path) : pathAt(reading, start);
    entries.set(
      /[\x80-\xff]/.test(path) ? Buffer.from(path, 'latin1').toString('utf8') : path,
      entry,
    );
  }
  return isAllThatThereIs(reading) ? entries : undefined;
}

const FLAG = { assumed: 0x8000, extended: 0x4000, stage: 0x3000, skipped: 0x4000 } as const;

function entryAt(reading: IndexReading): IndexEntry {
  const { bytes, view, at, idLength } = reading;
  // As Node works times out, to the last digit.
  const changed = view.getUint32(at) * 1000 + view.getUint32(at + 4) / 1_000_000;
  const modified = view.getUint32(at + 8) * 1000 + view.getUint32(at + 12) / 1_000_000;
  const afterStat = at + 40;
  const flags = view.getUint16(afterStat + idLength);
  const isExtended = (flags & FLAG.extended) !== 0;
  const more = isExtended ? view.getUint16(afterStat + idLength + 2) : 0;
  reading.at = afterStat + idLength + (isExtended ? 4 : 2);
  return {
    id: bytes.toString('hex', afterStat, afterStat + idLength),
    mode: view.getUint32(at + 24),
    seen: { size: view.getUint32(at + 36), inode: view.getUint32(at + 20), changed, modified },
    isUnmerged: (flags & FLAG.stage) !== 0,
    isAssumed: (flags & FLAG.assumed) !== 0,
    isSkipped: (more & FLAG.skipped) !== 0,
  };
}

/** A path, a letter for each byte; its entry is filled up to a multiple of eight bytes. */
function pathAt(reading: IndexReading, start: number): string {
  const { bytes, at } = reading;
  const end = endOfPath(reading);
  reading.at = start + (((end - start) >> 3) + 1) * 8;
  return bytes.toString('latin1', at, end);
}

/** In version 4 a path says how much of the one before it is left out, and what comes instead. */
function shortPathAt(reading: IndexReading, before: string): string {
  const kept = before.length - numberAt(reading);
  const { bytes, at } = reading;
  const end = endOfPath(reading);
  if (kept < 0) throw new RangeError('no such path');
  reading.at = end + 1;
  return before.slice(0, kept) + bytes.toString('latin1', at, end);
}

function endOfPath({ bytes, at }: IndexReading): number {
  const end = bytes.indexOf(0, at);
  if (end < 0) throw new RangeError('no end of a path');
  return end;
}

/** Seven bits a byte, the highest first; each byte but the last adds one, so that no number has two forms. */
function numberAt(reading: IndexReading): number {
  let byte = reading.view.getUint8(reading.at++);
  let number = byte & 0x7f;
  while (byte & 0x80) {
    byte = reading.view.getUint8(reading.at++);
    number = (number + 1) * 128 + (byte & 0x7f);
  }
  return number;
}

/** Extensions with a small letter change what the entries mean; of folders left out there are entries. */
function isAllThatThereIs({ bytes, view, at, idLength }: IndexReading): boolean {
  let next = at;
  while (next + idLength < bytes.length) {
    const name = bytes.toString('latin1', next, next + 4);
    if (/^[^A-Z]/.test(name) && name !== 'sdir') return false;
    next += 8 + view.getUint32(next + 4);
  }
  return next + idLength === bytes.length;
}
