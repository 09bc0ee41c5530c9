/** Puts changed files on the disk, all of them or none: with its lock, the only module that writes. */
import { mkdirSync, realpathSync } from 'node:fs';
import { dirname, relative, sep } from 'node:path';
import { attempt } from '../attempt.ts';
import { digestOf } from '../digest.ts';
import { quietly, reasonFor, syncFolder, unlinkQuietly } from './disk.ts';
import { processStart, takeLock, type Lock, type Writer } from './lock.ts';
import { dropNote, readNote, writeNote, type Note } from './note.ts';
import type { Refused } from './parts.ts';
import {
  changedMeanwhile,
  changeSteps,
  clearLitter,
  foldersOf,
  hasOtherNames,
  keepOld,
  prepare,
  putInPlace,
  type ChangeStep,
  type FileToWrite,
  type Progress,
} from './steps.ts';

export type { Lock, Writer } from './lock.ts';
export type { FileToWrite } from './steps.ts';

/** The files that were changed, or why none was, in one sentence without a full stop. */
type Applied = WrittenFiles | Refused;

/** Files that were changed. */
interface WrittenFiles {
  readonly written: readonly string[];
  /** Those of them that have other names on the disk, which keep the old text. */
  readonly parted?: readonly string[];
}

/**
 * Takes a studio's lock for somebody who is going to write, before it is read. What a change that was
 * killed left half done is undone or finished, and said.
 */
export async function lockForWriting(studioDir: string, writer: Writer): Promise<Lock | Refused> {
  let lock: Lock | Refused | undefined;
  try {
    const studio = realpathSync(studioDir);
    lock = await takeLock(studio, writer);
    if ('release' in lock) await settleLeft(studio, writer);
    return lock;
  } catch (error) {
    if (lock && 'release' in lock) lock.release();
    return { refused: reasonFor(error, 'the studio', writer.uid) };
  }
}

async function settleLeft(studio: string, writer: Writer): Promise<void> {
  const note = readNote(studio, writer);
  if (!note) return;
  const { settle } = await import('./settle.ts');
  const done = settle(note, writer);
  if (done !== undefined) writer.tell?.(done);
}

/**
 * Changes files of a studio, one writer at a time. Each new text is first written whole to a hidden
 * file beside the old one, and renamed over it only when all are on the disk and every old file
 * still has the bytes that it was read with; permissions stay. If anything fails, all files are as
 * they were and no hidden file is left. What a process that is killed leaves of several files is
 * undone by the next write, by a note in the person's own folder; its hidden files are cleared.
 * @param studioDir the studio's folder, which must be there
 */
export async function applyPlan(
  studioDir: string,
  changes: readonly FileToWrite[],
  writer: Writer,
): Promise<Applied> {
  const due = changes.filter(({ before, after }) => before !== after);
  if (due.length === 0) return { written: [] };
  const held = heldOn(studioDir, writer);
  const lock = held ?? (await lockForWriting(studioDir, writer));
  if ('refused' in lock) return lock;
  try {
    return applyAll(lock.studio, due, writer);
  } finally {
    if (!held) lock.release();
  }
}

/** The lock that is held already, where it is this folder's. */
function heldOn(folder: string, { held }: Writer): Lock | Refused | undefined {
  const lock = held?.();
  if (!lock || 'refused' in lock) return lock;
  return attempt(() => realpathSync(folder)) === lock.studio ? lock : undefined;
}

/** Makes the folder for a new studio, with those above it; one that is there already stays as it is. */
export function makeStudioFolder(dir: string, uid: number | undefined): Refused | undefined {
  try {
    mkdirSync(dir, { recursive: true });
    return undefined;
  } catch (error) {
    return { refused: reasonFor(error, dir, uid) };
  }
}

function applyAll(studio: string, changes: readonly FileToWrite[], writer: Writer): Applied {
  const progress: Progress = { file: 'the studio', undo: [], clean: [], folders: [] };
  let applied: Applied;
  try {
    applied = writeAll(progress, { studio, changes, writer });
  } catch (error) {
    applied = { refused: reasonFor(error, progress.file, writer.uid) };
  }
  if ('refused' in applied) putBack(progress, studio, writer);
  return applied;
}

// Where a file can't be put back, the note and the copies stay for the next write.
function putBack({ undo, clean }: Progress, studio: string, writer: Writer): void {
  let left = 0;
  for (const act of undo.toReversed()) if (!quietly(act)) left += 1;
  if (left > 0 && readNote(studio, writer)) return;
  quietly(() => {
    dropNote(studio, writer);
  });
  for (const act of clean.toReversed()) quietly(act);
}

interface Plan {
  readonly studio: string;
  readonly changes: readonly FileToWrite[];
  readonly writer: Writer;
}

function writeAll(progress: Progress, { studio, changes, writer }: Plan): Applied {
  const steps = changeSteps(progress, studio, { changes, pid: writer.pid });
  if ('refused' in steps) return steps;
  const note = steps.length > 1 ? noteOf(studio, steps, writer) : undefined;
  for (const folder of foldersOf(steps)) clearLitter(folder);
  for (const step of steps) prepare(progress, step);
  for (const step of steps) {
    const refused = changedMeanwhile(progress, step);
    if (refused) return refused;
  }
  const parted = steps.filter(hasOtherNames).map(({ file }) => file);
  if (note) for (const step of steps) keepOld(progress, step);
  if (note) writeNote({ ...note, folders: madeIn(studio, progress) }, writer);
  for (const step of steps) putInPlace(progress, step);
  for (const folder of foldersOf(steps)) syncFolder(folder);
  for (const { backup } of steps) unlinkQuietly(backup);
  // Where it stays, the next write finds that all is there.
  if (note)
    quietly(() => {
      dropNote(studio, writer);
    });
  const written = changes.map(({ file }) => file);
  return parted.length > 0 ? { written, parted } : { written };
}

function noteOf(studio: string, steps: readonly ChangeStep[], writer: Writer): Note {
  const { pid, host } = writer;
  const digest = (text: string | undefined): string | null =>
    text === undefined ? null : digestOf(text);
  return {
    form: 1,
    studio,
    owner: { pid, host, started: processStart(pid) },
    folders: [],
    steps: steps.map(({ target, before, after }) => ({
      file: pathIn(studio, target),
      before: digest(before),
      after: digest(after),
    })),
  };
}

/** The folders that were made, the deepest first. */
function madeIn(studio: string, { folders }: Progress): readonly string[] {
  const made = new Set<string>();
  for (const [deepest, highest] of folders)
    for (let folder = deepest; folder.length >= highest.length; folder = dirname(folder))
      made.add(pathIn(studio, folder));
  return [...made].sort((a, b) => b.length - a.length);
}

function pathIn(studio: string, path: string): string {
  return relative(studio, path).split(sep).join('/');
}
