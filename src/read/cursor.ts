/** Where the fast reader stands in a text, and how it steps from line to line. */
import { BLOCK_CLASS, LINE_FEED, RETURN, STRANGE } from './chars.ts';

export const BLANK = 0x20;
export const COLON = 0x3a;
const NEW_LINE = 0x0a;
const CARRIAGE_RETURN = 0x0d;
const COMMENT = 0x23;

/** Levels of nesting beyond which the fast reader leaves a file to the full one. */
const DEEPEST = 32;

/**
 * The state of the one reading under way. One object for the whole program, because reading is
 * synchronous and a constant object's fields are as quick to reach as local variables.
 */
export const cursor = {
  /** The text; its last character is a line feed, so that no loop has to look for the end. */
  text: '\n',
  at: 0,
  end: 1,
  /** Column of the line's first character that is neither blank nor comment; -1 after the last. */
  indent: 0,
  depth: 0,
  /** Whether a bare number may stand under the key that was read last. */
  isNumberKey: false,
  odd: false,
  failed: false,
  marks: false,
};

/** Puts the cursor on the first line of content. */
export function startReading(text: string, marks: boolean): void {
  cursor.text = text.charCodeAt(text.length - 1) === NEW_LINE ? text : text + '\n';
  cursor.at = 0;
  cursor.end = cursor.text.length;
  cursor.depth = 0;
  cursor.odd = false;
  cursor.failed = false;
  cursor.marks = marks;
  nextLine();
}

/** Leaves the text to the full reader: every loop ends, for there is nothing more to read. */
export function giveUp(): string {
  cursor.failed = true;
  cursor.at = cursor.end - 1;
  cursor.indent = -1;
  return '';
}

/** Goes down one level of nesting, or gives up. */
export function descend(): void {
  cursor.depth += 1;
  if (cursor.depth > DEEPEST) giveUp();
}

/** Steps over blanks and gives the character that follows. */
export function skipBlanks(): number {
  const { text } = cursor;
  let { at } = cursor;
  let unit = text.charCodeAt(at);
  while (unit === BLANK) unit = text.charCodeAt(++at);
  cursor.at = at;
  return unit;
}

/** From the end of a value, with nothing but blanks or a comment after it, to the next content. */
export function finishLine(): void {
  if (cursor.failed) return;
  const before = cursor.at;
  const unit = skipBlanks();
  if (unit === COMMENT && cursor.at === before) giveUp();
  else leaveLine(unit);
}

/** Whether a character ends a line. */
export function endsLine(unit: number): boolean {
  return unit === NEW_LINE || unit === CARRIAGE_RETURN;
}

/** Whether a character that follows a blank ends the content of a line. */
export function endsContent(unit: number): boolean {
  return endsLine(unit) || unit === COMMENT;
}

/** Over the end of a line, at which the cursor stands, and to the next content. */
export function leaveLine(unit: number): void {
  if (skipLineEnd(unit)) nextLine();
  else giveUp();
}

/** From the beginning of a line to the next content. */
function nextLine(): void {
  while (cursor.at < cursor.end) {
    const from = cursor.at;
    const unit = skipBlanks();
    if (!endsContent(unit)) {
      cursor.indent = cursor.at - from;
      return;
    }
    if (!skipLineEnd(unit)) {
      giveUp();
      return;
    }
  }
  cursor.indent = -1;
}

function skipLineEnd(unit: number): boolean {
  if (unit === NEW_LINE) {
    cursor.at += 1;
    return true;
  }
  if (unit === COMMENT) return skipComment();
  return unit === CARRIAGE_RETURN && skipReturn();
}

function skipReturn(): boolean {
  cursor.at += 2;
  return cursor.text.charCodeAt(cursor.at - 1) === NEW_LINE;
}

function skipComment(): boolean {
  const { text } = cursor;
  let { at } = cursor;
  let kind = BLOCK_CLASS[text.charCodeAt(at)];
  while (kind !== LINE_FEED && kind !== RETURN && kind !== STRANGE)
    kind = BLOCK_CLASS[text.charCodeAt(++at)];
  cursor.at = at;
  return kind !== STRANGE && skipLineEnd(text.charCodeAt(at));
}
