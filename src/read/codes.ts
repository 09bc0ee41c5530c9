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
