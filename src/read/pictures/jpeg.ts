/** JPEG pictures without what a camera wrote into them beside the picture. */
import { Buffer } from 'node:buffer';
import { orientationIn, orientationOnly } from './orientation.ts';
import type { PlainPicture } from './plain-picture.ts';

const START = 0xd8;
const END = 0xd9;
const SCAN = 0xda;
const REMARK = 0xfe;
const EXIF = 'Exif\0\0';
/** Says how colours are stored. */
const ADOBE = 0xee;

interface Segment {
  readonly marker: number;
  readonly bytes: Buffer;
}

/** The picture with its orientation alone; undefined for what is not whole. Throws where it is cut off. */
export function plainJpeg(bytes: Buffer): PlainPicture | undefined {
  const segments = segmentsOf(bytes);
  const frame = segments.find(({ marker }) => isFrame(marker))?.bytes;
  if (!frame || segments.at(-1)?.marker !== END) return undefined;
  const exif = segments.find(({ bytes: each }) => each.toString('latin1', 4, 10) === EXIF)?.bytes;
  const turned = orientationIn(exif?.subarray(10));
  const kept = segments.filter(({ marker }) => !isAside(marker)).map((each) => each.bytes);
  const [start = Buffer.alloc(0), ...rest] = kept;
  const said = turned === 1 ? [] : [exifSegment(turned)];
  return {
    type: 'image/jpeg',
    height: frame.readUInt16BE(5),
    width: frame.readUInt16BE(7),
    bytes: Buffer.concat([start, ...said, ...rest]),
  };
}

/** Every part up to the end of the picture; what comes after that is none of it. */
function segmentsOf(bytes: Buffer): Segment[] {
  const found: Segment[] = [{ marker: START, bytes: bytes.subarray(0, 2) }];
  let at = 2;
  while (at < bytes.length && found.at(-1)?.marker !== END) {
    const segment = segmentAt(bytes, at);
    found.push(segment);
    at += segment.bytes.length;
  }
  return found;
}

function segmentAt(bytes: Buffer, at: number): Segment {
  if (bytes.readUInt8(at) !== 0xff) throw new RangeError('no marker');
  const marker = bytes.readUInt8(at + 1);
  if (marker === END) return { marker, bytes: bytes.subarray(at, at + 2) };
  const headEnd = at + 2 + bytes.readUInt16BE(at + 2);
  const end = marker === SCAN ? scanEnd(bytes, headEnd) : headEnd;
  if (end > bytes.length || headEnd < at + 4) throw new RangeError('cut off');
  return { marker, bytes: bytes.subarray(at, end) };
}

/** Where the data of a scan ends: at the next marker that is not stuffing, nor a restart. */
function scanEnd(bytes: Buffer, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes.readUInt8(at + 1);
    const isData = next === 0 || next === 0xff || (next >= 0xd0 && next <= 0xd7);
    if (!isData) return at;
  }
  throw new RangeError('cut off');
}

function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
}

/** Segments of applications and comments, where places, names and other pictures stand. */
function isAside(marker: number): boolean {
  return marker === REMARK || (marker >= 0xe0 && marker <= 0xef && marker !== ADOBE);
}

function exifSegment(orientation: number): Buffer {
  const said = Buffer.concat([Buffer.from(EXIF, 'latin1'), orientationOnly(orientation)]);
  return Buffer.concat([Buffer.from([0xff, 0xe1, 0, said.length + 2]), said]);
}
