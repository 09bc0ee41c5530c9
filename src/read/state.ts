/** The state that a studio's files are in, to tell whether anything has changed. */
import { Buffer } from 'node:buffer';
import { compareTexts } from '../text-order.ts';
import { isSettled, stampOf, type Stamp } from './disk.ts';
import { listFiles, type ListedFile } from './find.ts';
import { kindOf } from './kinds.ts';
import { filedSheetStates, sheetState } from './sheet-state.ts';

/** What tells one state of a studio from another. */
export interface StudioState {
  readonly files: readonly ListedFile[];
  readonly strays: readonly string[];
  /** So many numbers for each file, in the order of the files. */
  readonly stamps: readonly number[];
  /** Files that may yet change without a new stamp. */
  readonly unsettled: ReadonlySet<string>;
  /** All of it: two states are the same where these are. */
  readonly bytes: Buffer;
}

/** Files that the program wrote, with their texts; undefined for one that it removed. */
export type Written = ReadonlyMap<string, string | undefined>;

const NUMBERS = 4;

/**
 * Undefined where it can't be told for certain: links, and folders that can't be read.
 * @param moment when the look at the files begins, in milliseconds
 */
export function stateOf(studioDir: string, moment: number): StudioState | undefined {
  const { files, strays, findings } = listFiles(studioDir);
  if (findings.length > 0) return undefined;
  const stamps: number[] = [];
  const unsettled = new Set<string>();
  for (const { file, linked } of files) {
    const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
    if (!stamp) return undefined;
    if (!isSettled(stamp, moment)) unsettled.add(file);
    stamps.push(...numbersOf(stamp));
  }
  return whole(studioDir, { files, strays: strays.map(({ file }) => file), stamps, unsettled });
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
  const [files, stamps] = [[...state.files], [...state.stamps]];
  const unsettled = new Set(state.unsettled);
  for (const [file, text] of written) {
    const kind = kindOf(file);
    const stamp = stampOf(`${studioDir}/${file}`);
    if (!kind || (stamp !== undefined) !== (text !== undefined)) return undefined;
    const at = placeOf(file, files);
    const old = files[at]?.file === file ? 1 : 0;
    files.splice(at, old, ...(stamp ? [{ file, kind, linked: false }] : []));
    stamps.splice(at * NUMBERS, old * NUMBERS, ...(stamp ? numbersOf(stamp) : []));
    if (stamp) unsettled.add(file);
    else unsettled.delete(file);
  }
  return whole(studioDir, { files, strays: state.strays, stamps, unsettled });
}

/** Where a file stands, or would stand, in the order of the files. */
function placeOf(file: string, files: readonly ListedFile[]): number {
  const at = files.findIndex((each) => compareTexts(each.file, file) >= 0);
  return at < 0 ? files.length : at;
}

function numbersOf({ size, modified, changed, inode }: Stamp): readonly number[] {
  return [size, modified, changed, inode];
}

function whole(studioDir: string, state: Omit<StudioState, 'bytes'>): StudioState {
  const { files, strays, stamps } = state;
  // A tax sheet of the studio's own need not be among the files.
  const filed = files.filter(({ kind }) => kind === 'filed').map(({ file }) => file);
  const sheets = [sheetState(studioDir), ...filedSheetStates(studioDir, filed)];
  const names = JSON.stringify([sheets, strays, files.map(({ file }) => file)]);
  const numbers = new Uint8Array(new Float64Array(stamps).buffer);
  return { ...state, bytes: Buffer.concat([Buffer.from(names), numbers]) };
}
