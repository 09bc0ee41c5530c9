/** How a camera was held: the one thing that is kept of what it wrote beside a picture. */
import { Buffer } from 'node:buffer';
import { attempt } from '../../attempt.ts';

const ORIENTATION = 0x0112;
const MOST_ENTRIES = 64;

/** The orientation (1 to 8) in a TIFF directory; 1, upright, where it says none or is cut off. */
export function orientationIn(tiff: Buffer | undefined): number {
  return (tiff && attempt(() => orientationAmong(tiff))) ?? 1;
}

function orientationAmong(tiff: Buffer): number {
  const isLittle = tiff.toString('latin1', 0, 2) === 'II';
  const short = (at: number): number => (isLittle ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const start = isLittle ? tiff.readUInt32LE(4) : tiff.readUInt32BE(4);
  const entries = Math.min(short(start), MOST_ENTRIES);
  for (let at = 0; at < entries; at += 1) {
    const entry = start + 2 + at * 12;
    if (short(entry) === ORIENTATION) return upright(short(entry + 8));
  }
  return 1;
}

function upright(orientation: number): number {
  return orientation >= 1 && orientation <= 8 ? orientation : 1;
}

/** A TIFF directory that says the orientation, and nothing else. */
export function orientationOnly(orientation: number): Buffer {
  const head = [0x4d, 0x4d, 0, 0x2a, 0, 0, 0, 8];
  const entry = [0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0];
  return Buffer.from([...head, 0, 1, ...entry, 0, 0, 0, 0]);
}
