/** Compares files on the disk with contents in git, without git: it would run filters and write its index. */
import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readFileSync,
  readSync,
  readlinkSync,
  type BigIntStats,
} from 'node:fs';
import { join } from 'node:path';
import { LARGEST_FILE } from '../disk.ts';
import { conversionsOf, withGitLineEnds, type Conversion } from './conversions.ts';
import { readIndex, type GitIndex, type IndexEntry, type Moment } from './index-file.ts';
import type { Repository } from './repository.ts';

/** How files on the disk compare with contents in git. */
export interface OnDisk {
  /** Files with that content; line ends that git changes on the way make no difference. */
  readonly same: ReadonlySet<string>;
  /** File → what would have to change its content before it can be compared, in words. */
  readonly uncompared: ReadonlyMap<string, string>;
}

/** Contents, by paths from the studio's root, and the index where it was read already. */
export interface Compared {
  readonly blobs: ReadonlyMap<string, string>;
  readonly index?: GitIndex | undefined;
}

/** Compares each of the files with the content of that id. Never throws. */
export function compareWithDisk(
  repository: Repository,
  { blobs, index = readIndex(repository) }: Compared,
): OnDisk {
  const { root, prefix } = repository;
  const same = new Set<string>();
  const others: string[] = [];
  for (const [file, id] of root === undefined ? [] : blobs) {
    const place = { path: join(root ?? '', prefix, file), id };
    const known = lookAt(place, index, prefix + file);
    if (known === 'same') same.add(file);
    else if (known === 'other') others.push(file);
  }
  return { same, uncompared: lookCloser(repository, { blobs, same, others }) };
}

interface Place {
  readonly path: string;
  /** Id of the content that it is compared with. */
  readonly id: string;
}

function lookAt({ path, id }: Place, index: GitIndex | undefined, inTree: string): string {
  const stats = statsOf(path);
  if (!stats?.isFile() && !stats?.isSymbolicLink()) return 'absent';
  const entry = index?.entries.get(inTree);
  if (index && entry && isAsSeen(entry, stats, index))
    return entry.id === id ? 'same' : 'different';
  const found = stats.isFile() ? idOfFile(path, id.length) : idOfLink(path, id.length);
  return found === id ? 'same' : 'other';
}

function statsOf(path: string): BigIntStats | undefined {
  try {
    return lstatSync(path, { bigint: true, throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}

const SECOND = 1_000_000_000n;
/** How exact the times of another disk than the index's may be. */
const COARSE = 3n * SECOND;

/** Whether the file is as git saw it, long enough before it wrote that down. */
function isAsSeen({ seen }: IndexEntry, stats: BigIntStats, index: GitIndex): boolean {
  const margin = stats.dev === index.device ? 0n : COARSE;
  return (
    seen.size === low(stats.size) &&
    seen.inode === low(stats.ino) &&
    isAt(seen.modified, stats.mtimeNs) &&
    isAt(seen.changed, stats.ctimeNs) &&
    stats.mtimeNs + margin < index.written
  );
}

function low(number: bigint): number {
  return Number(BigInt.asUintN(32, number));
}

function isAt({ seconds, nanoseconds }: Moment, time: bigint): boolean {
  return seconds === low(time / SECOND) && nanoseconds === low(time % SECOND);
}

interface Others {
  readonly blobs: ReadonlyMap<string, string>;
  readonly same: Set<string>;
  /** Files whose bytes are others. */
  readonly others: readonly string[];
}

/** Adds what is the same but for its line ends, and returns what can't be compared. */
function lookCloser(
  repository: Repository,
  { blobs, same, others }: Others,
): ReadonlyMap<string, string> {
  const { root = '', prefix } = repository;
  const uncompared = new Map<string, string>();
  const conversions = conversionsOf(repository, others);
  for (const [file, { through, lineEnds }] of conversions) {
    if (through !== undefined) uncompared.set(file, through);
    else if (lineEnds && idOfText(join(root, prefix, file), blobs.get(file), lineEnds))
      same.add(file);
  }
  return uncompared;
}

/** Whether a text has the content of that id once git has changed its line ends. */
function idOfText(
  path: string,
  id: string | undefined,
  lineEnds: NonNullable<Conversion['lineEnds']>,
): boolean {
  const bytes = id === undefined ? undefined : readWhole(path);
  if (id === undefined || bytes === undefined) return false;
  const text = withGitLineEnds(bytes, lineEnds);
  return newHash(id.length, text.length).update(text).digest('hex') === id;
}

function readWhole(path: string): Buffer | undefined {
  return withOpen(path, (handle, size) => (size > LARGEST_FILE ? undefined : readFileSync(handle)));
}

function newHash(idLength: number, size: number): ReturnType<typeof createHash> {
  return createHash(idLength === 64 ? 'sha256' : 'sha1').update(`blob ${size}\0`);
}

function idOfLink(path: string, idLength: number): string | undefined {
  try {
    const target = readlinkSync(path, { encoding: 'buffer' });
    return newHash(idLength, target.length).update(target).digest('hex');
  } catch {
    return undefined;
  }
}

const part = Buffer.allocUnsafe(256 * 1024);

function idOfFile(path: string, idLength: number): string | undefined {
  return withOpen(path, (handle, size) => {
    const hash = newHash(idLength, size);
    let got: number;
    do {
      got = readSync(handle, part);
      hash.update(part.subarray(0, got));
    } while (got > 0);
    return hash.digest('hex');
  });
}

// A pipe in the file's place must not be waited for.
const OPEN_MODE = constants.O_RDONLY | constants.O_NONBLOCK | constants.O_NOFOLLOW;

/** What comes of an open file and its size; undefined where it can't be read. */
function withOpen<T>(path: string, work: (handle: number, size: number) => T): T | undefined {
  let handle: number | undefined;
  try {
    handle = openSync(path, OPEN_MODE);
    const stats = fstatSync(handle);
    return stats.isFile() ? work(handle, stats.size) : undefined;
  } catch {
    return undefined;
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}
