/** The single steps of a safe write: a hidden file filled and synced, a rename, a way back. */
import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';

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
  ENOENT: 'its folder is gone',
  ENOTDIR: 'its folder is gone',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'its links lead in a circle',
};

/** Why the disk refused, in one sentence without a full stop. */
export function reasonFor(error: unknown, file: string): string {
  const code = codeOf(error);
  const unknown = error instanceof Error ? error.message : String(error);
  return `${file} can't be written: ${REASONS[code] ?? unknown}`;
}

/** Removes a file of the program's own that may be gone already; one that stays is cleared later. */
export function unlinkQuietly(file: string): void {
  quietly(() => {
    unlinkSync(file);
  });
}

/** Does something whose failure changes nothing for the person. */
export function quietly(act: () => void): void {
  try {
    act();
  } catch {
    // What is left is hidden, and the next write clears it.
  }
}

/**
 * Writes a new file and waits until it is on the disk. It gets the permissions, and where the system
 * allows the owner, of the file that it is to replace.
 * @param like the file to be replaced, if there is one
 */
export function writeTemp(file: string, text: string, like: string | undefined): void {
  const handle = openSync(file, 'wx');
  try {
    writeFileSync(handle, text);
    if (like !== undefined) keepPermissions(handle, like);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function keepPermissions(handle: number, like: string): void {
  const old = statSync(like, { throwIfNoEntry: false });
  if (!old) return;
  const { mode, uid, gid } = old;
  const own = fstatSync(handle);
  if (uid !== own.uid || gid !== own.gid)
    quietly(() => {
      fchownSync(handle, uid, gid);
    });
  fchmodSync(handle, mode & 0o7777);
}

/** Lets everybody run a file who may read it. */
export function makeRunnable(file: string): void {
  const { mode } = statSync(file);
  chmodSync(file, (mode | ((mode & 0o444) >> 2)) & 0o7777);
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
