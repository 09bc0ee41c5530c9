/** Puts changed files on the disk, all of them or none: with its lock, the only module that writes. */
import { Buffer } from 'node:buffer';
import {
  accessSync,
  constants,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmdirSync,
  statSync,
  unlinkSync,
} from 'node:fs';
import { basename, dirname, join, resolve, sep } from 'node:path';
import {
  backUp,
  makeRunnable,
  quietly,
  reasonFor,
  syncFolder,
  unlinkQuietly,
  writeTemp,
} from './disk.ts';
import { takeLock, type Writer } from './lock.ts';
import type { Refused } from './parts.ts';

export type { Writer } from './lock.ts';

/** A file to be changed: undefined before means that it is new, undefined after that it goes. */
export interface Change {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  /** The whole text as it was read, with its byte order mark if it has one. */
  readonly before: string | undefined;
  readonly after: string | undefined;
  /** Whether a new file is a program that may be run. */
  readonly executable?: boolean;
}

/** The files that were changed, or why none was, in one sentence without a full stop. */
export type Applied = { readonly written: readonly string[] } | Refused;

/** A change under way. */
interface Step extends Change {
  /** The file itself, every link followed. */
  readonly target: string;
  /** Hidden files beside it: the new text, and the old one while others may still fail. */
  readonly temp: string;
  readonly backup: string;
}

/** What has been done so far, and how to take it back. */
interface Progress {
  /** The file at work, for the reason if the disk refuses. */
  file: string;
  readonly undo: (() => void)[];
}

const LITTER = /^\.saggar-\d+-\d+\.(?:new|old)$/;

/**
 * Changes files of a studio, one writer at a time. Each new text is first written whole to a hidden
 * file beside the old one, and renamed over it only when all are on the disk and every old file
 * still has the bytes that it was read with; permissions stay. If anything fails, all files are as
 * they were and no hidden file is left. A process that is killed leaves each file whole, old or new;
 * the next write to the folder clears its hidden files.
 * @param studioDir the studio's folder, which must be there
 */
export async function applyPlan(
  studioDir: string,
  changes: readonly Change[],
  writer: Writer,
): Promise<Applied> {
  const due = changes.filter(({ before, after }) => before !== after);
  if (due.length === 0) return { written: [] };
  const progress: Progress = { file: 'the studio', undo: [] };
  try {
    const studio = realpathSync(studioDir);
    const lock = await takeLock(studio, writer);
    if ('refused' in lock) return lock;
    try {
      return applyAll(progress, studio, { changes: due, pid: writer.pid });
    } finally {
      lock.release();
    }
  } catch (error) {
    return { refused: reasonFor(error, progress.file) };
  }
}

/** Makes the folder for a new studio, with those above it; one that is there already stays as it is. */
export function makeStudioFolder(dir: string): Refused | undefined {
  try {
    mkdirSync(dir, { recursive: true });
    return undefined;
  } catch (error) {
    return { refused: reasonFor(error, dir) };
  }
}

interface Plan {
  readonly changes: readonly Change[];
  readonly pid: number;
}

function applyAll(progress: Progress, studio: string, plan: Plan): Applied {
  let refused: Refused | undefined;
  try {
    refused = writeAll(progress, studio, plan);
  } catch (error) {
    refused = { refused: reasonFor(error, progress.file) };
  }
  if (!refused) return { written: plan.changes.map(({ file }) => file) };
  for (const act of progress.undo.toReversed()) quietly(act);
  return refused;
}

function writeAll(progress: Progress, studio: string, plan: Plan): Refused | undefined {
  const steps = stepsOf(progress, studio, plan);
  if ('refused' in steps) return steps;
  for (const folder of foldersOf(steps)) clearLitter(folder);
  for (const step of steps) prepare(progress, step);
  for (const step of steps) {
    const refused = changedMeanwhile(progress, step);
    if (refused) return refused;
  }
  if (steps.length > 1) for (const step of steps) keepOld(progress, step);
  for (const step of steps) putInPlace(progress, step);
  for (const folder of foldersOf(steps)) syncFolder(folder);
  for (const { backup } of steps) unlinkQuietly(backup);
  return undefined;
}

function foldersOf(steps: readonly Step[]): Set<string> {
  return new Set(steps.map(({ target }) => dirname(target)));
}

function stepsOf(
  progress: Progress,
  studio: string,
  { changes, pid }: Plan,
): readonly Step[] | Refused {
  const steps = new Map<string, Step>();
  for (const [index, change] of changes.entries()) {
    progress.file = change.file;
    const target = targetOf(studio, change.file);
    if (typeof target !== 'string') return target;
    if (steps.has(target)) return { refused: `${change.file} would be changed twice at once` };
    const hidden = join(dirname(target), `.saggar-${pid}-${index}`);
    steps.set(target, { ...change, target, temp: `${hidden}.new`, backup: `${hidden}.old` });
  }
  return [...steps.values()];
}

/** The file itself, every link followed; refused where it is outside the studio or no file. */
function targetOf(studio: string, file: string): string | Refused {
  const path = resolve(studio, file);
  if (!isInside(studio, path)) return { refused: `${file} is not in the studio` };
  const real = realOf(path);
  if (real === undefined) return { refused: `${file} is a link that leads nowhere` };
  if (!isInside(studio, real)) return { refused: `${file} leads out of the studio` };
  const found = statSync(real, { throwIfNoEntry: false });
  return found && !found.isFile() ? { refused: `${file} is not a file` } : real;
}

// Follows links as far as there is something; undefined where a link leads nowhere.
function realOf(path: string): string | undefined {
  if (statSync(path, { throwIfNoEntry: false })) return realpathSync(path);
  if (lstatSync(path, { throwIfNoEntry: false })) return undefined;
  const folder = realOf(dirname(path));
  return folder === undefined ? undefined : join(folder, basename(path));
}

function isInside(folder: string, path: string): boolean {
  return path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

// Hidden files that a killed writer left: there is no other writer now.
function clearLitter(folder: string): void {
  quietly(() => {
    for (const name of readdirSync(folder))
      if (LITTER.test(name)) unlinkQuietly(join(folder, name));
  });
}

// Makes the folders, and the hidden file with the new text.
function prepare(progress: Progress, step: Step): void {
  const { file, target, temp, before, after, executable } = step;
  progress.file = file;
  if (after === undefined) return;
  const folder = dirname(target);
  const highest = mkdirSync(folder, { recursive: true });
  if (highest !== undefined)
    progress.undo.push(() => {
      removeFolders(folder, highest);
    });
  progress.undo.push(() => {
    unlinkQuietly(temp);
  });
  writeTemp(temp, after, before === undefined ? undefined : target);
  if (executable) makeRunnable(temp);
}

function removeFolders(deepest: string, highest: string): void {
  for (let folder = deepest; folder.length >= highest.length; folder = dirname(folder))
    rmdirSync(folder);
}

function changedMeanwhile(progress: Progress, { file, target, before }: Step): Refused | undefined {
  progress.file = file;
  const there = statSync(target, { throwIfNoEntry: false }) !== undefined;
  if (before === undefined) return there ? { refused: `${file} is there already` } : undefined;
  if (!there) return { refused: `${file} is gone since it was read` };
  accessSync(target, constants.W_OK);
  if (readFileSync(target).equals(Buffer.from(before))) return undefined;
  return { refused: `${file} has changed since it was read: try again` };
}

function keepOld(progress: Progress, { file, target, before, backup }: Step): void {
  progress.file = file;
  if (before === undefined) return;
  // The last to be undone: where the old text could not be put back, its second name must stay.
  progress.undo.push(() => {
    if (readFileSync(target).equals(Buffer.from(before))) unlinkSync(backup);
  });
  backUp(target, backup);
}

function putInPlace(progress: Progress, { file, target, temp, before, after, backup }: Step): void {
  progress.file = file;
  if (after === undefined) unlinkSync(target);
  else renameSync(temp, target);
  progress.undo.push(() => {
    if (before === undefined) unlinkSync(target);
    else renameSync(backup, target);
  });
}
