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
import { setImmediate } from 'node:timers/promises';
import { once } from '../once.ts';
import { codeOf, quietly, reasonFor, syncFolder } from './disk.ts';
import type { Refused } from './parts.ts';

/**
 * What is to stand in a new folder: path from it, with forward slashes, and text, whole or in pieces.
 * Each is made when it is its turn, so that they need not all be there at once.
 */
type NewFiles = Iterable<readonly [path: string, text: string | Iterable<string>]>;

/** Who writes. */
export interface NewWriter {
  /** The number of the user, to tell what belongs to somebody else. */
  readonly uid: number | undefined;
  /** Runs a step where the program is stopped, until it is told otherwise; absent where nothing can be told. */
  readonly onExit?: ((step: () => void) => () => void) | undefined;
}

/**
 * Writes a folder that is empty or isn't there yet. The files are written into a hidden folder beside
 * it, which then takes its name, so that nobody ever sees half of them. Says why, where that fails;
 * nothing is left then, nor where the program is stopped meanwhile.
 */
export async function writeNewFolder(
  folder: string,
  files: NewFiles,
  writer: NewWriter,
): Promise<Refused | undefined> {
  return refusing(folder, writer, async () => {
    const why = whyNotNew(folder);
    if (why !== undefined) return { refused: `${folder} ${why}` };
    const made = firstMissing(dirname(folder));
    const take = once(() => {
      if (made !== undefined) removed(made);
    });
    const forget = writer.onExit?.(take);
    try {
      mkdirSync(dirname(folder), { recursive: true });
      await placeFolder(folder, files, writer);
    } catch (error) {
      take();
      throw error;
    } finally {
      forget?.();
    }
    return undefined;
  });
}

/** Writes a file that isn't there yet, whole or not at all; says why where that fails. */
export async function writeNewFile(
  file: string,
  bytes: Uint8Array,
  writer: NewWriter,
): Promise<Refused | undefined> {
  return refusing(file, writer, async () => {
    const there = refusedFile(file);
    if (there) return there;
    await besides(file, writer, (written) => {
      writeSynced(written, [bytes]);
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

async function placeFolder(folder: string, files: NewFiles, writer: NewWriter): Promise<void> {
  await besides(folder, writer, async (written) => {
    mkdirSync(written);
    for (const [path, text] of files) {
      writeWithin(written, path, typeof text === 'string' ? [text] : text);
      // Lets the program hear that it is to stop.
      await setImmediate();
    }
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
async function besides(
  path: string,
  { onExit }: NewWriter,
  make: (written: string) => void | Promise<void>,
): Promise<void> {
  const temp = mkdtempSync(join(dirname(path), `.${basename(path)}-`));
  const take = (): void => {
    removed(temp);
  };
  const forget = onExit?.(take);
  try {
    await make(join(temp, basename(path)));
  } finally {
    take();
    forget?.();
  }
  syncFolder(dirname(path));
}

function removed(path: string): void {
  quietly(() => {
    rmSync(path, { recursive: true, force: true });
  });
}

function writeWithin(folder: string, path: string, pieces: Iterable<string>): void {
  const file = join(folder, ...path.split('/'));
  mkdirSync(dirname(file), { recursive: true });
  writeSynced(file, pieces);
}

function writeSynced(file: string, pieces: Iterable<string | Uint8Array>): void {
  const handle = openSync(file, 'wx');
  try {
    for (const piece of pieces) writeFileSync(handle, piece);
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

async function refusing(
  path: string,
  { uid }: NewWriter,
  write: () => Promise<Refused | undefined>,
): Promise<Refused | undefined> {
  try {
    return await write();
  } catch (error) {
    return { refused: reasonFor(error, path, uid) };
  }
}
