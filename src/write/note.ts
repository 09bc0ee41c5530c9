/**
 * Notes in the person's own folder what a change of several files is about to do, so that it can be
 * undone or finished where the program is killed in the midst of it.
 */
import {
  closeSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { attempt } from '../attempt.ts';
import { leadsInto } from '../memory/store.ts';
import { withPlainFile } from '../read/disk.ts';
import { syncFolder, unlinkQuietly } from './disk.ts';
import { isOwner, type LockOwner } from './lock-file.ts';
import type { Writer } from './lock.ts';

/** One file of a change; its hidden files have the process's number and its place among the steps. */
export interface NotedStep {
  /** Path from the studio's root, every link followed, with forward slashes. */
  readonly file: string;
  /** SHA-256 of the old text and of the new one; null where there is no such file. */
  readonly before: string | null;
  readonly after: string | null;
}

/** A change of several files that was about to be put in place. */
export interface Note {
  readonly form: 1;
  /** The studio's folder, every link followed. */
  readonly studio: string;
  readonly owner: LockOwner;
  /** Folders that were made for new files, the deepest first, as paths like the files'. */
  readonly folders: readonly string[];
  readonly steps: readonly NotedStep[];
}

/** Larger notes are neither written nor read, in bytes: 8 MiB are some 30,000 files. */
const LARGEST = 8 * 1024 * 1024;
/** File systems take names of 255 bytes. */
const LONGEST_NAME = 180;

/**
 * Where the note of a studio is; undefined where the person has no such folder, or where it lies in
 * the studio itself: a note that came with somebody's branch must not be found.
 */
function notePlace(studio: string, { stateFolder }: Writer): string | undefined {
  if (stateFolder === undefined) return undefined;
  if (leadsInto(stateFolder, studio)) return undefined;
  const name = encodeURIComponent(studio);
  return join(stateFolder, `half-done-${name.length}-${name.slice(-LONGEST_NAME)}.json`);
}

/** Writes a note and waits until it is on the disk; false where it can't be written, so that none is there. */
export function writeNote(note: Note, writer: Writer): boolean {
  const place = notePlace(note.studio, writer);
  const text = JSON.stringify(note);
  if (place === undefined || text.length > LARGEST) return false;
  const temp = `${place.slice(0, -'.json'.length)}.${writer.pid}`;
  try {
    mkdirSync(dirname(place), { recursive: true, mode: 0o700 });
    unlinkQuietly(temp);
    writeSynced(temp, text);
    renameSync(temp, place);
    syncFolder(dirname(place));
    return true;
  } catch {
    unlinkQuietly(temp);
    return false;
  }
}

function writeSynced(file: string, text: string): void {
  const handle = openSync(file, 'wx', 0o600);
  try {
    writeFileSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Takes a note away: all is done, or nothing. Throws where it can't, for it would be acted on later. */
export function dropNote(studio: string, writer: Writer): void {
  const place = notePlace(studio, writer);
  if (place === undefined || !lstatSync(place, { throwIfNoEntry: false })) return;
  unlinkSync(place);
  syncFolder(dirname(place));
}

/** The files of a change that was left half done, and that the next write will undo. */
export async function leftHalfDone(studioDir: string, writer: Writer): Promise<readonly string[]> {
  try {
    const note = readNote(realpathSync(studioDir), writer);
    return note ? (await import('./settle.ts')).halfDone(note, writer) : [];
  } catch {
    return [];
  }
}

/** The note of a studio, where there is one that this user wrote; anything else is passed over. */
export function readNote(studio: string, writer: Writer): Note | undefined {
  const place = notePlace(studio, writer);
  const text = place === undefined ? undefined : readOwn(place, writer);
  if (text === undefined) return undefined;
  const note = attempt((): unknown => JSON.parse(text));
  return isNote(note) && note.studio === studio ? note : undefined;
}

function readOwn(file: string, { uid }: Writer): string | undefined {
  return withPlainFile(file, (handle, stats) => {
    const isOwn = uid === undefined || (stats.uid === uid && (stats.mode & 0o022) === 0);
    return isOwn && stats.size <= LARGEST ? readFileSync(handle, 'utf8') : undefined;
  });
}

function isNote(value: unknown): value is Note {
  if (typeof value !== 'object' || value === null) return false;
  const { form, studio, owner, folders, steps } = value as Record<keyof Note, unknown>;
  if (form !== 1 || typeof studio !== 'string' || !isOwner(owner)) return false;
  if (!Array.isArray(folders) || !folders.every(isPath)) return false;
  if (!Array.isArray(steps) || !steps.every(isStep)) return false;
  const files = new Set(steps.map(({ file }) => file));
  return steps.length > 1 && files.size === steps.length;
}

function isStep(value: unknown): value is NotedStep {
  if (typeof value !== 'object' || value === null) return false;
  const { file, before, after } = value as Record<keyof NotedStep, unknown>;
  return isPath(file) && isDigest(before) && isDigest(after) && before !== after;
}

/** Whether a path leads from the studio's root into it, by its words alone, and not to git's own files. */
function isPath(path: unknown): path is string {
  if (typeof path !== 'string' || path.includes('\0')) return false;
  return path.split('/').every((name) => !/^(?:|\.{1,2}|\.git)$/i.test(name));
}

function isDigest(value: unknown): value is string | null {
  return value === null || (typeof value === 'string' && /^[\da-f]{64}$/.test(value));
}
