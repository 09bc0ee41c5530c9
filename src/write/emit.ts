/** Plain data as YAML in the house layout: block mappings, short list items as one-line mappings. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isList } from '../read/at-path.ts';
import { isNumberKey } from '../read/leaf.ts';
import type { Raw, RawMap } from '../read/raw.ts';
import { isPrintable, scalarText, type Quotes } from './scalar.ts';

/** How wide a line with a one-line list or mapping may be, in characters. */
const WIDTH = 90;
const STEP = 2;

/** One field or list item to be written. */
export interface Written {
  /** The nearest key at or above the value: it decides whether a number goes without quotes. */
  readonly key: string;
  readonly value: Raw;
  /** Whether texts of several lines are to stand in double quotes, never as literal blocks. */
  readonly onOneLine?: boolean;
  /** Whether it is for a screen, and not for a file: all that can't be seen is escaped then. */
  readonly onScreen?: boolean;
}

/** The column that a line starts at, counted from 0, and how far the next level stands in. */
export interface Indent {
  readonly column: number;
  readonly step: number;
}

/**
 * One record in the house layout: id at the margin, two spaces a level, lines ended by LF, the last
 * one too. Texts go without quotes where a YAML 1.2 core reader reads a text; numbers under number
 * keys stand bare; text of several lines is a literal block, or in double quotes where a block would
 * not hold it exactly.
 * @param record fields in the order that they are to be written in, all scalars as texts
 */
export function emitRecord(id: string, record: RawMap): string {
  return recordText({ key: id, value: record });
}

/** The same as it is shown to a person: it reads back as the same record, and no sign in it acts. */
export function emitOnScreen(id: string, record: RawMap): string {
  return recordText({ key: id, value: record, onScreen: true });
}

function recordText(written: Written): string {
  const head = keyHead(written.key, false, written.onScreen);
  const fields = innerLines(written, { column: STEP, step: STEP });
  const lines = fields.length === 0 ? [`${head} {}`] : [head, ...fields];
  return lines.map((line) => `${line}\n`).join('');
}

/** A mapping's key with its colon, in quotes where it would not be read as text. */
export function keyHead(key: string, inFlow: boolean, onScreen?: boolean): string {
  return `${scalarText(key, { number: false, inFlow, onScreen })}:`;
}

/**
 * The value on one line, as it stands inside `{ }` or `[ ]`.
 * @param quotes those that a single scalar is to keep
 */
export function flowText(written: Written, quotes?: Quotes): string {
  const { key, value, onScreen } = written;
  if (typeof value === 'string')
    return scalarText(value, {
      number: isNumberKey(key, NUMBER_KEYS),
      inFlow: true,
      quotes,
      onScreen,
    });
  if (isList(value)) {
    const items = value.map((item) => flowText({ ...written, value: item }));
    return `[${items.join(', ')}]`;
  }
  const fields = Object.entries(value).map(([name, field]) => {
    const head = keyHead(name, true, onScreen);
    return `${head} ${flowText({ ...written, key: name, value: field })}`;
  });
  return fields.length === 0 ? '{}' : `{ ${fields.join(', ')} }`;
}

/**
 * The lines, without line ends, of a field or list item in a block.
 * @param head what stands in front of the value: `price:` or `-`
 */
export function entryLines(head: string, written: Written, indent: Indent): string[] {
  const { key, value, onScreen } = written;
  const margin = ' '.repeat(indent.column);
  const below = { ...indent, column: indent.column + indent.step };
  if (typeof value === 'string') {
    const isLiteral = !written.onOneLine && (!onScreen || isOnScreen(value));
    const literal = isLiteral ? literalLines(value, below.column) : undefined;
    if (literal) return [`${margin}${head} ${literal.header}`, ...literal.lines];
    const place = { number: isNumberKey(key, NUMBER_KEYS), inFlow: false, onScreen };
    return [`${margin}${head} ${scalarText(value, place)}`];
  }
  const line = `${margin}${head} ${flowText(written)}`;
  if (isShort(value) && Array.from(line).length <= WIDTH) return [line];
  if (head === '-') return itemLines(written, indent);
  return [`${margin}${head}`, ...innerLines(written, below)];
}

/**
 * The text as a literal block, where that holds it exactly and plainly to see: several lines, none
 * ending in blanks, the first neither empty nor indented, no character that needs an escape.
 */
export function literalLines(
  text: string,
  column: number,
): { readonly header: string; readonly lines: string[] } | undefined {
  const body = text.endsWith('\n') ? text.slice(0, -1) : text;
  const lines = body.split('\n');
  if (!text.includes('\n') || /^(?:\s|$)/.test(text) || body.endsWith('\n')) return undefined;
  if (!lines.every((line) => isPrintable(line) && !/\s$/.test(line))) return undefined;
  return {
    header: body === text ? '|-' : '|',
    lines: lines.map((line) => (line === '' ? '' : ' '.repeat(column) + line)),
  };
}

function isOnScreen(text: string): boolean {
  return text.split('\n').every((line) => isPrintable(line, true));
}

// A dash, and the item's own lines indented under it; the first line stands on the dash's line.
function itemLines(written: Written, indent: Indent): string[] {
  const [first = '', ...rest] = innerLines(written, { ...indent, column: indent.column + 2 });
  return [`${' '.repeat(indent.column)}- ${first.trimStart()}`, ...rest];
}

function innerLines(written: Written, indent: Indent): string[] {
  const { value } = written;
  if (typeof value === 'string') return [];
  if (isList(value))
    return value.flatMap((item) => entryLines('-', { ...written, value: item }, indent));
  return Object.entries(value).flatMap(([key, inner]) =>
    entryLines(keyHead(key, false, written.onScreen), { ...written, key, value: inner }, indent),
  );
}

// Holds only scalars of one line each, so that it reads well on one line.
function isShort(value: readonly Raw[] | RawMap): boolean {
  return Object.values(value).every((inner) => typeof inner === 'string' && !inner.includes('\n'));
}
