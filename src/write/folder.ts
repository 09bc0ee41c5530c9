/** Makes a whole folder or a single new file beside the book: all of it, or nothing. */
import {
  chmodSync,
  closeSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  rmdirSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { codeOf, quietly, reasonFor, syncFolder } from './disk.ts';
import type { Refused } from './parts.ts';

/** What stands in a new folder: path from it, with forward slashes → text. */
export type NewFiles = ReadonlyMap<string, string>;

/**
 * Writes a folder that is empty or isn't there yet. The files are written into a hidden folder beside
 * it, which then takes its name, so that nobody ever sees half of them. Says why, where that fails;
 * nothing is left behind then.
 * @param uid the number of the user who writes, to tell what belongs to somebody else
 */
export function writeNewFolder(
  folder: string,
  files: NewFiles,
  uid: number | undefined,
): Refused | undefined {
  return refusing(folder, uid, () => {
    const why = whyNotNew(folder);
    if (why !== undefined) return { refused: `${folder} ${why}` };
    const made = firstMissing(dirname(folder));
    try {
      mkdirSync(dirname(folder), { recursive: true });
      placeFolder(folder, files);
    } catch (error) {
      if (made !== undefined)
        quietly(() => {
          rmSync(made, { recursive: true });
        });
      throw error;
    }
    return undefined;
  });
}

/** Writes a file that isn't there yet, whole or not at all; says why where that fails. */
export function writeNewFile(
  file: string,
  bytes: Uint8Array,
  uid: number | undefined,
): Refused | undefined {
  return refusing(file, uid, () => {
    const there = refusedFile(file);
    if (there) return there;
    besides(file, (written) => {
      writeSynced(written, bytes);
      renameSync(written, file);
    });
    return undefined;
  });
}

/** That a file is there already, where one is. */
export function refusedFile(file: string): Refused | undefined {
  const isThere = lstatSync(file, { throwIfNoEntry: false }) !== undefined;
  return isThere ? { refused: `${file} is there already` } : undefined;
}

/** Why a folder can't be made, as a phrase that follows its name; undefined where nothing is in the way. */
export function whyNotNew(folder: string): string | undefined {
  try {
    return readdirSync(folder).length === 0 ? undefined : 'is not empty';
  } catch (error) {
    const code = codeOf(error);
    if (code === 'ENOENT') return undefined;
    return code === 'ENOTDIR' ? 'is a file, or leads through one' : "can't be read";
  }
}

function placeFolder(folder: string, files: NewFiles): void {
  besides(folder, (written) => {
    mkdirSync(written);
    for (const [path, text] of files) writeWithin(written, path, text);
    const old = lstatSync(folder, { throwIfNoEntry: false });
    if (old) chmodSync(written, old.mode & 0o7777);
    if (old) rmdirSync(folder);
    renameSync(written, folder);
  });
}

/**
 * Lets something be made under a name in a hidden folder beside its place. That folder is closed to
 * others; what is made in it has the permissions that anything new has.
 */
function besides(path: string, make: (written: string) => void): void {
  const temp = mkdtempSync(join(dirname(path), `.${basename(path)}-`));
  try {
    make(join(temp, basename(path)));
  } finally {
    quietly(() => {
      rmSync(temp, { recursive: true, force: true });
    });
  }
  syncFolder(dirname(path));
}

function writeWithin(folder: string, path: string, text: string): void {
  const file = join(folder, ...path.split('/'));
  mkdirSync(dirname(file), { recursive: true });
  writeSynced(file, text);
}

function writeSynced(file: string, content: string | Uint8Array): void {
  const handle = openSync(file, 'wx');
  try {
    writeFileSync(handle, content);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** The outermost folder on the way that has to be made. */
function firstMissing(folder: string): string | undefined {
  if (lstatSync(folder, { throwIfNoEntry: false })) return undefined;
  return firstMissing(dirname(folder)) ?? folder;
}

function refusing(
  path: string,
  uid: number | undefined,
  write: () => Refused | undefined,
): Refused | undefined {
  try {
    return write();
  } catch (error) {
    return { refused: reasonFor(error, path, uid) };
  }
}
