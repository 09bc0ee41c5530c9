/**
 * Where everything stands in one YAML file: mappings, lists and scalars with their offsets, from the
 * yaml package's tokens. Commands load `src/write` on demand, so that reports never load the package.
 */
import { Composer, CST, Parser } from 'yaml';
import { tooMuch } from '../read/yaml/budget.ts';
import { unsettledIn } from '../read/yaml/conflicts.ts';
import { lineNumber } from '../read/lines.ts';
import { mapping, type Raw } from '../read/raw.ts';
import { DEEPEST } from '../read/yaml/sweep.ts';
import { unfitCharacter } from '../read/text.ts';
import type { Quotes } from './emit.ts';

/** A scalar, from its first character to past its last; a block scalar ends after its last line end. */
export interface ScalarPart {
  readonly type: 'scalar';
  readonly style: 'plain' | 'single' | 'double' | 'block' | 'empty';
  readonly start: number;
  readonly end: number;
}

/** A mapping's key, with the text that it stands for. */
interface KeyPart extends ScalarPart {
  readonly text: string;
}

/** A mapping or a list. */
export interface GroupPart {
  readonly type: 'map' | 'list';
  /** Whether it is written with `{ }` or `[ ]`. */
  readonly flow: boolean;
  readonly start: number;
  readonly end: number;
  readonly entries: readonly EntryPart[];
}

/** Something valid that this program leaves alone: a pair without braces in a list. */
interface OtherPart {
  readonly type: 'other';
  readonly start: number;
  readonly end: number;
}

export type TextPart = ScalarPart | GroupPart | OtherPart;

/** A mapping's field or a list's item, from its key, dash or value to the end of its value. */
export interface EntryPart {
  readonly start: number;
  readonly end: number;
  /** The key and where it stands; absent in lists. */
  readonly key?: KeyPart;
  /** Offset just after the colon or the dash; absent where there is none. */
  readonly mark?: number;
  readonly value: TextPart;
  /** Offset of the comma after it, in flow style. */
  readonly comma?: number;
}

/** A file whose content and places are known. */
export interface Layout {
  /** The byte order mark, or nothing; it goes before the text again. */
  readonly mark: string;
  /** The text without the mark: all offsets are in it. */
  readonly text: string;
  /** All scalars as texts; an empty value is the empty text. */
  readonly content: Raw;
  /** Absent where the file holds nothing but comments. */
  readonly root?: TextPart;
  /** Offset of the line `...` that closes the document, else the end of the text. */
  readonly close: number;
}

/** A file that can't be changed, and why, in one sentence without a full stop. */
export interface Refused {
  readonly refused: string;
}

/** The quotes that a scalar stands in, if any. */
export function quotesOf(part: TextPart): Quotes | undefined {
  if (part.type !== 'scalar') return undefined;
  return part.style === 'single' || part.style === 'double' ? part.style : undefined;
}

const BYTE_ORDER_MARK = '\ufeff';

/**
 * Reads a file's content and places; refuses what the program doesn't read either. A byte order mark
 * is left out of the layout's text, so that the first line has the columns that people see.
 */
export function layoutOf(file: string): Layout | Refused {
  const mark = file.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
  const text = file.slice(mark.length);
  const unfit = unfitCharacter('', text, { start: 0, end: text.length });
  if (unfit && 'line' in unfit.at) return { refused: `line ${unfit.at.line}: ${unfit.message}` };
  const merged = openMerge(text);
  if (merged) return merged;
  const unswept = tooMuch(text);
  const tokens = unswept ? [] : [...new Parser().parse(text)];
  const unread = unswept ?? tokens.flatMap((token) => unreadIn(token, 0))[0];
  if (unread) return { refused: `line ${lineNumber(text, unread.at)} holds ${unread.what}` };
  const [document, second] = [...new Composer(OPTIONS).compose(tokens, true, text.length)];
  const error = document?.errors[0];
  if (error)
    return { refused: `line ${lineNumber(text, error.pos[0])} is not YAML: ${error.message}` };
  if (second) return { refused: 'it holds more than one YAML document' };
  const close = tokens.find((token) => token.type === 'doc-end')?.offset ?? text.length;
  const token = tokens.find((each) => each.type === 'document')?.value;
  if (token === undefined) return { mark, text, content: mapping([]), close };
  const root = textPart(token);
  const twice = repeatedKey(root);
  if (twice)
    return { refused: `line ${lineNumber(text, twice.start)} has ${twice.text} a second time` };
  const content = contentOf(document?.toJS({ mapAsMap: true }));
  return { mark, text, content, root, close };
}

function openMerge(text: string): Refused | undefined {
  const unsettled = unsettledIn(text);
  const marker = unsettled?.strays[0] ?? unsettled?.conflicts[0]?.opening;
  if (!marker) return undefined;
  const line = lineNumber(text, marker.start);
  return { refused: `a merge is not settled at line ${line}: settle it first, as check tells` };
}

// The package compares each key with all before it, which takes minutes in a large file.
const OPTIONS = {
  schema: 'failsafe',
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: 'error',
} as const;

function repeatedKey(part: TextPart): KeyPart | undefined {
  if (part.type !== 'map' && part.type !== 'list') return undefined;
  const seen = new Set<string>();
  for (const { key, value } of part.entries) {
    if (key && seen.has(key.text)) return key;
    if (key) seen.add(key.text);
    const inner = repeatedKey(value);
    if (inner) return inner;
  }
  return undefined;
}

interface NotReadHere {
  readonly at: number;
  readonly what: string;
}

// What this program doesn't read in any file, and a sweep leaves to a closer look.
function unreadIn(token: CST.Token, depth: number): NotReadHere[] {
  if (token.type === 'document')
    return [...token.start, ...(token.value ? [token.value] : [])].flatMap((inner) =>
      unreadIn(inner, depth),
    );
  if (!CST.isCollection(token)) return [];
  if (depth >= DEEPEST)
    return [{ at: token.offset, what: `more than ${DEEPEST} levels of nesting` }];
  return token.items.flatMap((item: CST.CollectionItem) => unreadInItem(item, depth + 1));
}

function unreadInItem(
  { start, key, sep = [], value }: CST.CollectionItem,
  depth: number,
): NotReadHere[] {
  if (CST.isCollection(key)) return [{ at: key.offset, what: 'a key that is not a text' }];
  if (key?.type === 'scalar' && key.source === '<<')
    return [{ at: key.offset, what: 'a merge key (<<)' }];
  const inner = [...start, ...(key ? [key] : []), ...sep, ...(value ? [value] : [])];
  return inner.flatMap((token) => unreadIn(token, depth));
}

function contentOf(value: unknown): Raw {
  if (typeof value === 'string') return value;
  if (Array.isArray(value)) return value.map(contentOf);
  const entries = value instanceof Map ? [...value] : undefined;
  if (!entries) return '';
  return mapping(entries.map(([key, inner]) => [String(key ?? ''), contentOf(inner)]));
}

function textPart(token: CST.Token): TextPart {
  if (token.type === 'block-map') return blockGroup('map', token, token.items.flatMap(fieldPart));
  if (token.type === 'block-seq') return blockGroup('list', token, token.items.flatMap(itemPart));
  if (token.type === 'flow-collection') return flowGroup(token);
  return scalarPart(token);
}

function scalarPart(token: CST.Token): ScalarPart {
  const start = token.offset;
  if (token.type === 'block-scalar')
    return { type: 'scalar', style: 'block', start, end: blockScalarEnd(token) };
  const source = 'source' in token ? token.source : '';
  const style = source === '' ? 'empty' : (STYLES[token.type] ?? 'plain');
  return { type: 'scalar', style, start, end: start + source.length };
}

const STYLES: Readonly<Record<string, ScalarPart['style']>> = {
  'single-quoted-scalar': 'single',
  'double-quoted-scalar': 'double',
};

function blockScalarEnd(token: CST.BlockScalar): number {
  const header = token.props.map((prop) => ('source' in prop ? prop.source : '')).join('');
  return token.offset + header.length + token.source.length;
}

function blockGroup(
  type: 'map' | 'list',
  token: CST.Token,
  entries: readonly EntryPart[],
): GroupPart {
  const start = entries[0]?.start ?? token.offset;
  return { type, flow: false, start, end: entries.at(-1)?.end ?? start, entries };
}

function flowGroup(token: CST.FlowCollection): GroupPart {
  const type = token.start.type === 'flow-map-start' ? 'map' : 'list';
  const read = type === 'map' ? fieldPart : flowItemPart;
  const entries = token.items.flatMap((item, index) => {
    const after = token.items[index + 1]?.start.find((each) => each.type === 'comma');
    return read(item).map((entry) => ({ ...entry, ...(after ? { comma: after.offset } : {}) }));
  });
  const last = token.end.find((each) => each.type.startsWith('flow-'));
  const end = (last?.offset ?? token.offset) + 1;
  return { type, flow: true, start: token.offset, end, entries };
}

function fieldPart(item: CST.CollectionItem): EntryPart[] {
  const explicit = item.start.find((each) => each.type === 'explicit-key-ind');
  const colon = item.sep?.find((each) => each.type === 'map-value-ind');
  const first = explicit ?? item.key ?? colon;
  if (!first) return [];
  const key = item.key ? keyPart(item.key) : { ...emptyAt((explicit ?? first).offset), text: '' };
  const mark = colon && colon.offset + 1;
  const value = item.value ? textPart(item.value) : emptyAt(mark ?? key.end);
  return [{ start: first.offset, end: value.end, key, value, ...(mark ? { mark } : {}) }];
}

function keyPart(token: CST.Token): KeyPart {
  return { ...scalarPart(token), text: CST.resolveAsScalar(token)?.value ?? '' };
}

function itemPart(item: CST.CollectionItem): EntryPart[] {
  const dash = item.start.find((each) => each.type === 'seq-item-ind');
  if (!dash) return [];
  const mark = dash.offset + 1;
  const value = item.value ? textPart(item.value) : emptyAt(mark);
  return [{ start: dash.offset, end: value.end, mark, value }];
}

function flowItemPart(item: CST.CollectionItem): EntryPart[] {
  const [pair] = item.sep ? fieldPart(item) : [];
  if (pair) return [{ ...pair, value: { type: 'other', start: pair.start, end: pair.end } }];
  if (!item.value) return [];
  const value = textPart(item.value);
  return [{ start: value.start, end: value.end, value }];
}

function emptyAt(offset: number): ScalarPart {
  return { type: 'scalar', style: 'empty', start: offset, end: offset };
}
