/** WebP pictures without what a camera wrote. */
import { Buffer } from 'node:buffer';
import { orientationIn, orientationOnly } from './orientation.ts';
import type { PlainPicture } from './plain-picture.ts';

const HEAD = 12;
const SHOWN_PARTS: ReadonlySet<string> = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH']);
/** Of the flags in VP8X: transparency, and that the orientation follows. */
const ALPHA = 0x10;
const HAS_EXIF = 0x08;

interface RiffChunk {
  readonly name: string;
  /** With its name and length. */
  readonly bytes: Buffer;
}

/** The picture with its orientation alone; undefined for a moving one. Throws where it is cut off. */
export function plainWebp(bytes: Buffer): PlainPicture | undefined {
  const chunks = chunksOf(bytes);
  const picture = chunks.find(({ name }) => name === 'VP8 ' || name === 'VP8L');
  if (!picture) return undefined;
  const size = pointsOf(chunks.find(({ name }) => name === 'VP8X') ?? picture);
  const exif = chunks.find(({ name }) => name === 'EXIF');
  const turned = orientationIn(exif && tiffIn(exif.bytes));
  const kept = chunks.filter(({ name }) => SHOWN_PARTS.has(name));
  const hasHead = kept[0]?.name === 'VP8X';
  const body = [
    ...kept.map((each) => (each.name === 'VP8X' ? headChunk(each.bytes, turned) : each.bytes)),
    ...(hasHead && turned !== 1 ? [chunkOf('EXIF', orientationOnly(turned))] : []),
  ];
  const whole = Buffer.concat(body);
  const head = Buffer.from(bytes.subarray(0, HEAD));
  head.writeUInt32LE(whole.length + 4, 4);
  return { type: 'image/webp', ...size, bytes: Buffer.concat([head, whole]) };
}

function chunksOf(bytes: Buffer): RiffChunk[] {
  const found: RiffChunk[] = [];
  const end = bytes.readUInt32LE(4) + 8;
  if (end > bytes.length) throw new RangeError('cut off');
  for (let at = HEAD; at < end;) {
    const length = bytes.readUInt32LE(at + 4);
    const next = at + 8 + length + (length % 2);
    if (next > bytes.length) throw new RangeError('cut off');
    found.push({ name: bytes.toString('latin1', at, at + 4), bytes: bytes.subarray(at, next) });
    at = next;
  }
  return found;
}

function pointsOf({ name, bytes }: RiffChunk): { width: number; height: number } {
  if (name === 'VP8X')
    return { width: bytes.readUIntLE(12, 3) + 1, height: bytes.readUIntLE(15, 3) + 1 };
  if (name === 'VP8 ')
    return { width: bytes.readUInt16LE(14) & 0x3fff, height: bytes.readUInt16LE(16) & 0x3fff };
  const bits = bytes.readUInt32LE(9);
  return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
}

function headChunk(bytes: Buffer, turned: number): Buffer {
  const head = Buffer.from(bytes);
  head.writeUInt8((head.readUInt8(8) & ALPHA) | (turned === 1 ? 0 : HAS_EXIF), 8);
  return head;
}

/** Some programs put the head of JPEG's segment in front of it. */
function tiffIn(chunk: Buffer): Buffer {
  const said = chunk.subarray(8);
  return said.toString('latin1', 0, 4) === 'Exif' ? said.subarray(6) : said;
}

function chunkOf(name: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(name, 0, 'latin1');
  head.writeUInt32LE(data.length, 4);
  return Buffer.concat([head, data, Buffer.alloc(data.length % 2)]);
}
