/** Prints plain data as YAML, in the style that entries have by default or in any other valid style. */

/** @import { Leaf, Tree, TreeMap } from './yaml-tree.ts' */

/**
 * @typedef {object} Style
 * @property {number} indent spaces of one level
 * @property {boolean} dashIn whether a list's dashes stand further in than its key
 * @property {(value: Tree) => boolean} flow whether a list or mapping is written on one line
 * @property {(text: string) => string} quote how text that needs or gets quotes is quoted
 * @property {(text: string) => boolean} quoteAnyway whether a scalar is quoted without need
 * @property {() => string} comment what stands after a value: nothing, or a space and a comment
 * @property {boolean} literal whether text of several lines is written as a literal block
 */

/** @type {Style} */
export const PLAIN_STYLE = {
  indent: 2,
  dashIn: true,
  flow: () => false,
  quote: (text) => JSON.stringify(text),
  quoteAnyway: () => false,
  comment: () => '',
  literal: false,
};

/** Core-schema words and numbers of YAML 1.2: unquoted, they are not read as text. */
const NOT_TEXT =
  /^(?:null|Null|NULL|~|true|True|TRUE|false|False|FALSE|0o[0-7]+|0x[\da-fA-F]+|[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)|)$/;

/** Surely plain in block and flow context alike; everything else is quoted. */
const PLAIN = /^[\p{L}\p{N}~.+-](?:[\p{L}\p{N} .+%°/()½&;'~_-]|:(?=\S))*$/u;

/**
 * One scalar as it is printed; `-`, a closing blank or `---` at the front would be taken for
 * something else, so they are quoted.
 * @param {Leaf} leaf
 * @param {Style} style
 * @returns {string}
 */
function scalar(leaf, style) {
  if (typeof leaf === 'number') return String(leaf);
  const text = typeof leaf === 'string' ? leaf : leaf.text;
  const plain = PLAIN.test(text) && !/^-(?:[- ]|$)| $|^\.\.\./.test(text);
  const needed = typeof leaf !== 'string' && NOT_TEXT.test(text);
  return plain && !needed && !style.quoteAnyway(text) ? text : style.quote(text);
}

/** @type {(value: Tree) => value is Leaf} */
const isLeaf = (value) =>
  typeof value !== 'object' || ('text' in value && typeof value.text === 'string');

/** @type {(value: Tree) => value is readonly Tree[]} */
const isList = (value) => Array.isArray(value);

/** @type {(map: TreeMap) => [string, Tree][]} */
const entriesOf = (map) =>
  Object.entries(map).flatMap(([key, value]) => (value === undefined ? [] : [[key, value]]));

/**
 * A value on one line.
 * @param {Tree} value
 * @param {Style} style
 * @returns {string}
 */
function oneLine(value, style) {
  if (isLeaf(value)) return scalar(value, style);
  if (isList(value)) return `[${value.map((item) => oneLine(item, style)).join(', ')}]`;
  const pairs = entriesOf(value).map(([key, item]) => `${key}: ${oneLine(item, style)}`);
  return pairs.length === 0 ? '{}' : `{ ${pairs.join(', ')} }`;
}

/** @type {(value: Tree, style: Style) => boolean} */
function fitsOneLine(value, style) {
  if (isLeaf(value)) return true;
  return (isList(value) ? value.length === 0 : entriesOf(value).length === 0) || style.flow(value);
}

/** @type {(value: Tree, margin: string, style: Style) => string | undefined} */
function literal(value, margin, style) {
  if (!style.literal || !isLeaf(value) || typeof value === 'number') return undefined;
  const text = typeof value === 'string' ? value : value.text;
  if (!/^\S[^\r\t]*[^\s]\n$/.test(text)) return undefined;
  const lines = text.slice(0, -1).split('\n');
  if (lines.length < 2 || lines.some((line) => line.trim() !== line || line === ''))
    return undefined;
  return `|\n${lines.map((line) => `${margin}${line}`).join('\n')}\n`;
}

/**
 * A mapping in block style, each line with its line feed.
 * @param {TreeMap} map
 * @param {string} margin
 * @param {Style} style
 * @returns {string}
 */
function blockMap(map, margin, style) {
  return entriesOf(map)
    .map(([key, value]) => `${margin}${key}:${afterKey(value, margin, style)}`)
    .join('');
}

/** @type {(value: Tree, margin: string, style: Style) => string} */
function afterKey(value, margin, style) {
  const deeper = margin + ' '.repeat(style.indent);
  const block = literal(value, deeper, style);
  if (block !== undefined) return ` ${block}`;
  if (isLeaf(value) || fitsOneLine(value, style))
    return ` ${oneLine(value, style)}${style.comment()}\n`;
  if (isList(value))
    return `${style.comment()}\n${blockList(value, style.dashIn ? deeper : margin, style)}`;
  return `${style.comment()}\n${blockMap(value, deeper, style)}`;
}

/** @type {(list: readonly Tree[], margin: string, style: Style) => string} */
function blockList(list, margin, style) {
  return list
    .map((item) => {
      if (isLeaf(item) || isList(item) || fitsOneLine(item, style))
        return `${margin}- ${oneLine(item, style)}${style.comment()}\n`;
      return `${margin}- ${blockMap(item, `${margin}  `, style).slice(margin.length + 2)}`;
    })
    .join('');
}

/**
 * A file's text: its records at the margin, one under the other.
 * @param {TreeMap} map
 * @param {Style} [style]
 * @returns {string}
 */
export function yamlText(map, style = PLAIN_STYLE) {
  return blockMap(map, '', style);
}

/**
 * One value on one line, as it is written within a block file.
 * @param {Tree} value
 * @param {Style} [style]
 * @returns {string}
 */
export function oneLineYaml(value, style = PLAIN_STYLE) {
  return oneLine(value, style);
}
