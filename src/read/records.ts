/** Cuts a file's text into its records by the keys at the margin, so that each can be read alone. */
import { SETTINGS_FILE } from './kinds.ts';
import type { TextSpan } from './lines.ts';

/** The lines of one record, with the comments and blank lines that follow it. */
export interface RecordSpan extends TextSpan {
  /** The key at the margin where it is a simple word; else undefined. */
  readonly id: string | undefined;
}

/** A text cut at its margin. */
interface Cut {
  readonly records: readonly RecordSpan[];
  /**
   * Whether the text is nothing but comments and records that begin with a simple word and a colon.
   * Then each record says alone what it says in the whole: in YAML nothing that belongs to such a key
   * can stand at the margin but the dashes of a list.
   */
  readonly regular: boolean;
}

const MOST_RECORDS = 100_000;

const MOST_SETTINGS = 1000;

/** So many records may be in a file, or settings in `studio.yaml`. */
export function mostIn(file: string): number {
  return file === SETTINGS_FILE ? MOST_SETTINGS : MOST_RECORDS;
}

const SIMPLE_KEY = /[A-Za-z][\w-]*(?=:(?:[ \r\n]|$))/y;
const EMPTY_LINE = /[ \t]*(?:#[^\n]*|\r?(?=\n|$))/y;
const DOCUMENT_START = /---(?:[ \t]+#[^\n]*|[ \t]*\r?(?=\n|$))/y;

/**
 * Cuts a text (without byte order mark) into the records that begin at its margin; into no more than
 * one beyond the most that a file may have.
 */
export function cutRecords(text: string): Cut {
  const head = skipHead(text);
  const records: RecordSpan[] = [];
  let start = startFrom(text, head);
  while (start < text.length && records.length <= MOST_RECORDS) {
    const end = startFrom(text, lineAfter(text, start));
    records.push({ start, end, id: simpleKey(text, start) });
    start = end;
  }
  const first = records[0]?.start ?? text.length;
  const regular = first === head && records.every(({ id }) => id !== undefined);
  return { records, regular };
}

/** Behind comments, blank lines and one line `---`. */
function skipHead(text: string): number {
  const at = skipEmptyLines(text, 0);
  return matches(DOCUMENT_START, text, at) ? skipEmptyLines(text, lineAfter(text, at)) : at;
}

function skipEmptyLines(text: string, from: number): number {
  let at = from;
  while (at < text.length && matches(EMPTY_LINE, text, at)) at = lineAfter(text, at);
  return at;
}

/** The first line at or after a line that begins a record; the text's end when there is none. */
function startFrom(text: string, line: number): number {
  let at = line;
  while (at < text.length && goesOn(text, at)) at = lineAfter(text, at);
  return at;
}

/** What can stand at the margin without beginning a record: blanks, a comment, a dash, the line's end. */
function goesOn(text: string, at: number): boolean {
  const sign = text.charAt(at);
  return ' \t#\r\n'.includes(sign) || (sign === '-' && ' \t\r\n'.includes(text.charAt(at + 1)));
}

function lineAfter(text: string, at: number): number {
  const lineFeed = text.indexOf('\n', at);
  return lineFeed < 0 ? text.length : lineFeed + 1;
}

function simpleKey(text: string, at: number): string | undefined {
  SIMPLE_KEY.lastIndex = at;
  return SIMPLE_KEY.exec(text)?.[0];
}

function matches(pattern: RegExp, text: string, at: number): boolean {
  pattern.lastIndex = at;
  return pattern.test(text);
}
