/**
 * What is remembered of a folder lies in boxes, each a file of several parts, and a list says what is in
 * them. A hint only: a list that is odd in any way is passed over, and a part that is not what the list
 * says ends the run that believed in it.
 */
import { Buffer } from 'node:buffer';
import { deserialize, serialize } from 'node:v8';
import { attempt } from '../attempt.ts';
import { digestOf } from '../digest.ts';
import type { StudioStore } from './store.ts';

/** The boxes of a folder as they were found. */
export interface Boxes {
  /** What was said of them all. */
  readonly about: unknown;
  /** What is in a part. Throws `MemoryLost` where it can't be had as it was kept. */
  readonly part: (box: string, name: string) => Uint8Array;
  /** The same with its checksum, whether it fits or not. */
  readonly asItLies: (box: string, name: string) => Lying;
  /** Where each box is, and its parts in it. */
  readonly places: ReadonlyMap<string, BoxPlace>;
}

/** What is remembered is not what it was when this run began: it must begin anew, without it. */
export class MemoryLost extends Error {
  override readonly name = 'MemoryLost';
}

/** A box as it is to be kept: its parts; none where it stays as it is, nor of a part that stays so. */
export type BoxToKeep = ReadonlyMap<string, Uint8Array | undefined> | undefined;

/** No boxes at all. */
export const NO_BOXES: Boxes = {
  about: undefined,
  part: () => lost(),
  asItLies: () => lost(),
  places: new Map(),
};

const LIST = 'list';
const BOX = 'box-';
const HEAD = /^saggar-memory-1 ([0-9a-f]{64})\n$/;
const HEAD_SIZE = `saggar-memory-1 ${'0'.repeat(64)}\n`.length;

/** A part of a box: where it begins, its size and its checksum. */
type BoxPart = readonly [at: number, size: number, sum: number];

interface Lying {
  readonly bytes: Uint8Array;
  readonly sum: number;
}

interface Listed {
  readonly stamp: string;
  readonly about: unknown;
  readonly boxes: ReadonlyMap<string, BoxPlace>;
}

/** The file that a box is, and its parts. */
interface BoxPlace {
  readonly file: string;
  readonly parts: ReadonlyMap<string, BoxPart>;
}

/** The boxes that are kept for this version of the program. */
export function openBoxes(store: StudioStore): Boxes {
  const list = listIn(store);
  if (!list) return NO_BOXES;
  const forgotten = (): never => {
    forgetList(store);
    return lost();
  };
  const asItLies = (box: string, name: string): Lying => {
    const { file, parts } = list.boxes.get(box) ?? lost();
    const [at, size, sum] = parts.get(name) ?? lost();
    return { bytes: store.read(file, { at, size }) ?? forgotten(), sum };
  };
  return {
    about: list.about,
    asItLies,
    part: (box, name) => {
      const { bytes, sum } = asItLies(box, name);
      return checksumOf(bytes) === sum ? bytes : forgotten();
    },
    places: list.boxes,
  };
}

/** What is to be kept. */
interface ToKeep {
  readonly about: unknown;
  readonly boxes: ReadonlyMap<string, BoxToKeep>;
  /** The boxes as this run found them, of which some stay. */
  readonly found: Boxes;
}

/**
 * Keeps boxes, of those that stay as they were found only the mention. Nothing happens where it can't be
 * done; where one that is to stay is gone, all is forgotten. Boxes that neither the new list names nor
 * the one before go; where there is no room for both, or no list names them, those before go first.
 */
export function keepBoxes(store: StudioStore, { about, boxes, found }: ToKeep): void {
  const before = listIn(store)?.boxes;
  if (!before) store.forgetBut(BOX, filesOfBoxes(found.places));
  const packed = [...boxes].flatMap(([name, parts]) => packedBox(name, parts, found));
  if (packed.length < boxes.size) return;
  const kept = new Map(packed.map(({ name, place }) => [name, place]));
  const files = filesOfBoxes(kept);
  const written = (): boolean => packed.every((box) => writeBox(store, box));
  if (!written()) {
    forgetList(store);
    store.forgetBut(BOX, files);
    if (!written()) return;
  }
  const isKept = writeList(store, { stamp: store.stamp, about, boxes: kept });
  if (isKept) store.forgetBut(BOX, new Set([...filesOfBoxes(before ?? kept), ...files]));
}

function filesOfBoxes(places: Boxes['places']): ReadonlySet<string> {
  return new Set([...places.values()].map(({ file }) => file));
}

function writeList(store: StudioStore, list: Listed): boolean {
  const bytes = serialize(list);
  const head = Buffer.from(`saggar-memory-1 ${digestOf(bytes)}\n`);
  return store.write(LIST, Buffer.concat([head, bytes]));
}

/** What can't be had as it was kept is of no more use to the next run. */
function forgetList(store: StudioStore): void {
  store.forgetBut(LIST, new Set());
}

function listIn(store: StudioStore): Listed | undefined {
  const bytes = store.read(LIST);
  if (!bytes) return undefined;
  const [, digest] = HEAD.exec(bytes.toString('latin1', 0, HEAD_SIZE)) ?? [];
  const rest = bytes.subarray(HEAD_SIZE);
  if (digest !== digestOf(rest)) return undefined;
  const list = attempt(() => deserialize(rest) as Listed);
  return list?.stamp === store.stamp ? list : undefined;
}

/** A box as it is to lie; without bytes where it stays as it was found. */
interface PackedBox {
  readonly name: string;
  readonly place: BoxPlace;
  readonly bytes?: Uint8Array;
}

/** None where one is to stay that was never there. */
function packedBox(name: string, parts: BoxToKeep, found: Boxes): PackedBox[] {
  if (!parts) {
    const place = found.places.get(name);
    return place ? [{ name, place }] : [];
  }
  const places = new Map<string, BoxPart>();
  const pieces: Uint8Array[] = [];
  let at = 0;
  for (const [part, own] of parts) {
    const { bytes, sum } = own ? { bytes: own, sum: checksumOf(own) } : found.asItLies(name, part);
    places.set(part, [at, bytes.length, sum]);
    pieces.push(bytes);
    at += bytes.length;
  }
  const bytes = Buffer.concat(pieces);
  const file = `${BOX}${name}-${digestOf(bytes).slice(0, 16)}`;
  return [{ name, place: { file, parts: places }, bytes }];
}

/** Whether a box lies there: as it was found, or now. */
function writeBox(store: StudioStore, { place: { file }, bytes }: PackedBox): boolean {
  if (!bytes) return store.has(file);
  return store.read(file)?.equals(bytes) === true || store.write(file, bytes);
}

// An odd factor loses nothing; this one (of the 32-bit FNV hash) spreads the bits.
const FACTOR = 0x01000193;

/** A checksum that sees any change within one word, and nearly all others. */
function checksumOf(bytes: Uint8Array): number {
  const { buffer, byteOffset, length } = bytes.byteOffset % 4 > 0 ? Uint8Array.from(bytes) : bytes;
  const whole = length >>> 2;
  const words = new Uint32Array(buffer, byteOffset, whole);
  let sum = length;
  for (let at = 0; at < whole; at++) sum = mixed(sum, words[at] ?? 0);
  for (const byte of bytes.subarray(whole * 4)) sum = mixed(sum, byte);
  return sum >>> 0;
}

function mixed(sum: number, word: number): number {
  const product = Math.imul(sum ^ word, FACTOR);
  return product ^ (product >>> 15);
}

function lost(): never {
  throw new MemoryLost('what was remembered is gone, or is no longer what it was');
}
