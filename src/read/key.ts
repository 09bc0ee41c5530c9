/** The fast reader's keys: simple words with a colon and a blank, or the line's end, behind them. */
import { KEY_CLASS } from './chars.ts';
import { BLANK, CODES, COLON, codeAt } from './codes.ts';
import { cursor, endsLine } from './cursor.ts';
import { textBetween } from './words.ts';

/** Longer keys are left to the full reader: YAML sets a limit to them. */
const LONGEST = 256;

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
  if (codeAt(at) !== COLON || at - from > LONGEST) return from;
  const after = codeAt(at + 1);
  return after === BLANK || endsLine(after) ? at : from;
}
