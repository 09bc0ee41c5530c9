/** Undoes or finishes a change of several files that was left half done. */
import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  openSync,
  readSync,
  rmdirSync,
  unlinkSync,
} from 'node:fs';
import { resolve } from 'node:path';
import { quietly, renameOver, syncFolder, unlinkQuietly } from './disk.ts';
import { isRunning, type Writer } from './lock.ts';
import { dropNote, type Note, type NotedStep } from './note.ts';
import { foldersOf, hiddenBeside, isInside, realOf, type Hidden } from './steps.ts';

/** How far a step of a change got. */
interface Standing extends NotedStep, Hidden {
  readonly target: string;
  /** What is there now; `other` where it is neither the old text nor the new one. */
  readonly now: 'before' | 'after' | 'other';
  /** Whether the hidden files are there, with the texts that were noted. */
  readonly hasTemp: boolean;
  readonly hasBackup: boolean;
}

/** How far a change got; undefined where its note names what is not, or not directly, in the studio. */
function standingOf({ studio, owner, steps }: Note): readonly Standing[] | undefined {
  const standing: Standing[] = [];
  for (const [index, step] of steps.entries()) {
    const target = resolve(studio, step.file);
    if (!isInside(studio, target) || quietReal(target) !== target) return undefined;
    const hidden = hiddenBeside(target, owner.pid, index);
    const digest = digestIn(target);
    const now = digest === step.after ? 'after' : digest === step.before ? 'before' : 'other';
    const hasTemp = step.after !== null && digestIn(hidden.temp) === step.after;
    const hasBackup = step.before !== null && digestIn(hidden.backup) === step.before;
    standing.push({ ...step, ...hidden, target, now, hasTemp, hasBackup });
  }
  return standing;
}

function quietReal(path: string): string | undefined {
  try {
    return realOf(path);
  } catch {
    return undefined;
  }
}

/** The files of a change that was cut off, where not all of it is there; none while it is under way. */
export function halfDone(note: Note, writer: Writer): readonly string[] {
  if (isRunning(note.owner, writer) === true) return [];
  const standing = standingOf(note);
  return !standing || isWhole(standing) ? [] : standing.map(({ file }) => file);
}

/** Whether all of a change is there, or was there before somebody went on with the files. */
function isWhole(standing: readonly Standing[]): boolean {
  return standing.every(isDone);
}

// The hidden file with the new text is gone once that is in place.
function isDone({ now, hasTemp }: Standing): boolean {
  return now === 'after' || (now === 'other' && !hasTemp);
}

/**
 * Undoes a change, unless all of it is there. Where the copies that this takes are gone it is
 * finished instead, if it can be. A file that somebody has changed meanwhile is left alone. Returns
 * what was done, in one sentence; undefined where the note is not one to act on.
 * @throws what the disk throws; the note is there then for another time
 */
export function settle(note: Note, writer: Writer): string | undefined {
  const standing = standingOf(note);
  if (!standing) return undefined;
  const outcome = outcomeOf(standing);
  for (const step of standing) outcome.act(step);
  for (const folder of foldersOf(standing)) syncFolder(folder);
  for (const { hasTemp, temp } of standing) if (hasTemp) unlinkQuietly(temp);
  for (const { hasBackup, backup } of standing) if (hasBackup) unlinkQuietly(backup);
  for (const folder of note.folders) removeIfEmpty(note.studio, folder);
  dropNote(note.studio, writer);
  return `a change that was cut off ${outcome.words}${leftAlone(standing)}`;
}

interface Outcome {
  readonly words: string;
  readonly act: (step: Standing) => void;
}

function outcomeOf(standing: readonly Standing[]): Outcome {
  const files = standing.filter(({ now }) => now !== 'other').map(({ file }) => file);
  const names = files.join(', ');
  if (isWhole(standing)) return { words: `is whole: ${names}`, act: () => undefined };
  if (standing.every(canUndo)) return { words: `was undone: ${names}`, act: undo };
  if (standing.every(canFinish)) return { words: `was finished: ${names}`, act: finish };
  return {
    words: `can't be undone, for its copies are gone: look at ${names}`,
    act: () => undefined,
  };
}

function canUndo({ now, before, hasBackup }: Standing): boolean {
  return now !== 'after' || before === null || hasBackup;
}

function undo({ now, before, target, backup }: Standing): void {
  if (now !== 'after') return;
  if (before === null) unlinkSync(target);
  else renameOver(backup, target);
}

function canFinish({ now, after, hasTemp }: Standing): boolean {
  return now !== 'before' || after === null || hasTemp;
}

function finish({ now, after, target, temp }: Standing): void {
  if (now !== 'before') return;
  if (after === null) unlinkSync(target);
  else renameOver(temp, target);
}

function leftAlone(standing: readonly Standing[]): string {
  const others = standing.filter(({ now }) => now === 'other').map(({ file }) => file);
  return others.length === 0
    ? ''
    : `; changed by somebody since and left alone: ${others.join(', ')}`;
}

function removeIfEmpty(studio: string, path: string): void {
  const folder = resolve(studio, path);
  if (!isInside(studio, folder) || quietReal(folder) !== folder) return;
  quietly(() => {
    rmdirSync(folder);
  });
}

const OPEN_MODE = constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK;
const CHUNK = 1024 * 1024;
/** Files that are larger are none of this program's, in bytes. */
const LARGEST = 64 * CHUNK;

/** The digest of what a file holds; null where there is nothing, empty where it is no file or can't be read. */
function digestIn(path: string): string | null {
  let handle: number | undefined;
  try {
    if (!lstatSync(path, { throwIfNoEntry: false })) return null;
    handle = openSync(path, OPEN_MODE);
    const stats = fstatSync(handle);
    return stats.isFile() && stats.size <= LARGEST ? digestOfOpen(handle) : '';
  } catch {
    return '';
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

function digestOfOpen(handle: number): string {
  const hash = createHash('sha256');
  const bytes = Buffer.alloc(CHUNK);
  for (let size = readSync(handle, bytes); size > 0; size = readSync(handle, bytes))
    hash.update(bytes.subarray(0, size));
  return hash.digest('hex');
}
