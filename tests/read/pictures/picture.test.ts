/** Pictures as pages have them: what a camera wrote is cut out, and what is not a small whole picture is refused. */
import { Buffer } from 'node:buffer';
import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LARGEST_PICTURE, pictureIn, plainPicture } from '../../../src/read/pictures/picture.ts';
import { SECRET, chunk, exif, part, segment, webp } from '../../helpers/camera.ts';
import { holds } from '../../helpers/law.ts';

function jpeg({ width = 4, height = 3, orientation = 6, isLittle = false } = {}): Buffer {
  const frame = Buffer.from([8, 0, 0, 0, 0, 1, 1, 0x11, 0]);
  frame.writeUInt16BE(height, 1);
  frame.writeUInt16BE(width, 3);
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, Buffer.from('JFIF\0')),
    segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), exif(orientation, isLittle)])),
    segment(0xee, Buffer.from('Adobe\0')),
    segment(0xfe, Buffer.from(SECRET)),
    segment(0xc0, frame),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([1, 2, 0xff, 0, 3, 0xff, 0xd0, 4]),
    segment(0xc4, Buffer.from([0, 1])),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([5, 6, 0xff, 0xd9]),
    Buffer.from(SECRET),
  ]);
}

function png({ width = 4, height = 3, orientation = 8 } = {}): Buffer {
  const size = Buffer.alloc(13);
  size.writeUInt32BE(width, 0);
  size.writeUInt32BE(height, 4);
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', size),
    chunk('tEXt', Buffer.from(SECRET)),
    chunk('eXIf', exif(orientation)),
    chunk('iCCP', Buffer.from(SECRET)),
    chunk('IDAT', Buffer.from([1, 2, 3])),
    chunk('IEND', Buffer.alloc(0)),
    Buffer.from(SECRET),
  ]);
}

function wholeWebp({ width = 4, height = 3 } = {}): Buffer {
  const head = Buffer.alloc(10);
  head.writeUInt8(0x2c, 0);
  head.writeUIntLE(width - 1, 4, 3);
  head.writeUIntLE(height - 1, 7, 3);
  const frame = Buffer.from([0, 0, 0, 0x9d, 1, 0x2a, 4, 0, 3, 0, 9]);
  return webp([
    part('VP8X', head),
    part('ICCP', Buffer.from(SECRET)),
    part('VP8 ', frame),
    part('EXIF', exif(6)),
    part('XMP ', Buffer.from(SECRET)),
  ]);
}

const WHOLE = [
  ['JPEG', jpeg()],
  ['PNG', png()],
  ['WebP', wholeWebp()],
] as const;

describe.each(WHOLE)('%s', (_, bytes) => {
  it('is kept with its size and without what a camera wrote', () => {
    const picture = plainPicture(bytes);
    expect(picture).toMatchObject({ width: 4, height: 3 });
    expect(picture?.bytes.includes(SECRET)).toBe(false);
    expect(picture?.bytes.length).toBeLessThan(bytes.length);
  });

  it('stays the same when that is done again', () => {
    const once = plainPicture(bytes)?.bytes ?? Buffer.alloc(0);
    expect(plainPicture(once)?.bytes.equals(once)).toBe(true);
  });

  it('is refused when it is cut off anywhere before its end', () => {
    const end = bytes.length - SECRET.length - 12;
    for (let length = 0; length < end; length += 1)
      expect(plainPicture(bytes.subarray(0, length))).toBeUndefined();
  });

  it('never breaks on bytes that are off', () => {
    const places = fc.integer({ min: 0, max: bytes.length - 1 });
    holds(
      fc.property(fc.array(fc.tuple(places, fc.integer({ min: 0, max: 255 }))), (changes) => {
        const other = Buffer.from(bytes);
        for (const [at, value] of changes) other[at] = value;
        plainPicture(other);
      }),
      200,
    );
  });
});

describe('the orientation', () => {
  it.each([
    [6, false],
    [8, true],
  ])('%i of a JPEG is kept, alone', (orientation, isLittle) => {
    const { bytes } = plainPicture(jpeg({ orientation, isLittle })) ?? { bytes: Buffer.alloc(0) };
    const at = bytes.indexOf('Exif\0\0', 0, 'latin1') + 6;
    expect(bytes.readUInt16BE(at + 10)).toBe(0x0112);
    expect(bytes.readUInt16BE(at + 18)).toBe(orientation);
  });

  it('that is upright is left out, and one that is none is upright', () => {
    for (const orientation of [1, 0, 99])
      expect(plainPicture(jpeg({ orientation }))?.bytes.includes('Exif')).toBe(false);
  });

  it('of a PNG is kept, alone, before the picture', () => {
    const { bytes } = plainPicture(png()) ?? { bytes: Buffer.alloc(0) };
    const at = bytes.indexOf('eXIf');
    expect(at).toBe(8 + 25 + 4);
    expect(bytes.readUInt32BE(at - 4)).toBe(26);
    expect(bytes.readUInt16BE(at + 4 + 18)).toBe(8);
    // As another program's CRC-32 of these 30 bytes.
    expect(bytes.readUInt32BE(at + 4 + 26)).toBe(0x86583034);
    expect(plainPicture(png({ orientation: 1 }))?.bytes.includes('eXIf')).toBe(false);
  });

  it('of a WebP is kept, alone', () => {
    const { bytes } = plainPicture(wholeWebp()) ?? { bytes: Buffer.alloc(0) };
    expect(bytes.includes('EXIF')).toBe(true);
    expect(bytes.readUInt8(20) & 0x2c).toBe(0x08);
  });
});

describe('refused', () => {
  it.each([
    ['SVG', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')],
    ['HTML', Buffer.from('<script>alert(1)</script>')],
    ['GIF', Buffer.from('GIF89a\x01\0\x01\0', 'latin1')],
    ['nothing', Buffer.alloc(0)],
    ['very many points of a PNG', png({ width: 60000, height: 60000 })],
    ['a line of points', png({ width: 40000, height: 1 })],
    ['very many points of a JPEG', jpeg({ width: 65000, height: 65000 })],
    ['very many points of a WebP', wholeWebp({ width: 16000, height: 16000 })],
    ['no points', png({ width: 0, height: 3 })],
    ['a moving WebP without a picture', webp([part('ANIM', Buffer.alloc(6))])],
  ])('%s', (_, bytes) => {
    expect(plainPicture(bytes)).toBeUndefined();
  });
});

describe('a path of the studio', () => {
  const folder = mkdtempSync(join(tmpdir(), 'pictures-'));
  const outside = mkdtempSync(join(tmpdir(), 'outside-'));
  mkdirSync(join(folder, 'photos'));
  writeFileSync(join(folder, 'photos', 'a.jpg'), jpeg());
  writeFileSync(join(outside, 'a.jpg'), jpeg());
  writeFileSync(join(folder, 'photos', 'large.jpg'), Buffer.alloc(LARGEST_PICTURE + 1));
  writeFileSync(join(folder, 'photos', 'script.jpg'), '<svg/>');
  symlinkSync(join(outside, 'a.jpg'), join(folder, 'photos', 'link.jpg'));
  symlinkSync(outside, join(folder, 'elsewhere'));
  symlinkSync(join(folder, 'photos', 'a.jpg'), join(folder, 'photos', 'near.jpg'));

  it('gives the picture', () => {
    expect(pictureIn(folder, 'photos/a.jpg')).toMatchObject({ type: 'image/jpeg', width: 4 });
  });

  it.each([
    ['photos/none.jpg', 'absent'],
    ['photos', 'absent'],
    ['photos/link.jpg', 'absent'],
    ['photos/near.jpg', 'absent'],
    ['elsewhere/a.jpg', 'absent'],
    ['../outside/a.jpg', 'absent'],
    ['photos/large.jpg', 'too-large'],
    ['photos/script.jpg', 'unfit'],
  ])('%s is %s', (path, why) => {
    expect(pictureIn(folder, path)).toMatchObject({ why });
  });
});
