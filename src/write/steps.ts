/** The steps of a change to several files: made ready all of them, looked at again, then put in place. */
import { Buffer } from 'node:buffer';
import {
  accessSync,
  constants,
  lstatSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmdirSync,
  statSync,
  unlinkSync,
} from 'node:fs';
import { basename, dirname, join, resolve, sep } from 'node:path';
import { backUp, quietly, renameOver, unlinkQuietly, writeTemp } from './disk.ts';
import type { Refused } from './parts.ts';

/** A file to be changed: undefined before means that it is new, undefined after that it goes. */
export interface FileToWrite {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  /** The whole text as it was read, with its byte order mark if it has one. */
  readonly before: string | undefined;
  readonly after: string | undefined;
  /** Whether a new file is a program that may be run. */
  readonly executable?: boolean;
}

/** A change under way. */
export interface ChangeStep extends FileToWrite, Hidden {
  /** The file itself, every link followed. */
  readonly target: string;
}

/** What has been done so far, and how to take it back. */
export interface Progress {
  /** The file at work, for the reason if the disk refuses. */
  file: string;
  /** Puts the files back that are in place. */
  readonly undo: (() => void)[];
  /** Clears away what was made ready. */
  readonly clean: (() => void)[];
  /** Folders that were made: for each the deepest, and the highest that was not there. */
  readonly folders: (readonly [deepest: string, highest: string])[];
}

/** The steps of some changes; refused where a file is not one of the studio's. */
export function changeSteps(
  progress: Progress,
  studio: string,
  { changes, pid }: { readonly changes: readonly FileToWrite[]; readonly pid: number },
): readonly ChangeStep[] | Refused {
  const steps = new Map<string, ChangeStep>();
  for (const [index, change] of changes.entries()) {
    progress.file = change.file;
    const target = targetOf(studio, change.file);
    if (typeof target !== 'string') return target;
    if (steps.has(target)) return { refused: `${change.file} would be changed twice at once` };
    steps.set(target, { ...change, target, ...hiddenBeside(target, pid, index) });
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

/** The folders that files change in. */
export function foldersOf(steps: readonly Pick<ChangeStep, 'target'>[]): Set<string> {
  return new Set(steps.map(({ target }) => dirname(target)));
}

/** Clears hidden files that a killed writer left: there is no other writer now. */
export function clearLitter(folder: string): void {
  quietly(() => {
    for (const name of readdirSync(folder)) if (isHidden(name)) unlinkQuietly(join(folder, name));
  });
}

/** Makes the folders, and the hidden file with the new text. */
export function prepare(progress: Progress, step: ChangeStep): void {
  const { file, target, temp, before, after, executable } = step;
  progress.file = file;
  if (after === undefined) return;
  const folder = dirname(target);
  const highest = mkdirSync(folder, { recursive: true });
  if (highest !== undefined) {
    progress.folders.push([folder, highest]);
    progress.clean.push(() => {
      removeFolders(folder, highest);
    });
  }
  progress.clean.push(() => {
    unlinkQuietly(temp);
  });
  const like = before === undefined ? undefined : target;
  writeTemp({ path: temp, text: after, like, executable });
}

/** Removes folders that were made, from the deepest up to the highest; throws at one that is not empty. */
function removeFolders(deepest: string, highest: string): void {
  for (let folder = deepest; folder.length >= highest.length; folder = dirname(folder))
    rmdirSync(folder);
}

/** Why a file is not as it was read. */
export function changedMeanwhile(
  progress: Progress,
  { file, target, before }: ChangeStep,
): Refused | undefined {
  progress.file = file;
  const there = statSync(target, { throwIfNoEntry: false }) !== undefined;
  if (before === undefined) return there ? { refused: `${file} is there already` } : undefined;
  if (!there) return { refused: `${file} is gone since it was read` };
  accessSync(target, constants.W_OK);
  if (readFileSync(target).equals(Buffer.from(before))) return undefined;
  return { refused: `${file} has changed since it was read: try again` };
}

/** Whether a file has other names on the disk, which will keep the old text. */
export function hasOtherNames({ target, before }: ChangeStep): boolean {
  return before !== undefined && statSync(target).nlink > 1;
}

/** Keeps the old text under a second name. */
export function keepOld(progress: Progress, { file, target, before, backup }: ChangeStep): void {
  progress.file = file;
  if (before === undefined) return;
  // Where the old text could not be put back, its second name must stay.
  progress.clean.push(() => {
    if (readFileSync(target).equals(Buffer.from(before))) unlinkSync(backup);
  });
  backUp(target, backup);
}

/** Puts the new text in its place, or takes the file away. */
export function putInPlace(
  progress: Progress,
  { file, target, temp, before, after, backup }: ChangeStep,
): void {
  progress.file = file;
  if (after === undefined) unlinkSync(target);
  else renameOver(temp, target);
  progress.undo.push(() => {
    if (before === undefined) unlinkSync(target);
    else renameSync(backup, target);
  });
}

/** Follows links as far as there is something; undefined where a link leads nowhere. */
export function realOf(path: string): string | undefined {
  if (statSync(path, { throwIfNoEntry: false })) return realpathSync(path);
  if (lstatSync(path, { throwIfNoEntry: false })) return undefined;
  const folder = realOf(dirname(path));
  return folder === undefined ? undefined : join(folder, basename(path));
}

/** Whether a path lies in a folder, by its name alone. */
export function isInside(folder: string, path: string): boolean {
  return path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

/** The program's own hidden files beside a file that it changes. */
export interface Hidden {
  /** The new text. */
  readonly temp: string;
  /** The old one, while others may still fail. */
  readonly backup: string;
}

/** The hidden files of one of the files that a process changes at once. */
export function hiddenBeside(target: string, pid: number, index: number): Hidden {
  const hidden = join(dirname(target), `.saggar-${pid}-${index}`);
  return { temp: `${hidden}.new`, backup: `${hidden}.old` };
}

/** Whether a name is of such a file, be it another process's. */
function isHidden(name: string): boolean {
  return /^\.saggar-\d+-\d+\.(?:new|old)$/.test(name);
}
