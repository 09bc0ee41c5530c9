/** The state that a studio's files are in, to tell whether anything has changed. */
import { Buffer } from 'node:buffer';
import { compareTexts } from '../text-order.ts';
import { stampOf, type Stamp } from './disk.ts';
import { listFiles, type ListedFile } from './find.ts';
import { kindOf } from './kinds.ts';
import { sheetState } from './sheet-state.ts';

/** What tells one state of a studio from another. */
export interface StudioState {
  readonly files: readonly ListedFile[];
  readonly strays: readonly string[];
  /** So many numbers for each file, in the order of the files. */
  readonly stamps: Float64Array;
  /** When a file was last changed, in any way. */
  readonly changed: number;
  /** All of it: two states are the same where these are. */
  readonly bytes: Buffer;
}

/** Files that the program wrote, with their texts; undefined for one that it removed. */
export type Written = ReadonlyMap<string, string | undefined>;

const NUMBERS = 4;

/** Undefined where it can't be told for certain: links, and folders that can't be read. */
export function stateOf(studioDir: string): StudioState | undefined {
  const { files, strays, findings } = listFiles(studioDir);
  if (findings.length > 0) return undefined;
  const stamps = new Float64Array(files.length * NUMBERS);
  let changed = 0;
  for (const [at, { file, linked }] of files.entries()) {
    const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
    if (!stamp) return undefined;
    changed = newest(changed, stamp);
    putStamp(stamps, at, stamp);
  }
  return whole(studioDir, { files, strays: strays.map(({ file }) => file), stamps, changed });
}

/**
 * The same once the program has written some files, without a look at the others: where somebody
 * else has changed one of those, the studio is never found in this state. Undefined where the files
 * written are not what they were written as.
 */
export function stateAfter(
  state: StudioState,
  studioDir: string,
  written: Written,
): StudioState | undefined {
  const now = stampsAfter(studioDir, written);
  if (!now) return undefined;
  const places = new Map(state.files.map(({ file }, at) => [file, at]));
  const others = state.files.filter(({ file }) => !written.has(file));
  const files = [...others, ...now.keys()].sort((a, b) => compareTexts(a.file, b.file));
  const stamps = new Float64Array(files.length * NUMBERS);
  for (const [at, listed] of files.entries()) {
    const stamp = now.get(listed);
    const was = (places.get(listed.file) ?? 0) * NUMBERS;
    if (stamp) putStamp(stamps, at, stamp);
    else stamps.set(state.stamps.subarray(was, was + NUMBERS), at * NUMBERS);
  }
  const changed = [...now.values()].reduce(newest, state.changed);
  return whole(studioDir, { files, strays: state.strays, stamps, changed });
}

/** The files that are there now, with their stamps; undefined where one is not as it was left. */
function stampsAfter(
  studioDir: string,
  written: Written,
): ReadonlyMap<ListedFile, Stamp> | undefined {
  const stamps = new Map<ListedFile, Stamp>();
  for (const [file, text] of written) {
    const stamp = stampOf(`${studioDir}/${file}`);
    const kind = kindOf(file);
    if (!kind || (stamp !== undefined) !== (text !== undefined)) return undefined;
    if (stamp) stamps.set({ file, kind, linked: false }, stamp);
  }
  return stamps;
}

/** A file that was changed no later than the look at it may change again without a new time. */
export function isSettled({ changed }: StudioState, time: number | undefined): boolean {
  return time !== undefined && changed < time;
}

function newest(time: number, { modified, changed }: Stamp): number {
  return Math.max(time, modified, changed);
}

function putStamp(
  stamps: Float64Array,
  at: number,
  { size, modified, changed, inode }: Stamp,
): void {
  const from = at * NUMBERS;
  stamps[from] = size;
  stamps[from + 1] = modified;
  stamps[from + 2] = changed;
  stamps[from + 3] = inode;
}

function whole(studioDir: string, state: Omit<StudioState, 'bytes'>): StudioState {
  const { files, strays, stamps } = state;
  // A tax sheet of the studio's own need not be among the files.
  const names = JSON.stringify([sheetState(studioDir), strays, files.map(({ file }) => file)]);
  return { ...state, bytes: Buffer.concat([Buffer.from(names), new Uint8Array(stamps.buffer)]) };
}
