/** What a camera writes into pictures beside the picture: how it was held, and words that nobody is to see. */
import { Buffer } from 'node:buffer';

/** Words that stand for where a picture was taken. */
export const SECRET = 'GPS 51.5N';

/** A segment of a JPEG. */
export function segment(marker: number, data: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(data.length + 2, 2);
  return Buffer.concat([head, data]);
}

/** A directory of one orientation, then words that nobody is to see. */
export function exif(orientation: number, isLittle = false): Buffer {
  const tiff = Buffer.alloc(26);
  tiff.write(isLittle ? 'II' : 'MM', 0, 'latin1');
  const short = (value: number, at: number) =>
    isLittle ? tiff.writeUInt16LE(value, at) : tiff.writeUInt16BE(value, at);
  const long = (value: number, at: number) =>
    isLittle ? tiff.writeUInt32LE(value, at) : tiff.writeUInt32BE(value, at);
  short(42, 2);
  long(8, 4);
  short(1, 8);
  short(0x0112, 10);
  short(3, 12);
  long(1, 14);
  short(orientation, 18);
  return Buffer.concat([tiff, Buffer.from(SECRET)]);
}

/** A chunk of a PNG; its sum is left out. */
export function chunk(name: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(data.length, 0);
  head.write(name, 4, 'latin1');
  return Buffer.concat([head, data, Buffer.alloc(4)]);
}

/** A chunk of a WebP. */
export function part(name: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(name, 0, 'latin1');
  head.writeUInt32LE(data.length, 4);
  return Buffer.concat([head, data, Buffer.alloc(data.length % 2)]);
}

/** A WebP of chunks. */
export function webp(parts: readonly Buffer[]): Buffer {
  const body = Buffer.concat([Buffer.from('WEBP'), ...parts]);
  const head = Buffer.alloc(8);
  head.write('RIFF', 0, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body]);
}

/** A picture as a program made it, with what a camera would have written into it. */
export function asFromCamera(type: string, bytes: Buffer, orientation: number): Buffer {
  const written = exif(orientation);
  if (type === 'image/jpeg') {
    const said = segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), written]));
    return Buffer.concat([bytes.subarray(0, 2), said, bytes.subarray(2)]);
  }
  const afterHead = 8 + 25;
  if (type === 'image/png')
    return Buffer.concat([
      bytes.subarray(0, afterHead),
      chunk('eXIf', written),
      bytes.subarray(afterHead),
    ]);
  if (bytes.toString('latin1', 12, 16) === 'VP8X') {
    const known = Buffer.from(bytes.subarray(12));
    known.writeUInt8(known.readUInt8(8) | 0x08, 8);
    return webp([known, part('EXIF', written)]);
  }
  const head = Buffer.alloc(10);
  head.writeUInt8(0x08, 0);
  head.writeUIntLE((bytes.readUInt16LE(26) & 0x3fff) - 1, 4, 3);
  head.writeUIntLE((bytes.readUInt16LE(28) & 0x3fff) - 1, 7, 3);
  return webp([part('VP8X', head), bytes.subarray(12), part('EXIF', written)]);
}
