/**
 * The fast reader's memory of short texts: most keys, words, dates and figures of a studio come again
 * and again, and a text that is made once is neither copied nor hashed anew.
 */
import { CODES, OTHER, codeAt } from './codes.ts';
import { cursor } from './cursor.ts';

const SLOTS = 4096;
const LONGEST = 24;

const texts = new Array<string>(SLOTS).fill('');
const lengths = new Uint8Array(SLOTS);
const KEPT_CODES = new Uint8Array(SLOTS * LONGEST);

/** The part of the text from one offset to another. What falls on a taken slot takes its place. */
export function textBetween(from: number, to: number): string {
  const length = to - from;
  if (length > LONGEST || length === 0) return cursor.text.slice(from, to);
  const slot = slotOf(from, to);
  if (lengths[slot] === length && isIn(slot, from)) return texts[slot] ?? '';
  return putIn(slot, from, to);
}

function slotOf(from: number, to: number): number {
  const codes = CODES;
  let hash = to - from;
  for (let at = from; at < to; at++) hash = (Math.imul(hash, 31) + (codes[at] ?? 0)) | 0;
  return (hash ^ (hash >>> 12)) & (SLOTS - 1);
}

function isIn(slot: number, from: number): boolean {
  const codes = CODES;
  const kept = KEPT_CODES;
  const end = from + (lengths[slot] ?? 0);
  let start = slot * LONGEST;
  for (let at = from; at < end; at++) if (kept[start++] !== codes[at]) return false;
  return true;
}

function putIn(slot: number, from: number, to: number): string {
  const start = slot * LONGEST - from;
  lengths[slot] = to - from;
  for (let at = from; at < to; at++) {
    KEPT_CODES[start + at] = codeAt(at);
    // Many characters share this code, so a text with one of them is not known again by its codes.
    if (codeAt(at) === OTHER) lengths[slot] = 0;
  }
  return (texts[slot] = cursor.text.slice(from, to));
}
