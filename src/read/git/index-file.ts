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

/** A moment in seconds and the nanoseconds beyond them, each in 32 bits. */
export interface Moment {
  readonly seconds: number;
  readonly nanoseconds: number;
}

/** What tells the state of a file from another; the numbers are cut to 32 bits. */
export interface Seen {
  readonly size: number;
  readonly inode: number;
  readonly changed: Moment;
  readonly modified: Moment;
}

/** The index of a working tree. */
export interface GitIndex {
  /** Path from the root of the working tree → what is staged there. */
  readonly entries: ReadonlyMap<string, IndexEntry>;
  /** When it was written, in nanoseconds, and on which disk. */
  readonly written: bigint;
  readonly device: bigint;
}

const LARGEST_INDEX = 512 * 1024 * 1024;

/**
 * The index as it is on the disk; empty where there is none. Undefined where it can't be read, or is of
 * a kind that this can't read: one that shares its entries with another file. Never throws.
 */
export function readIndex({ gitDir, idLength }: Repository): GitIndex | undefined {
  let handle: number | undefined;
  try {
    handle = openSync(join(gitDir, 'index'), constants.O_RDONLY | constants.O_NONBLOCK);
    const stats = fstatSync(handle, { bigint: true });
    if (!stats.isFile() || stats.size > LARGEST_INDEX) return undefined;
    const entries = entriesIn(readFileSync(handle), idLength);
    return entries && { entries, written: stats.mtimeNs, device: stats.dev };
  } catch (error) {
    const isMissing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    return isMissing ? { entries: new Map(), written: 0n, device: 0n } : undefined;
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

const HEAD_LENGTH = 12;
const SIGNATURE = 'DIRC';

/** What is read, and how far; reading beyond its end throws. */
interface Reading {
  readonly bytes: Buffer;
  readonly version: number;
  readonly idLength: number;
  at: number;
}

function entriesIn(bytes: Buffer, idLength: number): Map<string, IndexEntry> | undefined {
  const version = bytes.readUInt32BE(4);
  if (bytes.toString('latin1', 0, 4) !== SIGNATURE || version < 2 || version > 4) return undefined;
  const reading = { bytes, version, idLength, at: HEAD_LENGTH };
  const entries = new Map<string, IndexEntry>();
  let path: Buffer = Buffer.alloc(0);
  for (let left = bytes.readUInt32BE(8); left > 0; left -= 1) {
    const start = reading.at;
    const entry = entryAt(reading);
    path = pathAt(reading, path, start);
    entries.set(path.toString('utf8'), entry);
  }
  return isAllThatThereIs(reading) ? entries : undefined;
}

const FLAG = { assumed: 0x8000, extended: 0x4000, stage: 0x3000, skipped: 0x4000 } as const;

function entryAt(reading: Reading): IndexEntry {
  const { bytes, at, idLength } = reading;
  const number = (field: number): number => bytes.readUInt32BE(at + 4 * field);
  const moment = (field: number): Moment => ({
    seconds: number(field),
    nanoseconds: number(field + 1),
  });
  const afterStat = at + 40;
  const flags = bytes.readUInt16BE(afterStat + idLength);
  const isExtended = (flags & FLAG.extended) !== 0;
  const more = isExtended ? bytes.readUInt16BE(afterStat + idLength + 2) : 0;
  reading.at = afterStat + idLength + (isExtended ? 4 : 2);
  return {
    id: bytes.toString('hex', afterStat, afterStat + idLength),
    mode: number(6),
    seen: { size: number(9), inode: number(5), changed: moment(0), modified: moment(2) },
    isUnmerged: (flags & FLAG.stage) !== 0,
    isAssumed: (flags & FLAG.assumed) !== 0,
    isSkipped: (more & FLAG.skipped) !== 0,
  };
}

/** In version 4 a path says how much of the one before it is left out, and what comes instead. */
function pathAt(reading: Reading, before: Buffer, start: number): Buffer {
  const { bytes, version } = reading;
  const kept = version === 4 ? before.length - numberAt(reading) : 0;
  const end = bytes.indexOf(0, reading.at);
  if (kept < 0 || end < 0) throw new RangeError('no path');
  const path = Buffer.concat([before.subarray(0, kept), bytes.subarray(reading.at, end)]);
  // Entries of the older versions are filled up to a multiple of eight bytes.
  reading.at = version === 4 ? end + 1 : start + (((end - start) >> 3) + 1) * 8;
  return path;
}

/** Seven bits a byte, the highest first; each byte but the last adds one, so that no number has two forms. */
function numberAt(reading: Reading): number {
  let byte = reading.bytes.readUInt8(reading.at++);
  let number = byte & 0x7f;
  while (byte & 0x80) {
    byte = reading.bytes.readUInt8(reading.at++);
    number = (number + 1) * 128 + (byte & 0x7f);
  }
  return number;
}

/** Extensions with a small letter change what the entries mean; of folders left out there are entries. */
function isAllThatThereIs({ bytes, at, idLength }: Reading): boolean {
  let next = at;
  while (next + idLength < bytes.length) {
    const name = bytes.toString('latin1', next, next + 4);
    if (/^[^A-Z]/.test(name) && name !== 'sdir') return false;
    next += 8 + bytes.readUInt32BE(next + 4);
  }
  return next + idLength === bytes.length;
}
