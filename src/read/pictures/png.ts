/** PNG pictures without texts, times and what a camera wrote. */
import { Buffer } from 'node:buffer';
import type { PlainPicture } from './plain-picture.ts';

const SIGNATURE = 8;

/** What a picture needs to be seen as it is; a moving one stands still. */
const NEEDED: ReadonlySet<string> = new Set([
  'IHDR',
  'PLTE',
  'IDAT',
  'IEND',
  'tRNS',
  'gAMA',
  'cHRM',
  'sRGB',
  'sBIT',
]);

/** The picture alone; undefined for what is not whole. Throws where it is cut off. */
export function plainPng(bytes: Buffer): PlainPicture | undefined {
  const chunks = chunksOf(bytes);
  const [first] = chunks;
  if (first?.name !== 'IHDR' || chunks.at(-1)?.name !== 'IEND') return undefined;
  if (!chunks.some(({ name }) => name === 'IDAT')) return undefined;
  const kept = chunks.filter(({ name }) => NEEDED.has(name)).map((each) => each.bytes);
  return {
    type: 'image/png',
    width: first.bytes.readUInt32BE(8),
    height: first.bytes.readUInt32BE(12),
    bytes: Buffer.concat([bytes.subarray(0, SIGNATURE), ...kept]),
  };
}

interface Chunk {
  readonly name: string;
  readonly bytes: Buffer;
}

function chunksOf(bytes: Buffer): Chunk[] {
  const found: Chunk[] = [];
  let at = SIGNATURE;
  while (found.at(-1)?.name !== 'IEND') {
    const end = at + 12 + bytes.readUInt32BE(at);
    if (end > bytes.length) throw new RangeError('cut off');
    found.push({ name: bytes.toString('latin1', at + 4, at + 8), bytes: bytes.subarray(at, end) });
    at = end;
  }
  return found;
}
