/**
 * The cache: one file in the studio that spares reading and checking what has not changed. A hint
 * only: whatever is odd about it, it is passed over, and nothing depends on it.
 */
import { Buffer } from 'node:buffer';
import {
  closeSync,
  fstatSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { KINDS, type Kind } from '../book.ts';

/** A kind's part of the cache; the settings count as a kind. */
export type Part = Kind | 'studio';

const FOLDER = '.saggar';
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

/**
 * The wanted parts of a studio's cache; those that are missing, damaged or of another stamp are left
 * out. The stamp names the program's version and its schemas.
 */
export function loadParts(
  studioDir: string,
  stamp: string,
  wanted: readonly Part[],
): ReadonlyMap<Part, Uint8Array> {
  let handle: number | undefined;
  try {
    handle = openSync(`${studioDir}/${FOLDER}/${FILE}`, 'r');
    return partsIn(handle, stamp, wanted);
  } catch {
    return new Map();
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/**
 * Writes parts into a studio's cache; the other parts stay. Where that can't be done nothing is
 * written, and nothing is said. Sizes must be multiples of four.
 */
export function storeParts(
  studioDir: string,
  stamp: string,
  changed: ReadonlyMap<Part, Uint8Array>,
): void {
  try {
    const folder = cacheFolder(studioDir);
    const parts = new Map([...loadParts(studioDir, stamp, ALL_PARTS), ...changed]);
    const place = mkdtempSync(`${folder}/new-`);
    try {
      writeFileSync(`${place}/${FILE}`, cacheBytes(stamp, parts));
      renameSync(`${place}/${FILE}`, `${folder}/${FILE}`);
    } finally {
      rmSync(place, { recursive: true, force: true });
    }
  } catch {
    // A studio that can't be written to is read without a cache.
  }
}

/**
 * The time on the clock of the studio's disk, in milliseconds; undefined where nothing can be written.
 * A file that was changed before it and is read after it can't change again without a new time.
 */
export function diskTime(studioDir: string): number | undefined {
  try {
    const place = mkdtempSync(`${cacheFolder(studioDir)}/now-`);
    try {
      return statSync(place).mtimeMs;
    } finally {
      rmdirSync(place);
    }
  } catch {
    return undefined;
  }
}

const ALL_PARTS: readonly Part[] = ['studio', ...KINDS];

/**
 * The program's own folder in a studio, made where it is not there; git ignores it. Throws where it
 * can't be made. A link could lead anywhere, so it is not written through.
 */
export function cacheFolder(studioDir: string): string {
  const folder = `${studioDir}/${FOLDER}`;
  if (lstatSync(folder, { throwIfNoEntry: false }) === undefined) {
    mkdirSync(folder);
    writeFileSync(`${folder}/.gitignore`, '*\n');
  }
  if (!lstatSync(folder).isDirectory()) throw new Error(`${FOLDER} is no folder`);
  return folder;
}

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

function cacheBytes(stamp: string, parts: ReadonlyMap<Part, Uint8Array>): Buffer {
  const rows: Partial<Record<Part, PartRow>> = {};
  let at = HEAD_SIZE;
  for (const [part, bytes] of parts) {
    rows[part] = [at, bytes.length, sumOf(bytes)];
    at += bytes.length;
  }
  return Buffer.concat([headBytes({ stamp, parts: rows }), ...parts.values()]);
}

function headBytes(head: Head): Buffer {
  const rest = Buffer.from(JSON.stringify(head).padEnd(HEAD_SIZE - HEAD_START - 1) + '\n');
  if (rest.length !== HEAD_SIZE - HEAD_START) throw new Error('the head of the cache is too long');
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
