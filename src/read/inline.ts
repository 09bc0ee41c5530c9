/** The fast reader's values within one line: plain and quoted scalars, mappings and lists in brackets. */
import {
  BLOCK_CLASS,
  COLON_SIGN,
  FLOW_CLASS,
  FLOW_END,
  HASH_SIGN,
  LINE_FEED,
  ORDINARY,
  RETURN,
  START_CLASS,
  STRANGE,
} from './chars.ts';
import {
  BLANK,
  cursor,
  descend,
  endsLine,
  finishLine,
  giveUp,
  leaveLine,
  skipBlanks,
} from './cursor.ts';
import { readKey } from './key.ts';
import { QUOTED, UNQUOTED, isOdd } from './leaf.ts';
import { newMapping } from './mapping.ts';
import type { Raw, RawMap } from './raw.ts';

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
  const unit = cursor.text.charCodeAt(cursor.at);
  if (!opensInline(unit)) return readPlain(unit);
  const value = readEnclosed(unit);
  finishLine();
  return value;
}

/** An unquoted scalar that stands for no text at all. */
export function readEmpty(): string {
  cursor.odd = true;
  return cursor.marks ? UNQUOTED : '';
}

function opensInline(unit: number): boolean {
  return unit === OPEN_MAP || unit === DOUBLE_QUOTE || unit === OPEN_LIST || unit === SINGLE_QUOTE;
}

function readEnclosed(unit: number): Raw {
  if (unit === OPEN_MAP) return readFlowMap();
  if (unit === OPEN_LIST) return readFlowList();
  return readQuoted(unit);
}

function readPlain(first: number): string {
  if (!mayStart(first, BLOCK_CLASS)) return giveUp();
  const { text, at } = cursor;
  const end = plainEnd(at);
  if (end < 0) return giveUp();
  cursor.at = end;
  const value = makePlain(at, end);
  leaveLine(text.charCodeAt(end));
  return value;
}

/** Where an unquoted value ends: at the line's end or its comment's sign; -1 where it may not stand. */
function plainEnd(from: number): number {
  const { text } = cursor;
  for (let at = from; ; at++) {
    const kind = BLOCK_CLASS[text.charCodeAt(at)];
    if (kind === ORDINARY) continue;
    if (kind === LINE_FEED || kind === RETURN) return at;
    if (kind === STRANGE) return -1;
    if (kind === HASH_SIGN && text.charCodeAt(at - 1) === BLANK) return at;
    if (kind === COLON_SIGN && endsWord(text.charCodeAt(at + 1))) return -1;
  }
}

function endsWord(unit: number): boolean {
  return unit === BLANK || endsLine(unit);
}

function mayStart(unit: number, classes: Uint8Array): boolean {
  const start = START_CLASS[unit];
  if (start === 0) return true;
  const next = cursor.text.charCodeAt(cursor.at + 1);
  return start === 2 && classes[next] === ORDINARY && next !== BLANK;
}

function makePlain(from: number, to: number): string {
  const { text } = cursor;
  let end = to;
  while (text.charCodeAt(end - 1) === BLANK) end -= 1;
  const value = text.slice(from, end);
  if (!cursor.odd) cursor.odd = isOdd(value, cursor.isNumberKey);
  return cursor.marks ? UNQUOTED + value : value;
}

function readQuoted(quote: number): string {
  const { text } = cursor;
  const from = cursor.at + 1;
  let at = from;
  let unit = text.charCodeAt(at);
  while (unit !== quote) {
    const kind = BLOCK_CLASS[unit];
    if (kind === LINE_FEED || kind === RETURN || kind === STRANGE) return giveUp();
    if (unit === BACKSLASH && quote === DOUBLE_QUOTE) return giveUp();
    unit = text.charCodeAt(++at);
  }
  cursor.at = at + 1;
  if (quote === SINGLE_QUOTE && text.charCodeAt(at + 1) === SINGLE_QUOTE) return giveUp();
  const value = text.slice(from, at);
  return cursor.marks ? QUOTED + value : value;
}

function readFlowMap(): RawMap {
  const map = newMapping();
  descend();
  let unit = openBrackets();
  while (unit !== CLOSE_MAP && !cursor.failed) {
    const key = readKey();
    if (key === '' || map[key] !== undefined) giveUp();
    map[key] = readFlowValue(skipBlanks());
    unit = nextItem(CLOSE_MAP);
  }
  closeBrackets();
  return map;
}

function readFlowList(): readonly Raw[] {
  const list: Raw[] = [];
  const { isNumberKey } = cursor;
  descend();
  let unit = openBrackets();
  while (unit !== CLOSE_LIST && !cursor.failed) {
    cursor.isNumberKey = isNumberKey;
    list.push(readFlowValue(unit));
    unit = nextItem(CLOSE_LIST);
  }
  closeBrackets();
  return list;
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
  const unit = skipBlanks();
  if (unit === close) return unit;
  if (unit !== COMMA) giveUp();
  const next = openBrackets();
  if (next === close) giveUp();
  return next;
}

function readFlowValue(unit: number): Raw {
  return opensInline(unit) ? readEnclosed(unit) : readFlowPlain(unit);
}

function readFlowPlain(first: number): string {
  if (!mayStart(first, FLOW_CLASS)) return giveUp();
  const { at } = cursor;
  const end = flowPlainEnd(at);
  if (end < 0) return giveUp();
  cursor.at = end;
  return makePlain(at, end);
}

function flowPlainEnd(from: number): number {
  const { text } = cursor;
  for (let at = from; ; at++) {
    const kind = FLOW_CLASS[text.charCodeAt(at)];
    if (kind === ORDINARY) continue;
    if (kind === FLOW_END) return at;
    if (kind === HASH_SIGN && text.charCodeAt(at - 1) !== BLANK) continue;
    if (kind === COLON_SIGN && !endsFlowWord(text.charCodeAt(at + 1))) continue;
    return -1;
  }
}

function endsFlowWord(unit: number): boolean {
  return endsWord(unit) || FLOW_CLASS[unit] === FLOW_END;
}
