/** The fast reader's keys: simple words, each made once and found again by its hash. */
import { KEY_CLASS } from './chars.ts';
import { BLANK, COLON, cursor, endsLine } from './cursor.ts';

const SLOTS = 1024;
const LONGEST = 256;

const keys = new Array<string>(SLOTS).fill('');
const areNumberKeys = new Uint8Array(SLOTS);
let numberKeys: ReadonlySet<string> = new Set();
let hash = 0;

/** Sets the keys under which a bare number may stand. */
export function setNumberKeys(set: ReadonlySet<string>): void {
  if (set === numberKeys) return;
  numberKeys = set;
  keys.fill('');
}

/**
 * The key at the cursor, and the cursor behind its colon; '' with the cursor where it was when there
 * is no simple word with a colon and a blank or the line's end behind it.
 */
export function readKey(): string {
  const from = cursor.at;
  const end = keyEnd(from);
  if (end === from) return '';
  cursor.at = end + 1;
  const slot = (hash ^ (hash >>> 10)) & (SLOTS - 1);
  const known = keys[slot] ?? '';
  if (known.length === end - from && cursor.text.startsWith(known, from)) {
    cursor.isNumberKey = areNumberKeys[slot] === 1;
    return known;
  }
  const key = makeKey(from, end);
  keys[slot] = key;
  areNumberKeys[slot] = cursor.isNumberKey ? 1 : 0;
  return key;
}

/** As `readKey` for a key that is not expected twice: a record's id. */
export function readId(): string {
  const from = cursor.at;
  const end = keyEnd(from);
  if (end === from) return '';
  cursor.at = end + 1;
  return makeKey(from, end);
}

function makeKey(from: number, end: number): string {
  const key = cursor.text.slice(from, end);
  cursor.isNumberKey = numberKeys.has(key);
  return key;
}

function keyEnd(from: number): number {
  const { text } = cursor;
  let at = from;
  let unit = text.charCodeAt(at);
  if (KEY_CLASS[unit] !== 2) return from;
  hash = 0;
  while (KEY_CLASS[unit] !== 0) {
    hash = (Math.imul(hash, 31) + unit) | 0;
    unit = text.charCodeAt(++at);
  }
  if (unit !== COLON || at - from > LONGEST) return from;
  const after = text.charCodeAt(at + 1);
  return after === BLANK || endsLine(after) ? at : from;
}
