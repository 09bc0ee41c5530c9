/**
 * The cache: one file of a studio's memory that spares reading and checking what has not changed. A
 * hint only: whatever is odd about it, it is passed over, and nothing depends on it.
 */
import { Buffer } from 'node:buffer';
import { closeSync, fstatSync, readSync } from 'node:fs';
import { KINDS, type Kind } from '../book.ts';
import type { Store } from '../memory/store.ts';

/** A kind's part of the cache; the settings count as a kind. */
export type Part = Kind | 'studio';

const FILE = 'cache';
const NAME = 'saggar-cache-1';
/** The first line takes so many bytes whatever is in it, so that all parts can be found. */
const HEAD_SIZE = 4096;
/** Where in the first line the name and the checksum end. */
const HEAD_START = NAME.length + 10;
const HEAD = /^saggar-cache-1 ([0-9a-f]{8}) (\{.*\}) *\n$/;
// An odd factor loses nothing; this one (of the 32-bit FNV hash) spreads the bits.
const FACTOR = 0x01000193;

/** What the first line says: for what program the cache is, and where each part lies. */
interface Head {
  readonly stamp: string;
  readonly parts: Readonly<Partial<Record<Part, PartRow>>>;
}

/** A part's offset, size and checksum. */
type PartRow = readonly [at: number, size: number, sum: number];

/** The wanted parts of a studio's cache; those that are missing, damaged or of another stamp are left out. */
export function loadParts(store: Store, wanted: readonly Part[]): ReadonlyMap<Part, Uint8Array> {
  const handle = store.open(FILE);
  if (handle === undefined) return new Map();
  try {
    return partsIn(handle, store.stamp, wanted);
  } catch {
    return new Map();
  } finally {
    closeSync(handle);
  }
}

/**
 * Writes parts into a studio's cache; the other parts stay. Where that can't be done nothing is
 * written, and nothing is said. Sizes must be multiples of four.
 */
export function storeParts(store: Store, changed: ReadonlyMap<Part, Uint8Array>): void {
  const parts = new Map([...loadParts(store, ALL_PARTS), ...changed]);
  const head = headOf(store.stamp, parts);
  if (head) store.write(FILE, Buffer.concat([head, ...parts.values()]));
}

const ALL_PARTS: readonly Part[] = ['studio', ...KINDS];

function partsIn(handle: number, stamp: string, wanted: readonly Part[]): Map<Part, Uint8Array> {
  const parts = new Map<Part, Uint8Array>();
  const head = readHead(handle);
  if (head?.stamp !== stamp) return parts;
  for (const part of wanted) {
    const bytes = readPart(handle, head.parts[part]);
    if (bytes) parts.set(part, bytes);
  }
  return parts;
}

function readHead(handle: number): Head | undefined {
  const bytes = readBytes(handle, 0, HEAD_SIZE);
  const [, sum, json] = HEAD.exec(Buffer.from(bytes.buffer).toString('latin1')) ?? [];
  if (json === undefined || sum !== hexSum(bytes.subarray(HEAD_START))) return undefined;
  return JSON.parse(json) as Head;
}

function readPart(handle: number, row: PartRow | undefined): Uint8Array | undefined {
  if (row === undefined) return undefined;
  const [at, size, sum] = row;
  if (at + size > fstatSync(handle).size) return undefined;
  const bytes = readBytes(handle, at, size);
  return sumOf(bytes) === sum ? bytes : undefined;
}

function readBytes(handle: number, at: number, size: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(size);
  let filled = 0;
  let got: number;
  do {
    got = readSync(handle, bytes, filled, size - filled, at + filled);
    filled += got;
  } while (got > 0 && filled < size);
  return bytes;
}

/** Undefined where it would be too long. */
function headOf(stamp: string, parts: ReadonlyMap<Part, Uint8Array>): Buffer | undefined {
  const rows: Partial<Record<Part, PartRow>> = {};
  let at = HEAD_SIZE;
  for (const [part, bytes] of parts) {
    rows[part] = [at, bytes.length, sumOf(bytes)];
    at += bytes.length;
  }
  const head: Head = { stamp, parts: rows };
  const rest = Buffer.from(JSON.stringify(head).padEnd(HEAD_SIZE - HEAD_START - 1) + '\n');
  if (rest.length !== HEAD_SIZE - HEAD_START) return undefined;
  return Buffer.concat([Buffer.from(`${NAME} ${hexSum(rest)} `), rest]);
}

function hexSum(bytes: Uint8Array): string {
  return sumOf(bytes).toString(16).padStart(8, '0');
}

/** A checksum that sees any change within one word, and nearly all others. */
function sumOf(bytes: Uint8Array): number {
  let sum = bytes.length;
  for (const word of wordsOf(bytes)) {
    sum = Math.imul(sum ^ word, FACTOR);
    sum ^= sum >>> 15;
  }
  return sum >>> 0;
}

// A view of whole words must begin at one; a small buffer may begin anywhere in a shared one.
function wordsOf(bytes: Uint8Array): Uint32Array {
  const size = Uint32Array.BYTES_PER_ELEMENT;
  const { buffer, byteOffset, length } =
    bytes.byteOffset % size === 0 ? bytes : new Uint8Array(bytes);
  return new Uint32Array(buffer, byteOffset, length / size);
}
