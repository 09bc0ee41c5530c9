/** Where the fast reader stands in a text, and how it steps from line to line. */
import { BLOCK_CLASS, LINE_END, STRANGE } from './chars.ts';
import { BLANK, CODES, COMMENT, LINE_FEED, RETURN, codeAt, loadCodes } from './codes.ts';
import type { ReadOptions } from './leaf.ts';

/** Levels of nesting beyond which the fast reader leaves a file to the full one. */
const DEEPEST = 32;

/** Values of one record beyond which the fast reader leaves a file to the full one. */
const MOST_VALUES = 32_000;

const NONE: ReadonlySet<string> = new Set();

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
  numberKeys: NONE,
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
