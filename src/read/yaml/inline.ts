/** The fast reader's values within one line: plain and quoted scalars, mappings and lists in brackets. */

import {
  BLANK,
  BLOCK_CLASS,
  CODES,
  COLON_SIGN,
  CORE_START,
  FLOW_CLASS,
  FLOW_END,
  HASH_SIGN,
  LINE_END,
  ORDINARY,
  START_CLASS,
  STRANGE,
  TEXT,
  codeAt,
} from './codes.ts';
import { QUOTED, UNQUOTED, isNumberKey, isOdd } from './core.ts';
import {
  countValue,
  cursor,
  descend,
  endsLine,
  finishLine,
  giveUp,
  leaveLine,
  readKey,
  skipBlanks,
  textBetween,
} from './cursor.ts';
import { newMapping, type Raw, type RawMap } from '../raw.ts';

const DOUBLE_QUOTE = 0x22;
const SINGLE_QUOTE = 0x27;
const COMMA = 0x2c;
const OPEN_LIST = 0x5b;
const BACKSLASH = 0x5c;
const CLOSE_LIST = 0x5d;
const OPEN_MAP = 0x7b;
const CLOSE_MAP = 0x7d;

/** The value at the cursor, to the end of its line and on to the next content. */
export function readInline(): Raw {
  const code = codeAt(cursor.at);
  if (!isEnclosed(code)) return readPlain(code);
  const value = readEnclosed(code);
  finishLine();
  return value;
}

/** An unquoted scalar that stands for no text at all. */
export function readEmpty(): string {
  cursor.odd = true;
  return cursor.marks ? UNQUOTED : '';
}

function isEnclosed(code: number): boolean {
  return code === OPEN_MAP || code === DOUBLE_QUOTE || code === OPEN_LIST || code === SINGLE_QUOTE;
}

function readEnclosed(code: number): Raw {
  if (code === OPEN_MAP) return readFlowMap();
  return code === OPEN_LIST ? readFlowList() : readQuoted(code);
}

function readPlain(first: number): string {
  if (!mayStart(first, BLOCK_CLASS)) return giveUp();
  const from = cursor.at;
  const end = plainEnd(from);
  if (end < 0) return giveUp();
  cursor.at = end;
  const value = makePlain(from, end);
  leaveLine(codeAt(end));
  return value;
}

/** Where an unquoted value ends: at the line's end or its comment's sign; -1 where it may not stand. */
function plainEnd(from: number): number {
  const codes = CODES;
  const classes = BLOCK_CLASS;
  for (let at = from; ; at++) {
    const kind = classes[codes[at] ?? 0];
    if (kind === ORDINARY) continue;
    if (kind === LINE_END) return at;
    if (kind === HASH_SIGN && codeAt(at - 1) === BLANK) return at;
    if (kind === STRANGE || (kind === COLON_SIGN && endsWord(codeAt(at + 1)))) return -1;
  }
}

function endsWord(code: number): boolean {
  return code === BLANK || endsLine(code);
}

function mayStart(code: number, classes: Uint8Array): boolean {
  const start = START_CLASS[code];
  if (start === 0) return true;
  const next = codeAt(cursor.at + 1);
  return start === 2 && classes[next] === ORDINARY && next !== BLANK;
}

function makePlain(from: number, to: number): string {
  let end = to;
  while (codeAt(end - 1) === BLANK) end -= 1;
  const value = textBetween(from, end);
  if (CORE_START[codeAt(from)] !== TEXT) cursor.odd ||= isOddHere(value);
  return cursor.marks ? UNQUOTED + value : value;
}

function isOddHere(value: string): boolean {
  return isOdd(value, isNumberKey(cursor.key, cursor.numberKeys));
}

function readQuoted(quote: number): string {
  const from = cursor.at + 1;
  let at = from;
  while (codeAt(at) !== quote) {
    const kind = BLOCK_CLASS[codeAt(at)];
    if (kind === LINE_END || kind === STRANGE) return giveUp();
    if (codeAt(at) === BACKSLASH && quote === DOUBLE_QUOTE) return giveUp();
    at += 1;
  }
  cursor.at = at + 1;
  if (quote === SINGLE_QUOTE && codeAt(at + 1) === SINGLE_QUOTE) return giveUp();
  const value = textBetween(from, at);
  return cursor.marks ? QUOTED + value : value;
}

function readFlowMap(): RawMap {
  const map = newMapping();
  descend();
  let code = openBrackets();
  while (code !== CLOSE_MAP && !cursor.failed) {
    const key = readKey();
    if (key === '' || map[key] !== undefined) giveUp();
    map[key] = readFlowValue(skipBlanks());
    code = nextItem(CLOSE_MAP);
  }
  closeBrackets();
  return map;
}

function readFlowList(): readonly Raw[] {
  const list: Raw[] = [];
  const { key } = cursor;
  descend();
  let code = openBrackets();
  while (code !== CLOSE_LIST && !cursor.failed) {
    cursor.key = key;
    list.push(readFlowValue(code));
    code = nextItem(CLOSE_LIST);
  }
  closeBrackets();
  return list.slice();
}

function openBrackets(): number {
  cursor.at += 1;
  return skipBlanks();
}

function closeBrackets(): void {
  cursor.at += 1;
  cursor.depth -= 1;
}

/** From the end of an item over its comma to the next item, or to the closing bracket. */
function nextItem(close: number): number {
  const code = skipBlanks();
  if (code === close) return code;
  if (code !== COMMA) giveUp();
  const next = openBrackets();
  if (next === close) giveUp();
  return next;
}

function readFlowValue(code: number): Raw {
  countValue();
  return isEnclosed(code) ? readEnclosed(code) : readFlowPlain(code);
}

function readFlowPlain(first: number): string {
  if (!mayStart(first, FLOW_CLASS)) return giveUp();
  const from = cursor.at;
  const end = flowPlainEnd(from);
  if (end < 0) return giveUp();
  cursor.at = end;
  return makePlain(from, end);
}

function flowPlainEnd(from: number): number {
  const codes = CODES;
  const classes = FLOW_CLASS;
  for (let at = from; ; at++) {
    const kind = classes[codes[at] ?? 0];
    if (kind === ORDINARY) continue;
    if (kind === FLOW_END) return at;
    if (kind === HASH_SIGN && codeAt(at - 1) !== BLANK) continue;
    if (kind === COLON_SIGN && !endsFlowWord(codeAt(at + 1))) continue;
    return -1;
  }
}

function endsFlowWord(code: number): boolean {
  return endsWord(code) || FLOW_CLASS[code] === FLOW_END;
}
