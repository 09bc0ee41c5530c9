/** Looks at what lies in a lock's place, which may be anything: nothing is followed, waited for or read whole. */
import { lstatSync, readSync, type Stats } from 'node:fs';
import { attempt } from '../attempt.ts';
import { withPlainFile } from '../read/disk.ts';
import { codeOf } from './disk.ts';

/** Who made a lock. */
export interface LockOwner {
  readonly pid: number;
  readonly host: string;
  /** Tells a process from a later one of the same number; empty where the system doesn't say. */
  readonly started: string;
}

/** A file that may be a lock: of an owner, or still without one. */
export interface SeenLock {
  readonly owner: LockOwner | undefined;
  /** When it was made, in milliseconds since 1970: nobody can set a time of its own to a later one. */
  readonly made: number;
  /** Whether nothing is in it, as in the moment between making and filling it. */
  readonly isEmpty: boolean;
}

/** Something else. */
export interface SeenOther {
  /** In words: `a link`. */
  readonly other: string;
  readonly made: number;
  readonly uid: number;
}

/** What is there; undefined where nothing is. */
type SeenAtLock = SeenLock | SeenOther | undefined;

/** Locks are a few words; whatever is larger is none, in bytes. */
const LARGEST = 4096;

/** Looks at what has the name of a lock. Throws only where the folder can't be looked into. */
export function lookAt(file: string): SeenAtLock {
  const stats = lstatSync(file, { throwIfNoEntry: false });
  if (!stats) return undefined;
  const made = Math.min(stats.mtimeMs, stats.ctimeMs);
  const text = stats.isFile() && stats.size <= LARGEST ? readSmall(file) : undefined;
  if (text === undefined) return { other: kindOf(stats), made, uid: stats.uid };
  const owner = ownerIn(text);
  if (owner || text === '' || text === UNREADABLE) return { owner, made, isEmpty: text === '' };
  return { other: kindOf(stats), made, uid: stats.uid };
}

/** Stands for the text of a file that another user has closed to all others. */
const UNREADABLE = '?';

/** The text of a small file; undefined where it turns out to be something else. */
function readSmall(file: string): string | undefined {
  const read = (handle: number): string | undefined => {
    const bytes = Buffer.alloc(LARGEST + 1);
    const size = readSync(handle, bytes);
    return size > LARGEST ? undefined : bytes.toString('utf8', 0, size);
  };
  return withPlainFile(file, read, (error) => {
    const code = codeOf(error);
    if (code === 'ENOENT') return '';
    return code === 'EACCES' ? UNREADABLE : undefined;
  });
}

function ownerIn(text: string): LockOwner | undefined {
  const owner = attempt((): unknown => JSON.parse(text));
  return isOwner(owner) ? owner : undefined;
}

/** Whether a value names the owner of a lock. */
export function isOwner(value: unknown): value is LockOwner {
  if (typeof value !== 'object' || value === null) return false;
  const { pid, host, started } = value as Record<keyof LockOwner, unknown>;
  const isNumber = typeof pid === 'number' && Number.isSafeInteger(pid) && pid > 0;
  return isNumber && typeof host === 'string' && typeof started === 'string';
}

function kindOf(stats: Stats): string {
  if (stats.isSymbolicLink()) return 'a link';
  if (stats.isDirectory()) return 'a folder';
  if (stats.isFIFO()) return 'a pipe';
  return stats.isFile() ? 'a file' : 'a device';
}
