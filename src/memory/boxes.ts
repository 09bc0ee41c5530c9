/**
 * What is remembered of a folder lies in boxes, each a file of several parts, and a list says what is in
 * them. A hint only: a list that is odd in any way is passed over, and a part that is not what the list
 * says ends the run that believed in it.
 */
import { Buffer } from 'node:buffer';
import { deserialize, serialize } from 'node:v8';
import { digestOf } from '../digest.ts';
import type { Store } from './store.ts';

/** The boxes of a folder as they were found. */
export interface Boxes {
  /** What was said of them all. */
  readonly about: unknown;
  /** What is in a part. Throws `MemoryLost` where it can't be had as it was kept. */
  readonly part: (box: string, name: string) => Uint8Array;
  /** Where each box is, and its parts in it. */
  readonly places: ReadonlyMap<string, BoxPlace>;
}

/** What is remembered is not what it was when this run began: it must begin anew, without it. */
export class MemoryLost extends Error {
  override readonly name = 'MemoryLost';
}

/** A box as it is to be kept: its parts, or nothing where it stays as it is. */
export type BoxToKeep = ReadonlyMap<string, Uint8Array> | undefined;

/** No boxes at all. */
export const NO_BOXES: Boxes = {
  about: undefined,
  part: () => lost(),
  places: new Map(),
};

const LIST = 'list';
const BOX = 'box-';
const HEAD = /^saggar-memory-1 ([0-9a-f]{64})\n$/;
const HEAD_SIZE = `saggar-memory-1 ${'0'.repeat(64)}\n`.length;
// A view of wide numbers must begin at one.
const WIDEST = 8;

/** A part of a box: where it begins, its size and its checksum. */
type Part = readonly [at: number, size: number, sum: number];

interface Listed {
  readonly stamp: string;
  readonly about: unknown;
  readonly boxes: ReadonlyMap<string, BoxPlace>;
}

/** The file that a box is, and its parts. */
interface BoxPlace {
  readonly file: string;
  readonly parts: ReadonlyMap<string, Part>;
}

/** The boxes that are kept for this version of the program. */
export function openBoxes(store: Store): Boxes {
  const list = listIn(store);
  if (!list) return NO_BOXES;
  const read = new Map<string, Buffer>();
  const forgotten = (): never => {
    forgetList(store);
    return lost();
  };
  const bytesOf = (file: string): Buffer => {
    const bytes = read.get(file) ?? store.read(file) ?? forgotten();
    read.set(file, bytes);
    return bytes;
  };
  return {
    about: list.about,
    part: (box, name) => {
      const { file, parts } = list.boxes.get(box) ?? lost();
      const [at, size, sum] = parts.get(name) ?? lost();
      const part = new Uint8Array(bytesOf(file).subarray(at, at + size));
      return sumOf(part) === sum ? part : forgotten();
    },
    places: list.boxes,
  };
}

/** What is to be kept. */
export interface ToKeep {
  readonly about: unknown;
  readonly boxes: ReadonlyMap<string, BoxToKeep>;
  /** The boxes as this run found them, of which some stay. */
  readonly found: Boxes;
}

/**
 * Keeps boxes, of those that stay as they were found only the mention. Nothing happens where it can't be
 * done; where one that is to stay is gone, all is forgotten. Boxes that neither the new list names nor
 * the one before go.
 */
export function keepBoxes(store: Store, { about, boxes, found }: ToKeep): void {
  const before = listIn(store)?.boxes ?? new Map<string, BoxPlace>();
  const kept = new Map<string, BoxPlace>();
  for (const [name, parts] of boxes) {
    const place = parts ? packed(store, name, parts) : found.places.get(name);
    if (!place) return;
    if (!store.has(place.file)) {
      forgetList(store);
      return;
    }
    kept.set(name, place);
  }
  const list: Listed = { stamp: store.stamp, about, boxes: kept };
  const bytes = serialize(list);
  const isKept = store.write(
    LIST,
    Buffer.concat([Buffer.from(`saggar-memory-1 ${digestOf(bytes)}\n`), bytes]),
  );
  if (!isKept) return;
  const inUse = [...before.values(), ...kept.values()].map(({ file }) => file);
  store.forgetBut(BOX, new Set(inUse));
}

/** What can't be had as it was kept is of no more use to the next run. */
function forgetList(store: Store): void {
  store.forgetBut(LIST, new Set());
}

function listIn(store: Store): Listed | undefined {
  const bytes = store.read(LIST);
  if (!bytes) return undefined;
  const [, digest] = HEAD.exec(bytes.toString('latin1', 0, HEAD_SIZE)) ?? [];
  const rest = bytes.subarray(HEAD_SIZE);
  if (digest !== digestOf(rest)) return undefined;
  try {
    const list = deserialize(rest) as Listed;
    return list.stamp === store.stamp ? list : undefined;
  } catch {
    return undefined;
  }
}

function packed(
  store: Store,
  name: string,
  parts: ReadonlyMap<string, Uint8Array>,
): BoxPlace | undefined {
  const places = new Map<string, Part>();
  const pieces: Uint8Array[] = [];
  let at = 0;
  for (const [part, bytes] of parts) {
    places.set(part, [at, bytes.length, sumOf(bytes)]);
    const padding = (WIDEST - (bytes.length % WIDEST)) % WIDEST;
    pieces.push(bytes, new Uint8Array(padding));
    at += bytes.length + padding;
  }
  const all = Buffer.concat(pieces);
  const file = `${BOX}${name}-${digestOf(all).slice(0, 16)}`;
  const isKept = store.read(file)?.equals(all) === true || store.write(file, all);
  return isKept ? { file, parts: places } : undefined;
}

// An odd factor loses nothing; this one (of the 32-bit FNV hash) spreads the bits.
const FACTOR = 0x01000193;

/** A checksum that sees any change within one word, and nearly all others. */
function sumOf(bytes: Uint8Array): number {
  let sum = bytes.length;
  for (const word of wordsOf(bytes)) {
    sum = Math.imul(sum ^ word, FACTOR);
    sum ^= sum >>> 15;
  }
  return sum >>> 0;
}

/** The bytes in words, the last filled up. */
function wordsOf(bytes: Uint8Array): Uint32Array {
  const size = Uint32Array.BYTES_PER_ELEMENT;
  const whole = new Uint8Array(Math.ceil(bytes.length / size) * size);
  whole.set(bytes);
  return new Uint32Array(whole.buffer);
}

function lost(): never {
  throw new MemoryLost('what was remembered is gone, or is no longer what it was');
}
