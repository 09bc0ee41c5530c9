/** The single steps of a safe write: a hidden file filled and synced, a rename, a way back. */
import {
  accessSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  readSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
  type Stats,
} from 'node:fs';
import { dirname } from 'node:path';
import { attempt } from '../attempt.ts';

/** The system's name for an error of the file system, `ENOENT`; empty for any other error. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'there is no room left on the disk',
  EDQUOT: 'there is no room left on the disk for this user',
  EFBIG: 'it would be larger than files may be here',
  EROFS: 'the disk is read-only',
  EACCES: 'it or its folder is read-only',
  EPERM: 'it or its folder is read-only',
  EBUSY: 'it is open in another program',
  ENOENT: 'its folder is gone',
  ENOTDIR: 'its folder is gone',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'its links lead in a circle',
};

/** The codes of a disk that lets this user not write. */
const FORBIDDEN: ReadonlySet<string> = new Set(['EACCES', 'EPERM']);

/**
 * Why the disk refused, in one sentence without a full stop.
 * @param uid the number of the user who writes, to tell what belongs to somebody else
 */
export function reasonFor(error: unknown, file: string, uid: number | undefined): string {
  const code = codeOf(error);
  const unknown = error instanceof Error ? error.message : String(error);
  const closed = FORBIDDEN.has(code) ? closedText(error, uid) : undefined;
  return `${file} can't be written: ${closed ?? REASONS[code] ?? unknown}`;
}

/** What somebody else owns of that which may not be written; undefined where that is not the cause. */
function closedText(error: unknown, uid: number | undefined): string | undefined {
  const { path, dest } = error as NodeJS.ErrnoException & { readonly dest?: string };
  if (uid === undefined) return undefined;
  for (const each of [dest, path]) {
    const text = each === undefined ? undefined : strangersText(each, uid);
    if (text !== undefined) return text;
  }
  return undefined;
}

function strangersText(path: string, uid: number): string | undefined {
  const file = statOf(path);
  if (file?.isFile() && file.uid !== uid && !isWritable(path))
    return `it belongs to ${userName(file.uid)}`;
  const folder = file?.isDirectory() ? path : nearestFolder(dirname(path));
  const owner = statOf(folder)?.uid;
  if (owner === undefined || owner === uid || isWritable(folder)) return undefined;
  return `its folder ${folder} belongs to ${userName(owner)}`;
}

function nearestFolder(path: string): string {
  return statOf(path) || dirname(path) === path ? path : nearestFolder(dirname(path));
}

// What lies in a closed folder can't be looked at either.
function statOf(path: string): Stats | undefined {
  return attempt(() => statSync(path, { throwIfNoEntry: false }));
}

function isWritable(path: string): boolean {
  return quietly(() => {
    accessSync(path, constants.W_OK);
  });
}

/** How long a rename over a file that is in use is tried again, in milliseconds, and how often. */
const TRIES = 10;
const PAUSE = 100;

/** What a rename is made of, so that it can be tried out without a disk that refuses. */
interface Renaming {
  readonly rename: (from: string, to: string) => void;
  readonly pause: (milliseconds: number) => void;
}

/**
 * Renames a file over another one. Windows and network shares refuse while some program has the file
 * open, such as one that looks for viruses: then it is tried again for about a second.
 * @throws what the system throws; `EBUSY` where the file is in use to the end
 */
export function renameOver(
  from: string,
  to: string,
  { rename, pause }: Renaming = { rename: renameSync, pause: waitFor },
): void {
  for (let tries = 1; ; tries += 1) {
    const error = tried(() => {
      rename(from, to);
    });
    if (error === undefined) return;
    if (!mayBeInUse(error, to)) throw error;
    if (tries >= TRIES) throw Object.assign(new Error('in use'), { code: 'EBUSY', path: to });
    pause(PAUSE);
  }
}

function tried(act: () => void): Error | undefined {
  try {
    act();
    return undefined;
  } catch (error) {
    return error as Error;
  }
}

// What this user may write and can't rename is held by somebody.
function mayBeInUse(error: unknown, to: string): boolean {
  const code = codeOf(error);
  if (code === 'EBUSY') return true;
  return FORBIDDEN.has(code) && isWritable(dirname(to)) && (!statOf(to) || isWritable(to));
}

// Nothing else may come in between the renames of one change.
function waitFor(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds);
}

/** Removes a file of the program's own that may be gone already; one that stays is cleared later. */
export function unlinkQuietly(file: string): void {
  quietly(() => {
    unlinkSync(file);
  });
}

/** Does something whose failure changes nothing for the person; whether it was done. */
export function quietly(act: () => void): boolean {
  try {
    act();
    return true;
  } catch {
    // What is left is hidden, and the next write clears it.
    return false;
  }
}

/** A new file beside the book. */
interface TempFile {
  readonly path: string;
  readonly text: string;
  /** The file that it is to replace, if there is one. */
  readonly like?: string | undefined;
  /** Whether everybody may run it who may read it. */
  readonly executable?: boolean | undefined;
}

/**
 * Writes a new file and waits until it is on the disk. It gets the permissions, and where the system
 * allows the owner, of the file that it is to replace, all before a word of the text is in it.
 */
export function writeTemp({ path, text, like, executable = false }: TempFile): void {
  const old = like === undefined ? undefined : statSync(like, { throwIfNoEntry: false });
  const fresh = executable ? 0o777 : 0o666;
  // Until it has the old file's group, nobody but its owner may open it.
  const handle = openSync(path, 'wx', old ? old.mode & 0o700 : fresh);
  try {
    if (old) keepPermissions(handle, old);
    writeFileSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function keepPermissions(handle: number, { mode, uid, gid }: Stats): void {
  const own = fstatSync(handle);
  if (uid !== own.uid || gid !== own.gid)
    quietly(() => {
      fchownSync(handle, uid, gid);
    });
  fchmodSync(handle, mode & 0o7777);
}

/** Keeps a file under a second name, for the way back; copies it where the disk knows no links. */
export function backUp(file: string, backup: string): void {
  try {
    linkSync(file, backup);
  } catch {
    copyFileSync(file, backup, constants.COPYFILE_EXCL);
  }
}

/** Waits until a folder's names are on the disk, where the system can: Windows can't. */
export function syncFolder(folder: string): void {
  quietly(() => {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  });
}

/** Where a system lists its users, each in a line: name, password, number (passwd(5)). */
const USERS = '/etc/passwd';
const MOST_READ = 1024 * 1024;

/** A user's name; the number where the system's list has none for it. */
export function userName(uid: number): string {
  const line = usersOf(USERS).find((each) => each.split(':')[2] === String(uid));
  return line?.split(':')[0] ?? `user ${uid}`;
}

function usersOf(file: string): readonly string[] {
  try {
    const handle = openSync(file, 'r');
    try {
      const bytes = Buffer.alloc(MOST_READ);
      return bytes.toString('utf8', 0, readSync(handle, bytes)).split('\n');
    } finally {
      closeSync(handle);
    }
  } catch {
    return [];
  }
}
