/** Plain data as YAML in the house layout: block mappings, short list items as one-line mappings. */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { isCoreValue, isNumberKey, isPlainNumber } from '../read/yaml/core.ts';
import { isList, type Raw, type RawMap } from '../read/raw.ts';

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
interface Indent {
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
    const isLiteral =
      !written.onOneLine &&
      (!onScreen || value.split('\n').every((line) => isPrintable(line, true)));
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

/** The two kinds of quotes that a scalar can stand in. */
export type Quotes = 'single' | 'double';

/** Where a scalar stands and what its field holds: decides whether it may go without quotes. */
interface ScalarPlace {
  /** Whether the field holds a number, so that a number goes without quotes. */
  readonly number: boolean;
  /** Whether it stands inside `{ }` or `[ ]`, where commas and brackets need quotes. */
  readonly inFlow: boolean;
  /** Quotes that it keeps even where none are needed; double ones step in where single can't hold it. */
  readonly quotes?: Quotes | undefined;
  /** Whether it is for a screen, where all that can't be seen is to be escaped. */
  readonly onScreen?: boolean | undefined;
}

// Not in the core schema, but readers are about that take these for numbers as well: to one of YAML 1.1
// the time 16:30 is 990.
const NUMBER_ELSEWHERE =
  /^[-+]?(?:\d[\d_]*(?:\.[\d_]*)?|\d[\d_]*(?::[0-5]?\d)+(?:\.[\d_]*)?|0[box][\da-fA-F_]+)$/;

/** Whether some reader takes an unquoted text for a number, though a core reader does not. */
export function isNumberElsewhere(text: string): boolean {
  return NUMBER_ELSEWHERE.test(text);
}

// A plain scalar starts with no indicator, holds no `: ` or ` #` and doesn't end with a colon or a
// blank (YAML 1.2.2, section 7.3.3). A hyphen in front is left to the quotes: one blank makes it a list.
const STANDS_PLAIN =
  /^(?![\s\-?:,[\]{}#&*!|>'"%@`=<.])(?!.*(?::(?:\s|$)|\s#))[^\n]*\S$|^[^\s\-?:,[\]{}#&*!|>'"%@`=<.]$/u;
const FLOW_INDICATOR = /[,[\]{}]/;
// Controls, line and paragraph separators, bidirectional overrides, the byte order mark, lone
// surrogates and non-characters: none may stand raw in a file that people read.
const UNPRINTABLE =
  // eslint-disable-next-line no-control-regex -- the controls are what is looked for
  /[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]|\p{Surrogate}/gu;

// Joiners, variation selectors and the like besides, which are left in a file: emoji are made of them.
const UNSEEN = new RegExp(
  `${UNPRINTABLE.source}|[\\p{Cf}\\p{Default_Ignorable_Code_Point}]`,
  UNPRINTABLE.flags,
);

const SHORT_ESCAPES: Readonly<Record<string, string>> = {
  '\n': '\\n',
  '\t': '\\t',
  '\r': '\\r',
};

/**
 * Whether the text holds nothing that has to be written as an escape, in a file or on a screen; line
 * breaks count as such.
 */
function isPrintable(text: string, onScreen = false): boolean {
  return text.search(onScreen ? UNSEEN : UNPRINTABLE) < 0;
}

/**
 * The text as a scalar on one line, never folded: plain, in single quotes, or in double quotes
 * where something has to be escaped.
 */
export function scalarText(text: string, place: ScalarPlace): string {
  const isDouble = place.quotes === 'double' || !isPrintable(text, place.onScreen);
  if (isDouble) return doubleQuoted(text, place.onScreen ? UNSEEN : UNPRINTABLE);
  if (place.quotes === 'single' || !standsPlain(text, place)) return singleQuoted(text);
  return text;
}

function standsPlain(text: string, place: ScalarPlace): boolean {
  if (isPlainNumber(text)) return place.number;
  if (isCoreValue(text) || NUMBER_ELSEWHERE.test(text)) return false;
  return STANDS_PLAIN.test(text) && !(place.inFlow && FLOW_INDICATOR.test(text));
}

function singleQuoted(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

function doubleQuoted(text: string, signs: RegExp): string {
  const inner = text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replace(signs, escaped);
  return `"${inner}"`;
}

function escaped(sign: string): string {
  const code = (sign.codePointAt(0) ?? 0).toString(16);
  const whole = code.length > 4 ? `\\U${code.padStart(8, '0')}` : `\\u${code.padStart(4, '0')}`;
  return SHORT_ESCAPES[sign] ?? whole;
}
