/** Turns the yaml package's nodes into raw content, and refuses what a studio's files must not have. */
import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type Scalar } from 'yaml';
import { QUOTED, UNQUOTED, inQuotes, isNumberKey, isOdd, type ReadOptions } from './core.ts';
import type { TextSpan } from '../lines.ts';
import { newMapping, type Raw, type RawMap } from '../raw.ts';
import { DEEPEST } from './sweep.ts';

/** Why something is not read, and where it stands in the text that was parsed. */
export interface NodeRefusal {
  readonly span: TextSpan;
  readonly message: string;
  readonly hint: string;
}

/** What one record, or one setting, comes to. */
interface Converted {
  readonly key: string;
  readonly keySpan: TextSpan;
  readonly value: Raw;
  readonly odd: boolean;
  readonly refusals: readonly NodeRefusal[];
}

/** What keeps the whole of a document from being read: an anchor or a tag before it. */
export function rootRefusal(root: Node, text: string): NodeRefusal | undefined {
  return hasProperties(root) ? propertyRefusal(root, text) : undefined;
}

/** The text that was parsed, and what is made of it. */
interface NodeConversion {
  readonly text: string;
  readonly options: ReadOptions;
  readonly refusals: NodeRefusal[];
  odd: boolean;
}

/** Where a node stands: the key that it belongs to, and how deep. */
interface Site {
  readonly key: string;
  readonly depth: number;
}

/** Converts one pair of a file's root mapping; each refusal names a place in `text`. */
export function convertPair(pair: Pair, text: string, options: ReadOptions): Converted {
  const conversion: NodeConversion = { text, options, refusals: [], odd: false };
  const key = keyText(conversion, pair);
  const value = rawOf(conversion, pair.value, { key, depth: 2 });
  const { odd, refusals } = conversion;
  return { key, keySpan: spanOf(pair.key), value, odd, refusals };
}

function rawOf(conversion: NodeConversion, node: unknown, site: Site): Raw {
  if (isAlias(node)) return refuseSign(conversion, spanOf(node));
  if (hasProperties(node)) conversion.refusals.push(propertyRefusal(node, conversion.text));
  if (isScalar(node)) return scalarText(conversion, node, site.key);
  if (site.depth > DEEPEST) return refuse(conversion, spanOf(node), TOO_DEEP);
  if (isSeq(node)) return listOf(conversion, node.items, site);
  if (isMap(node)) return mapOf(conversion, node.items, site);
  return emptyText(conversion);
}

function listOf(conversion: NodeConversion, items: readonly unknown[], site: Site): readonly Raw[] {
  const inner = { key: site.key, depth: site.depth + 1 };
  return items.map((item) => rawOf(conversion, item, inner));
}

function mapOf(conversion: NodeConversion, pairs: readonly Pair[], site: Site): RawMap {
  const map = newMapping();
  const depth = site.depth + 1;
  for (const pair of pairs) {
    const key = keyText(conversion, pair);
    if (key !== '' && key in map) refuse(conversion, spanOf(pair.key), repeated(key));
    else map[key] = rawOf(conversion, pair.value, { key, depth });
  }
  return map;
}

function scalarText(conversion: NodeConversion, scalar: Scalar, key: string): string {
  const { options } = conversion;
  const text = scalar.source ?? '';
  if (scalar.type !== 'PLAIN') return options.marks ? QUOTED + text : text;
  if (text === '') return emptyText(conversion);
  conversion.odd ||= isOdd(text, isNumberKey(key, options.numberKeys));
  return options.marks ? UNQUOTED + text : text;
}

function emptyText(conversion: NodeConversion): string {
  conversion.odd = true;
  return conversion.options.marks ? UNQUOTED : '';
}

function keyText(conversion: NodeConversion, { key, value }: Pair): string {
  if (isAlias(key)) return refuse(conversion, spanOf(key), ALIAS);
  if (hasProperties(key)) conversion.refusals.push(propertyRefusal(key, conversion.text));
  if (!isScalar(key)) return refuse(conversion, spanOf(key), COMPLEX_KEY);
  const text = key.source ?? '';
  const plain = key.type === 'PLAIN';
  if (plain && text === '') return refuse(conversion, spanOf(key), NO_KEY);
  if (plain && text === '<<') return refuse(conversion, spanOf(key), MERGE_KEY);
  if (text.includes('\n')) return refuse(conversion, spanOf(key), COMPLEX_KEY);
  if (plain && text.trim() !== text) return refuse(conversion, spanOf(key), FOREIGN_SPACE);
  if (plain && value === null && /^[\w-]+:\S/.test(text))
    return refuse(conversion, spanOf(key), spaceAfterColon(text));
  return text;
}

/** What is said of a place. */
export type Words = Omit<NodeRefusal, 'span'>;

function refuseSign(conversion: NodeConversion, span: TextSpan): string {
  conversion.refusals.push(ofSign(conversion.text, span, ALIAS));
  return '';
}

/**
 * The refusal of a sign that gives a value another meaning: said of the whole value, which may well be a
 * text, where the sign is its beginning.
 */
export function ofSign(text: string, span: TextSpan, { message, hint }: Words): NodeRefusal {
  const { start } = span;
  const value = /^[^\r\n,}\]]*/.exec(text.slice(start))?.[0].trimEnd() ?? '';
  if (!/[\w-]:[ \t]+$/.test(text.slice(Math.max(0, start - 80), start)) || value.includes(': '))
    return { span, message, hint };
  const inText = `write ${inQuotes(value)}, in quotes, if the ${text.charAt(start)} belongs to it`;
  return {
    span: { start, end: start + value.length },
    message,
    hint: `${inText}; otherwise ${hint}`,
  };
}

function refuse({ refusals }: NodeConversion, span: TextSpan, words: Words): string {
  refusals.push({ span, ...words });
  return '';
}

/** A node with an anchor or a tag before it. */
type Decorated = Node & { anchor?: string };

function hasProperties(node: unknown): node is Decorated {
  const { anchor, tag } = (node ?? {}) as Partial<Decorated>;
  return anchor !== undefined || tag !== undefined;
}

function propertyRefusal({ anchor, range }: Decorated, text: string): NodeRefusal {
  const start = range?.[0] ?? 0;
  const [sign, words] = anchor === undefined ? ['!', TAG] : ['&', ANCHOR];
  let at = Math.max(0, text.lastIndexOf(sign, start));
  if (text.charAt(at - 1) === sign) at -= 1;
  return ofSign(text, { start: at, end: start }, words);
}

/** Where a node stands in the text that was parsed. */
export function spanOf(node: unknown): TextSpan {
  const [start = 0, end = start] = (node as Partial<Node> | null)?.range ?? [];
  return { start, end };
}

/** A name with a colon that lacks the space after it: `date:2026-03-08`. */
export function spaceAfterColon(text: string): Words {
  const colon = text.indexOf(':') + 1;
  return {
    message: `a space is missing after the colon of "${text.slice(0, colon)}"`,
    hint: `write: ${text.slice(0, colon)} ${text.slice(colon)}`,
  };
}

function repeated(key: string): Words {
  return {
    message: `"${key}" is used twice in this record`,
    hint: 'take this one out, or the one before it, whichever is not meant',
  };
}

/** What is said of a collection beyond the deepest level. */
export const TOO_DEEP: Words = {
  message: `this is nested deeper than ${DEEPEST} levels`,
  hint: 'write it flatter; no record needs more than a few levels',
};
/** What is said of an alias. */
export const ALIAS: Words = {
  message: 'a value that begins with * refers to another one (an alias); such are not read',
  hint: 'write the value itself',
};
/** What is said of an anchor. */
export const ANCHOR: Words = {
  message: 'a value is named with & for use elsewhere (an anchor); such are not read',
  hint: 'write the value wherever it is used',
};
/** What is said of a tag. */
export const TAG: Words = {
  message: 'a value is given a type with ! (a tag); such are not read',
  hint: 'take the tag out',
};
const MERGE_KEY: Words = {
  message: 'a key << takes over fields from elsewhere (a merge key); such are not read',
  hint: 'write the fields out',
};
const COMPLEX_KEY: Words = {
  message: 'the name of a field must be a single word',
  hint: 'begin the line with a name, a colon and a space',
};
const FOREIGN_SPACE: Words = {
  message: 'a space beside this name is not that of the space bar',
  hint: 'delete it and type a space instead; it may come from a web page',
};
const NO_KEY: Words = {
  message: 'there is a value here without the name of its field',
  hint: 'write the name before the colon',
};
