/**
 * The fast reader of the block YAML that studio files are written in: one record after the other,
 * one value a line. It gives up on whatever it does not know for certain, and never guesses.
 */
import { BLANK, DASH, codeAt } from './codes.ts';
import type { ReadOptions } from './core.ts';
import {
  beginRecord,
  countValue,
  cursor,
  descend,
  endsContent,
  finishLine,
  giveUp,
  leaveLine,
  readId,
  readKey,
  skipBlanks,
  startReading,
} from './cursor.ts';
import { readEmpty, readInline } from './inline.ts';
import { newMapping, newTable, type Raw, type RawMap } from '../raw.ts';

const DOCUMENT_START = '---';

/** What was read of one text. */
export interface Scanned {
  readonly root: RawMap;
  /** As in `RawFile`. */
  readonly odd: boolean;
}

/**
 * Reads a whole text, or gives up (undefined) and says nothing of the text: it may be sound.
 * Takes block mappings and lists, scalars of one line, brackets within one line and comments;
 * keys must be simple words. What it gives is what the full reader would give.
 */
export function scan(text: string, options: ReadOptions): Scanned | undefined {
  // The cursor ends every text with a line feed, which must not make a CRLF of a return.
  if (text.endsWith('\r')) return undefined;
  startReading(text, options);
  skipDocumentStart();
  const root = cursor.indent < 0 ? newTable() : readTable(options.most ?? Infinity);
  return cursor.failed ? undefined : { root, odd: cursor.odd };
}

function skipDocumentStart(): void {
  if (cursor.indent !== 0 || !cursor.text.startsWith(DOCUMENT_START, cursor.at)) return;
  cursor.at += DOCUMENT_START.length;
  finishLine();
}

function readTable(most: number): RawMap {
  const table = newTable();
  let left = most;
  while (cursor.indent === 0) {
    const id = readId();
    beginRecord();
    left -= 1;
    if (id === '' || table[id] !== undefined || left < 0) giveUp();
    else table[id] = readValue(0);
  }
  if (cursor.indent > 0) giveUp();
  return table;
}

/** The mapping that begins at the cursor with a key in the given column. */
function readMap(column: number, firstKey: string): RawMap {
  const map = newMapping();
  descend();
  let key = firstKey;
  while (key !== '' && map[key] === undefined) {
    map[key] = readValue(column);
    if (cursor.indent !== column) break;
    key = readKey();
  }
  if (cursor.indent >= column) giveUp();
  cursor.depth -= 1;
  return map;
}

/** The value behind a key that stands in the given column. */
function readValue(column: number): Raw {
  countValue();
  const code = skipBlanks();
  if (!endsContent(code)) return readInline();
  leaveLine(code);
  if (cursor.indent > column) return readBlock(cursor.indent);
  // A list may stand as far left as the key that it belongs to.
  if (cursor.indent === column && atDash()) return readList(column);
  return readEmpty();
}

function readBlock(column: number): Raw {
  return atDash() ? readList(column) : readMap(column, readKey());
}

function readList(column: number): readonly Raw[] {
  const list: Raw[] = [];
  const { key } = cursor;
  descend();
  do {
    cursor.key = key;
    list.push(readItem(column));
  } while (cursor.indent === column && atDash());
  if (cursor.indent > column) giveUp();
  cursor.depth -= 1;
  // A copy has room for just what is in it; a list that grew has room for sixteen more.
  return list.slice();
}

/** An item of a list whose dash stands at the cursor, in the given column. */
function readItem(column: number): Raw {
  const dash = cursor.at;
  countValue();
  cursor.at += 1;
  if (endsContent(skipBlanks())) return giveUp();
  const itemColumn = column + cursor.at - dash;
  const key = readKey();
  return key === '' ? readInline() : readMap(itemColumn, key);
}

function atDash(): boolean {
  return codeAt(cursor.at) === DASH && codeAt(cursor.at + 1) === BLANK;
}
