/** PNG pictures without texts, times and what a camera wrote. */
import { Buffer } from 'node:buffer';
import { orientationIn, orientationOnly } from './orientation.ts';
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

/** The picture with its orientation alone; undefined for what is not whole. Throws where it is cut off. */
export function plainPng(bytes: Buffer): PlainPicture | undefined {
  const chunks = chunksOf(bytes);
  const [first] = chunks;
  if (first?.name !== 'IHDR' || chunks.at(-1)?.name !== 'IEND') return undefined;
  if (!chunks.some(({ name }) => name === 'IDAT')) return undefined;
  const exif = chunks.find(({ name }) => name === 'eXIf')?.bytes;
  const turned = orientationIn(exif?.subarray(8));
  const said = turned === 1 ? [] : [newChunk('eXIf', orientationOnly(turned))];
  const kept = chunks.filter(({ name }) => NEEDED.has(name)).map((each) => each.bytes);
  const [head = Buffer.alloc(0), ...rest] = kept;
  return {
    type: 'image/png',
    width: first.bytes.readUInt32BE(8),
    height: first.bytes.readUInt32BE(12),
    bytes: Buffer.concat([bytes.subarray(0, SIGNATURE), head, ...said, ...rest]),
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

function newChunk(name: string, data: Buffer): Buffer {
  const said = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(sumOfChunk(said));
  return Buffer.concat([length, said, sum]);
}

/** CRC-32, as PNG has it at the end of every chunk. */
function sumOfChunk(bytes: Buffer): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  return ~sum >>> 0;
}
