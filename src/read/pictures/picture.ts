/** Pictures of a studio for its pages: small ones, by what their bytes are, with nothing else that a camera wrote. */
import { Buffer } from 'node:buffer';
import { readSync, realpathSync } from 'node:fs';
import { join, sep } from 'node:path';
import { attempt } from '../../attempt.ts';
import { withPlainFile } from '../disk.ts';
import { plainJpeg } from './jpeg.ts';
import type { PlainPicture } from './plain-picture.ts';
import { plainPng } from './png.ts';
import { plainWebp } from './webp.ts';

/** Why a page doesn't have a picture. */
export interface NoPicture {
  readonly why: 'absent' | 'too-large' | 'unfit';
  /** Bytes of the file, where there is one. */
  readonly size: number;
}

/** Pages have pictures of up to so many bytes in them: 300 KiB. */
export const LARGEST_PICTURE = 300 * 1024;
/** What a browser makes of a picture takes four bytes a point: few bytes can be very many points. */
const MOST_POINTS = 40_000_000;
const LONGEST_SIDE = 12_000;

/** The picture at a path in the studio; never what a link leads to. */
export function pictureIn(folder: string, path: string): PlainPicture | NoPicture {
  const real = attempt(() => realpathSync(folder));
  const place = real === undefined ? '' : join(real, ...path.split('/'));
  const absent: NoPicture = { why: 'absent', size: 0 };
  if (real === undefined || attempt(() => realpathSync(place)) !== place) return absent;
  if (!place.startsWith(real + sep)) return absent;
  return withPlainFile(place, (handle, { size }) => readPicture(handle, size)) ?? absent;
}

function readPicture(handle: number, size: number): PlainPicture | NoPicture {
  if (size > LARGEST_PICTURE) return { why: 'too-large', size };
  const bytes = Buffer.alloc(size);
  const read = readSync(handle, bytes, 0, size, 0);
  return plainPicture(bytes.subarray(0, read)) ?? { why: 'unfit', size };
}

/** The picture in some bytes; undefined for another kind of file, and for one that is broken or has too many points. */
export function plainPicture(bytes: Buffer): PlainPicture | undefined {
  const picture = attempt(() => readerFor(bytes)?.(bytes));
  if (!picture) return undefined;
  const { width, height } = picture;
  const isFit = width > 0 && height > 0 && width * height <= MOST_POINTS;
  return isFit && Math.max(width, height) <= LONGEST_SIDE ? picture : undefined;
}

function readerFor(bytes: Buffer): ((bytes: Buffer) => PlainPicture | undefined) | undefined {
  const head = bytes.toString('latin1', 0, 12);
  if (head.startsWith('\xff\xd8\xff')) return plainJpeg;
  if (head.startsWith('\x89PNG\r\n\x1a\n')) return plainPng;
  return head.startsWith('RIFF') && head.endsWith('WEBP') ? plainWebp : undefined;
}
