/** Compares files on the disk with contents in git, without git: it would run filters and write its index. */
import { createHash } from 'node:crypto';
import { lstatSync, readFileSync, readSync, readlinkSync, type Stats } from 'node:fs';
import { attempt } from '../../attempt.ts';
import { LARGEST_FILE, withPlainFile } from '../disk.ts';
import { conversionsOf, withGitLineEnds, type Conversion } from './conversions.ts';
import { readIndex, type GitIndex, type IndexEntry } from './index-file.ts';
import type { Repository } from './repository.ts';

/** How files on the disk compare with contents in git. */
export interface OnDisk {
  /** Files with that content; line ends that git changes on the way make no difference. */
  readonly same: ReadonlySet<string>;
  /** File → what would have to change its content before it can be compared, in words. */
  readonly uncompared: ReadonlyMap<string, string>;
}

/** Contents, by paths from the studio's root, and the index where it was read already. */
interface Compared {
  readonly blobs: ReadonlyMap<string, string>;
  readonly index?: GitIndex | undefined;
}

/** Compares each of the files with the content of that id. Never throws. */
export function compareWithDisk(
  repository: Repository,
  { blobs, index = readIndex(repository) }: Compared,
): OnDisk {
  const { prefix } = repository;
  const same = new Set<string>();
  const others: string[] = [];
  for (const [file, id] of repository.isBare ? [] : blobs) {
    const place = { path: pathOf(repository, file), id };
    const known = lookAt(place, index, prefix + file);
    if (known === 'same') same.add(file);
    else if (known === 'other') others.push(file);
  }
  return { same, uncompared: lookCloser(repository, { blobs, same, others }) };
}

function pathOf({ root = '', prefix }: Repository, file: string): string {
  return `${root}/${prefix}${file}`;
}

interface FileToCompare {
  readonly path: string;
  /** Id of the content that it is compared with. */
  readonly id: string;
}

function lookAt({ path, id }: FileToCompare, index: GitIndex | undefined, inTree: string): string {
  const stats = statsOf(path);
  if (!stats?.isFile() && !stats?.isSymbolicLink()) return 'absent';
  const entry = index?.entries.get(inTree);
  if (index && entry && isAsSeen(entry, stats, index))
    return entry.id === id ? 'same' : 'different';
  const found = stats.isFile() ? idOfFile(path, id.length) : idOfLink(path, id.length);
  return found === id ? 'same' : 'other';
}

function statsOf(path: string): Stats | undefined {
  return attempt(() => lstatSync(path, { throwIfNoEntry: false }));
}

/** How exact the times of another disk than the index's may be, in milliseconds. */
const COARSE = 3000;

/** Whether the file is as git saw it, long enough before it wrote that down. */
function isAsSeen({ seen }: IndexEntry, stats: Stats, index: GitIndex): boolean {
  const margin = stats.dev === index.device ? 0 : COARSE;
  return (
    seen.modified === stats.mtimeMs &&
    seen.changed === stats.ctimeMs &&
    seen.size === stats.size % CUT &&
    seen.inode === stats.ino % CUT &&
    stats.mtimeMs + margin < index.written
  );
}

/** The index has room for 32 bits. */
const CUT = 2 ** 32;

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
  const uncompared = new Map<string, string>();
  const conversions = conversionsOf(repository, others);
  for (const [file, { through, lineEnds }] of conversions) {
    if (through !== undefined) uncompared.set(file, through);
    else if (lineEnds && idOfText(pathOf(repository, file), blobs.get(file), lineEnds))
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
  const bytes = id === undefined ? undefined : readContent(path);
  if (id === undefined || bytes === undefined) return false;
  const text = withGitLineEnds(bytes, lineEnds);
  return newHash(id.length, text.length).update(text).digest('hex') === id;
}

export function readContent(path: string): Buffer | undefined {
  return withPlainFile(path, (handle, { size }) =>
    size > LARGEST_FILE ? undefined : readFileSync(handle),
  );
}

function newHash(idLength: number, size: number): ReturnType<typeof createHash> {
  return createHash(idLength === 64 ? 'sha256' : 'sha1').update(`blob ${size}\0`);
}

function idOfLink(path: string, idLength: number): string | undefined {
  const target = attempt(() => readlinkSync(path, { encoding: 'buffer' }));
  return target && newHash(idLength, target.length).update(target).digest('hex');
}

const part = Buffer.allocUnsafe(256 * 1024);

function idOfFile(path: string, idLength: number): string | undefined {
  return withPlainFile(path, (handle, { size }) => {
    const hash = newHash(idLength, size);
    let got: number;
    do {
      got = readSync(handle, part);
      hash.update(part.subarray(0, got));
    } while (got > 0);
    return hash.digest('hex');
  });
}
