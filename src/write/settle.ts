/** Undoes or finishes a change of several files that was left half done. */
import { createHash } from 'node:crypto';
import { readSync, rmdirSync, unlinkSync } from 'node:fs';
import { resolve } from 'node:path';
import { attempt } from '../attempt.ts';
import { withPlainFile } from '../read/disk.ts';
import { codeOf, quietly, renameOver, syncFolder, unlinkQuietly } from './disk.ts';
import { isRunning, type Writer } from './lock.ts';
import { dropNote, type Note, type NotedStep } from './note.ts';
import { foldersOf, hiddenBeside, isInside, realOf, type Hidden } from './steps.ts';

/** How far a step of a change got. */
interface StepStanding extends NotedStep, Hidden {
  readonly target: string;
  /** What is there now; `other` where it is neither the old text nor the new one. */
  readonly now: 'before' | 'after' | 'other';
  /** Whether the hidden files are there, with the texts that were noted. */
  readonly hasTemp: boolean;
  readonly hasBackup: boolean;
}

/** How far a change got; undefined where its note names what is not, or not directly, in the studio. */
function stepStanding({ studio, owner, steps }: Note): readonly StepStanding[] | undefined {
  const standing: StepStanding[] = [];
  for (const [index, step] of steps.entries()) {
    const target = resolve(studio, step.file);
    if (!isInside(studio, target) || attempt(() => realOf(target)) !== target) return undefined;
    const hidden = hiddenBeside(target, owner.pid, index);
    const digest = digestIn(target);
    const now = digest === step.after ? 'after' : digest === step.before ? 'before' : 'other';
    const hasTemp = step.after !== null && digestIn(hidden.temp) === step.after;
    const hasBackup = step.before !== null && digestIn(hidden.backup) === step.before;
    standing.push({ ...step, ...hidden, target, now, hasTemp, hasBackup });
  }
  return standing;
}

/** The files of a change that was cut off, where not all of it is there; none while it is under way. */
export function halfDone(note: Note, writer: Writer): readonly string[] {
  if (isRunning(note.owner, writer) === true) return [];
  const standing = stepStanding(note);
  return !standing || isWhole(standing) ? [] : standing.map(({ file }) => file);
}

/** Whether all of a change is there, or was there before somebody went on with the files. */
function isWhole(standing: readonly StepStanding[]): boolean {
  return standing.every(isDone);
}

// The hidden file with the new text is gone once that is in place.
function isDone({ now, hasTemp }: StepStanding): boolean {
  return now === 'after' || (now === 'other' && !hasTemp);
}

/**
 * Undoes a change, unless all of it is there. Where the copies that this takes are gone it is
 * finished instead, if it can be. A file that somebody has changed meanwhile is left alone. Returns
 * what was done, in one sentence; undefined where the note is not one to act on.
 * @throws what the disk throws; the note is there then for another time
 */
export function settle(note: Note, writer: Writer): string | undefined {
  const standing = stepStanding(note);
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

interface SettledHow {
  readonly words: string;
  readonly act: (step: StepStanding) => void;
}

function outcomeOf(standing: readonly StepStanding[]): SettledHow {
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

function canUndo({ now, before, hasBackup }: StepStanding): boolean {
  return now !== 'after' || before === null || hasBackup;
}

function undo({ now, before, target, backup }: StepStanding): void {
  if (now !== 'after') return;
  if (before === null) unlinkSync(target);
  else renameOver(backup, target);
}

function canFinish({ now, after, hasTemp }: StepStanding): boolean {
  return now !== 'before' || after === null || hasTemp;
}

function finish({ now, after, target, temp }: StepStanding): void {
  if (now !== 'before') return;
  if (after === null) unlinkSync(target);
  else renameOver(temp, target);
}

function leftAlone(standing: readonly StepStanding[]): string {
  const others = standing.filter(({ now }) => now === 'other').map(({ file }) => file);
  return others.length === 0
    ? ''
    : `; changed by somebody since and left alone: ${others.join(', ')}`;
}

function removeIfEmpty(studio: string, path: string): void {
  const folder = resolve(studio, path);
  if (!isInside(studio, folder) || attempt(() => realOf(folder)) !== folder) return;
  quietly(() => {
    rmdirSync(folder);
  });
}

const CHUNK = 1024 * 1024;
/** Files that are larger are none of this program's, in bytes. */
const LARGEST_HASHED = 64 * CHUNK;

/** The digest of what a file holds; null where there is nothing, empty where it is no file or can't be read. */
function digestIn(path: string): string | null {
  const found = withPlainFile<string | null>(
    path,
    (handle, { size }) => (size <= LARGEST_HASHED ? digestOfOpen(handle) : ''),
    (error) => (codeOf(error) === 'ENOENT' ? null : ''),
  );
  return found === undefined ? '' : found;
}

function digestOfOpen(handle: number): string {
  const hash = createHash('sha256');
  const bytes = Buffer.alloc(CHUNK);
  for (let size = readSync(handle, bytes); size > 0; size = readSync(handle, bytes))
    hash.update(bytes.subarray(0, size));
  return hash.digest('hex');
}
