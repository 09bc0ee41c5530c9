/**
 * Goes once over the words of a text before the yaml package makes anything of them, and counts what it
 * would have to make: so much takes so long, whatever is in it. The words are the package's own, so
 * that both see the same quotes, comments and block scalars. Calls of its own are not nested.
 */
import { CST, Lexer } from 'yaml';
import type { TextSpan } from '../lines.ts';

/** Levels of nesting that a file may have; the file's own mapping is the first. */
export const DEEPEST = 64;

/**
 * So many parts may belong to one entry at the margin, or to one key of the braces around a text.
 * Parts are scalars, lines, brackets, commas, dashes and escapes; the package takes 5 to 10 µs and
 * about 1 KB for each. A long scalar counts as several.
 */
export const MOST_IN_RECORD = 64_000;

// A file may have these, and one part to every so many characters: even one that is all brackets and
// short words has fewer.
const FREE_PARTS = 100_000;
const PART_LENGTH = 4;

/** A scalar counts once more for so many characters. */
const PIECE_OF_SCALAR = 16;

/** Why a sweep stopped, and where. */
export interface Stop {
  readonly why: 'anchor' | 'alias' | 'tag' | 'depth' | 'record' | 'file';
  readonly at: TextSpan;
}

/** What was swept of a file. */
interface SweptBefore {
  readonly parts: number;
  /** In characters. */
  readonly length: number;
}

/** What a text asks of its reader. */
interface Swept {
  /** How many parts it has, up to where the sweep stopped. */
  readonly parts: number;
  readonly stop?: Stop;
}

// Up to here the package's own verdict is taken. It nests its calls as deep as the text, and where
// those end hangs on the machine.
const FURTHEST = 2 * DEEPEST;

/** A block mapping or list that is open, by the column that it begins in. */
interface Block {
  readonly column: number;
  readonly isList: boolean;
}

interface Sweep {
  readonly text: string;
  /** Where the word at hand begins, and its line. */
  at: number;
  line: number;
  parts: number;
  /** How many parts there were before the entry at hand. */
  before: number;
  readonly blocks: Block[];
  /** The opening brackets. */
  readonly brackets: string[];
  /** Where the last scalar or bracket began, which may be a key; -1 before the first of a line. */
  key: number;
  /** Whether nothing but blanks is before the word in its line. */
  isFirst: boolean;
  /** Where the first collection begins that is nested too deep. */
  deep: number | undefined;
  stop?: Stop;
}

/**
 * Sweeps over a text until its end, or until it is too much or has what is refused anyway.
 * @param spent what of the same file was swept before
 */
export function sweep(text: string, spent: SweptBefore = { parts: 0, length: 0 }): Swept {
  const swept: Sweep = {
    text,
    at: 0,
    line: 0,
    parts: 0,
    before: 0,
    blocks: [],
    brackets: [],
    key: -1,
    isFirst: true,
    deep: undefined,
  };
  let isScalar = false;
  for (const word of new Lexer().lex(text)) {
    if (swept.stop) break;
    if (isTooDense(swept, spent)) stop(swept, 'file', swept.at);
    const type = isScalar ? 'scalar' : (CST.tokenType(word) ?? 'error');
    isScalar = !isScalar && word === CST.SCALAR;
    if (!isScalar && word !== CST.DOCUMENT && word !== CST.FLOW_END) takeWord(swept, type, word);
    else if (word === CST.FLOW_END) swept.brackets.length = 0;
  }
  return swept;
}

function isTooDense({ parts, at }: Sweep, spent: SweptBefore): boolean {
  return spent.parts + parts > FREE_PARTS + (spent.length + at) / PART_LENGTH;
}

function takeWord(swept: Sweep, type: string, word: string): void {
  const { at } = swept;
  if (swept.isFirst && !IDLE.has(type)) beginLine(swept, type);
  TAKES[type]?.(swept, word);
  swept.at = at + word.length;
  if (isFull(swept)) stop(swept, 'record', at);
}

function isFull({ parts, before }: Sweep): boolean {
  return parts - before > MOST_IN_RECORD;
}

const IDLE: ReadonlySet<string> = new Set(['space', 'comment', 'newline']);

type Takes = (swept: Sweep, word: string) => void;

const TAKES: Readonly<Record<string, Takes | undefined>> = {
  newline: (swept, word) => {
    swept.parts += 1;
    beginAfter(swept, word.length);
  },
  scalar: takeScalar,
  'single-quoted-scalar': takeQuoted,
  'double-quoted-scalar': takeQuoted,
  anchor: (swept, word) => {
    stopAt(swept, 'anchor', pastBlanks(swept, word));
  },
  tag: (swept, word) => {
    stopAt(swept, 'tag', pastBlanks(swept, word));
  },
  alias: (swept, word) => {
    stopAt(swept, 'alias', swept.at + word.length);
  },
  'doc-start': endDocument,
  'doc-end': endDocument,
  'seq-item-ind': (swept) => {
    swept.parts += 1;
    if (swept.brackets.length === 0) openBlock(swept, { column: columnOf(swept), isList: true });
  },
  'explicit-key-ind': (swept) => {
    swept.parts += 1;
    if (swept.brackets.length === 0) openBlock(swept, { column: columnOf(swept), isList: false });
  },
  'map-value-ind': takeColon,
  'flow-map-start': openBracket,
  'flow-seq-start': openBracket,
  'flow-map-end': closeBracket,
  'flow-seq-end': closeBracket,
  comma: (swept) => {
    swept.parts += 1;
    endPair(swept);
    const { brackets, blocks } = swept;
    if (brackets.length === 1 && brackets[0] === '{' && blocks.length === 0)
      swept.before = swept.parts;
  },
  error: (swept) => {
    swept.parts += 1;
  },
};

/** Closes what the column of a line's first word closes. */
function beginLine(swept: Sweep, type: string): void {
  swept.isFirst = false;
  const { blocks, brackets } = swept;
  if (brackets.length > 0) return;
  const column = columnOf(swept);
  if (column === 0) swept.before = swept.parts;
  const ends = ({ column: open, isList }: Block): boolean =>
    open > column || (open === column && isList && type !== 'seq-item-ind');
  for (let top = blocks.at(-1); top && ends(top); top = blocks.at(-1)) blocks.pop();
}

function beginAfter(swept: Sweep, length: number): void {
  swept.line = swept.at + length;
  swept.isFirst = true;
  if (swept.brackets.length === 0) swept.key = -1;
}

function columnOf({ at, line }: Sweep): number {
  return at - line;
}

function takeScalar(swept: Sweep, word: string): void {
  swept.parts += 1 + Math.floor(word.length / PIECE_OF_SCALAR);
  swept.key = swept.at;
  let end = isFull(swept) ? -1 : word.indexOf('\n');
  for (; end >= 0 && !isFull(swept); end = word.indexOf('\n', end + 1)) {
    swept.parts += 1;
    swept.line = swept.at + end + 1;
  }
  // A block scalar takes in the end of its last line.
  if (word.endsWith('\n')) beginAfter(swept, word.length);
}

/** The package has to look at what stands for another sign within quotes: `\\n`, `''`. */
function takeQuoted(swept: Sweep, word: string): void {
  takeScalar(swept, word);
  const sign = word.startsWith('"') ? '\\' : "''";
  for (let at = word.indexOf(sign, 1); at >= 0; at = word.indexOf(sign, at + 2)) swept.parts += 1;
}

function takeColon(swept: Sweep): void {
  const { brackets, key, at, line } = swept;
  const from = key < 0 ? at : key;
  if (brackets.at(-1) === '[') {
    brackets.push(':');
    goDown(swept, from);
  } else if (brackets.length === 0)
    openBlock(swept, { column: Math.max(0, from - line), isList: false });
  swept.key = -1;
}

function openBlock(swept: Sweep, block: Block): void {
  const { blocks, line } = swept;
  const top = blocks.at(-1);
  if (top?.column === block.column && top.isList === block.isList) return;
  blocks.push(block);
  goDown(swept, line + block.column);
}

function openBracket(swept: Sweep, word: string): void {
  swept.parts += 1;
  swept.key = swept.at;
  swept.brackets.push(word);
  goDown(swept, swept.at);
}

function closeBracket(swept: Sweep): void {
  swept.parts += 1;
  endPair(swept);
  swept.brackets.pop();
}

/** A pair without braces in a list is a mapping of its own. */
function endPair({ brackets }: Sweep): void {
  if (brackets.at(-1) === ':') brackets.pop();
}

function endDocument(swept: Sweep): void {
  swept.parts += 1;
  swept.before = swept.parts;
  swept.blocks.length = 0;
  swept.brackets.length = 0;
}

/** One level deeper, for what begins at an offset. */
function goDown(swept: Sweep, start: number): void {
  const depth = swept.blocks.length + swept.brackets.length;
  if (depth === DEEPEST + 1) swept.deep ??= start;
  if (depth > FURTHEST) stop(swept, 'depth', swept.deep ?? start);
}

/** Stops at the word at hand, which ends at an offset. */
function stopAt(swept: Sweep, why: Stop['why'], end: number): void {
  swept.stop ??= { why, at: { start: swept.at, end } };
}

/** Stops at what begins at an offset, to the end of its line. */
function stop(swept: Sweep, why: Stop['why'], start: number): void {
  const end = swept.text.indexOf('\n', start);
  swept.stop ??= { why, at: { start, end: end < 0 ? swept.text.length : end } };
}

function pastBlanks({ text, at }: Sweep, word: string): number {
  let end = at + word.length;
  while (' \t'.includes(text.charAt(end)) && end < text.length) end += 1;
  return end;
}
