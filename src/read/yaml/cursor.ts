/** Where the fast reader stands in a text, and how it steps from line to line. */

import {
  BLANK,
  BLOCK_CLASS,
  CODES,
  COLON,
  COMMENT,
  KEY_CLASS,
  LINE_END,
  LINE_FEED,
  OTHER,
  RETURN,
  STRANGE,
  codeAt,
  loadCodes,
} from './codes.ts';
import type { ReadOptions } from './core.ts';

/** Levels of nesting beyond which the fast reader leaves a file to the full one. */
const DEEPEST = 32;

/** Values of one record beyond which the fast reader leaves a file to the full one. */
const MOST_VALUES = 32_000;

const NO_KEYS: ReadonlySet<string> = new Set();

/**
 * The state of the one reading under way. One object for the whole program: reading is synchronous,
 * and the fields of a constant object are quick to reach.
 */
export const cursor = {
  text: '',
  at: 0,
  end: 0,
  /** Column of the line's first character that is neither blank nor comment; -1 after the last. */
  indent: 0,
  depth: 0,
  /** How many values of the record have been read. */
  values: 0,
  /** The key that was read last; of an entry in a list, the list's. */
  key: '',
  odd: false,
  failed: false,
  marks: false,
  /** The keys under which a bare number may stand. */
  numberKeys: NO_KEYS,
};

/** Puts the cursor on the first line of content. */
export function startReading(text: string, { numberKeys, marks }: ReadOptions): void {
  cursor.text = text;
  cursor.numberKeys = numberKeys;
  cursor.at = 0;
  cursor.end = text.length;
  cursor.depth = 0;
  cursor.odd = false;
  cursor.failed = false;
  cursor.marks = marks === true;
  cursor.key = '';
  if (loadCodes(text)) nextLine();
  else giveUp();
}

/** Leaves the text to the full reader: every loop ends, for there is nothing more to read. */
export function giveUp(): string {
  cursor.failed = true;
  cursor.at = cursor.end;
  cursor.indent = -1;
  return '';
}

/** Goes down one level of nesting, or gives up. */
export function descend(): void {
  cursor.depth += 1;
  if (cursor.depth > DEEPEST) giveUp();
}

/** Begins the next record at the margin. */
export function beginRecord(): void {
  cursor.values = 0;
}

/** Goes on to one more value of the record, or gives up. */
export function countValue(): void {
  cursor.values += 1;
  if (cursor.values > MOST_VALUES) giveUp();
}

/** Steps over blanks and gives the code that follows. */
export function skipBlanks(): number {
  const codes = CODES;
  let { at } = cursor;
  while (codes[at] === BLANK) at += 1;
  cursor.at = at;
  return codeAt(at);
}

/** From the end of a value, with nothing but blanks or a comment after it, to the next content. */
export function finishLine(): void {
  if (cursor.failed) return;
  const before = cursor.at;
  const code = skipBlanks();
  if (code === COMMENT && cursor.at === before) giveUp();
  else leaveLine(code);
}

/** Whether a code ends a line. */
export function endsLine(code: number): boolean {
  return code === LINE_FEED || code === RETURN;
}

/** Whether a code that follows a blank ends the content of a line. */
export function endsContent(code: number): boolean {
  return code === LINE_FEED || code === COMMENT || code === RETURN;
}

/** Over the end of a line, at which the cursor stands, and to the next content. */
export function leaveLine(code: number): void {
  if (skipLineEnd(code)) nextLine();
  else giveUp();
}

/** From the beginning of a line to the next content. */
function nextLine(): void {
  while (cursor.at < cursor.end) {
    const from = cursor.at;
    const code = skipBlanks();
    if (!endsContent(code)) {
      cursor.indent = cursor.at - from;
      return;
    }
    if (!skipLineEnd(code)) {
      giveUp();
      return;
    }
  }
  cursor.indent = -1;
}

function skipLineEnd(code: number): boolean {
  if (code === LINE_FEED) {
    cursor.at += 1;
    return true;
  }
  return code === COMMENT ? skipComment() : skipReturn(code);
}

function skipReturn(code: number): boolean {
  cursor.at += 2;
  return code === RETURN && codeAt(cursor.at - 1) === LINE_FEED;
}

function skipComment(): boolean {
  const [codes, classes] = [CODES, BLOCK_CLASS];
  let { at } = cursor;
  let kind = classes[codeAt(at)];
  while (kind !== LINE_END && kind !== STRANGE) {
    at += 1;
    kind = classes[codes[at] ?? 0];
  }
  cursor.at = at;
  const code = codeAt(at);
  return kind === LINE_END && (code === LINE_FEED ? skipLineEnd(code) : skipReturn(code));
}

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

/** Longer keys are left to the full reader: YAML sets a limit to them. */
const LONGEST_KEY = 256;

/**
 * The key at the cursor, and the cursor behind its colon; '' with the cursor where it was when there
 * is no such word.
 */
export function readKey(): string {
  const from = cursor.at;
  const end = keyEnd(from);
  return end === from ? '' : passKey(textBetween(from, end), end);
}

/** As `readKey` for a key that is not expected again: a record's id. */
export function readId(): string {
  const from = cursor.at;
  const end = keyEnd(from);
  return end === from ? '' : passKey(cursor.text.slice(from, end), end);
}

function passKey(key: string, end: number): string {
  cursor.at = end + 1;
  cursor.key = key;
  return key;
}

function keyEnd(from: number): number {
  const codes = CODES;
  const classes = KEY_CLASS;
  if (classes[codes[from] ?? 0] !== 2) return from;
  let at = from + 1;
  while (classes[codes[at] ?? 0] !== 0) at += 1;
  if (codeAt(at) !== COLON || at - from > LONGEST_KEY) return from;
  const after = codeAt(at + 1);
  return after === BLANK || endsLine(after) ? at : from;
}
