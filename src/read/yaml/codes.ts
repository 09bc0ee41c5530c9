/** The text under the fast reader as one byte a character, with the classes of these codes. */
import { Buffer } from 'node:buffer';

export const LINE_FEED = 0x0a;
export const RETURN = 0x0d;
export const BLANK = 0x20;
export const COMMENT = 0x23;
export const DASH = 0x2d;
export const COLON = 0x3a;

/** The code of all characters beyond Latin-1 that may stand in a text, and of the last in it. */
export const OTHER = 0xff;
/** The code of a character that the fast reader leaves to the full one. */
const UNFIT = 0x01;

const CAPACITY = 5 * 1024 * 1024;

/** The codes of the text that was taken in last, with a line feed behind it. */
export const CODES = new Uint8Array(CAPACITY + 1);
const BYTES = Buffer.from(CODES.buffer);

/**
 * Takes in a text and puts a line feed behind it, so that no loop has to look for the end. Says
 * whether there was room for it.
 */
export function loadCodes(text: string): boolean {
  if (text.length > CAPACITY) return false;
  if (/[\u0100-\uffff]/.test(text)) loadWide(text);
  else BYTES.write(text, 'latin1');
  CODES[text.length] = LINE_FEED;
  return true;
}

/** The code at an offset, up to the line feed behind the text. */
export function codeAt(at: number): number {
  return CODES[at] ?? UNFIT;
}

function loadWide(text: string): void {
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    CODES[at] = unit < 0x100 ? unit : wideCode(unit);
  }
}

function wideCode(unit: number): number {
  return '\u2028\u2029\ufeff\ufffe\uffff'.includes(String.fromCharCode(unit)) ? UNFIT : OTHER;
}

/** Part of a word, a text or a number; nothing to look at. */
export const ORDINARY = 0;
/** Ends a line: a line feed or a return. */
export const LINE_END = 1;
export const COLON_SIGN = 2;
export const HASH_SIGN = 3;
/** Ends a value inside brackets. */
export const FLOW_END = 4;
/** Not for the fast reader: tabs, control characters, line separators, marks of byte order. */
export const STRANGE = 5;

const CODE_COUNT = 256;

/** Classes within a line of block text. */
export const BLOCK_CLASS = blockClasses();

/** Classes within one-line brackets. */
export const FLOW_CLASS = flowClasses();

/** 2 for a letter, 1 for what may follow in a key, 0 for the rest. */
export const KEY_CLASS = classes([['-_0123456789', 1]])
  .fill(2, 0x41, 0x5b)
  .fill(2, 0x61, 0x7b);

/** How an unquoted value may begin: 0 with this, 1 never, 2 only if no blank follows. */
export const START_CLASS = classes([
  ['\t\r\n#&*!|>%@`,[]{}"\'', 1],
  ['-?:', 2],
]);

/** Begins nothing but texts. */
export const TEXT = 0;
/** Begins texts and numbers. */
const NUMBER = 1;
/** Begins texts, numbers and other values. */
export const NO_TEXT = 2;

/** What an unquoted value that begins so may be to a YAML 1.2 core reader. */
export const CORE_START = classes([
  ['0123456789', NUMBER],
  ['~nNtTfF.+-', NO_TEXT],
]);

function classes(groups: readonly (readonly [string, number])[]): Uint8Array {
  const table = new Uint8Array(CODE_COUNT);
  for (const [letters, value] of groups)
    for (const letter of letters) table[letter.charCodeAt(0)] = value;
  return table;
}

function blockClasses(): Uint8Array {
  const table = new Uint8Array(CODE_COUNT).fill(STRANGE, 0, 0x20).fill(STRANGE, 0x7f, 0xa0);
  table.set([LINE_END], 0x0a);
  table.set([LINE_END], 0x0d);
  table.set([HASH_SIGN], 0x23);
  table.set([COLON_SIGN], 0x3a);
  return table;
}

function flowClasses(): Uint8Array {
  const table = blockClasses();
  for (const letter of ',]}') table[letter.charCodeAt(0)] = FLOW_END;
  for (const letter of '[{') table[letter.charCodeAt(0)] = STRANGE;
  return table;
}
