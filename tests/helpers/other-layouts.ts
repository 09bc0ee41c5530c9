/** Writes the same records into other files, in another order and another YAML style. */
import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import { randomSource, type RandomSource } from './random-source.js';
import { yamlText, type Style } from './yaml-text.js';
import type { Leaf, Tree, TreeMap } from './yaml-tree.ts';

type Files = Readonly<Record<string, string>>;

interface Entry {
  readonly kind: string;
  readonly id: string;
  readonly record: Tree;
}

/**
 * The same studio in another layout, always the same one for the same seed: records of a kind in one
 * file, one file each, by month, in nested folders or in random heaps; records and their fields in
 * another order; lists as they were. Each file has a style of its own: indent, dashes, flow or block,
 * quotes, comments, blank lines, LF or CRLF, with or without BOM. Comments of the files are lost.
 */
export function layouts(files: Files, seed: number): Record<string, string> {
  const entries = Object.entries(files).flatMap(([path, text]) => entriesOf(path, text));
  const kinds = [...new Set(entries.map(({ kind }) => kind))];
  const moved = kinds.flatMap((kind) => {
    const random = randomSource(seed, 'layout', kind);
    const own = random.shuffle(entries.filter((entry) => entry.kind === kind));
    return kind === 'studio' ? [settingsFile(own, random)] : filesOf(own, random);
  });
  return Object.fromEntries(randomSource(seed, 'files').shuffle(moved));
}

function entriesOf(path: string, text: string): Entry[] {
  const kind = path.replace(/(?:\/.*|\.yaml)$/, '');
  const { contents, errors } = parseDocument(text, { schema: 'failsafe' });
  if (errors[0] !== undefined) throw errors[0];
  const records = treeOf(contents) as TreeMap;
  return Object.entries(records).map(([id, record = '']) => ({ kind, id, record }));
}

/** Data with what was quoted kept apart from what was not. */
function treeOf(node: unknown): Tree {
  if (isSeq(node)) return node.items.map(treeOf);
  if (!isMap(node)) return leafOf(node);
  return Object.fromEntries(
    node.items.map(({ key, value }) => [isScalar(key) ? String(key.value) : '', treeOf(value)]),
  );
}

function leafOf(node: unknown): Leaf {
  if (!isScalar(node)) return { text: '' };
  const text = String(node.value);
  return node.type === 'PLAIN' ? text : { text };
}

function settingsFile(entries: readonly Entry[], random: RandomSource): [string, string] {
  return ['studio.yaml', print(entries, random)];
}

type Placing = (entry: Entry, random: RandomSource) => string;

/** Ways to spread the records of a kind over files; each gives an entry's path. */
const PLACINGS: readonly Placing[] = [
  ({ kind }) => `${kind}.yaml`,
  ({ kind, id }) => `${kind}/${id}.yaml`,
  ({ kind, record }) => `${kind}/${dateIn(record).slice(0, 7)}.yaml`,
  ({ kind, record }) => `${kind}/${dateIn(record).slice(0, 7).replace('-', '/')}/all.yaml`,
  ({ kind }, random) =>
    random.chance(0.3) ? `${kind}.yaml` : `${kind}/heap ${random.int(1, 4)}/of/it.yaml`,
  ({ kind }, random) => `${kind}/${random.pick(['a', 'B', 'c-d', '0044', 'x y', kind])}.yaml`,
];

function dateIn(record: Tree): string {
  const date = typeof record === 'object' && 'date' in record ? record['date'] : undefined;
  return typeof date === 'string' ? date : 'undated';
}

function filesOf(entries: readonly Entry[], random: RandomSource): [string, string][] {
  const placing = random.pick(PLACINGS);
  const heaps = new Map<string, Entry[]>();
  for (const entry of entries) {
    const path = placing(entry, random);
    heaps.set(path, [...(heaps.get(path) ?? []), entry]);
  }
  return [...heaps].map(([path, heap]) => [path, print(heap, random)]);
}

const COMMENTS = ['# counted twice', '#', "# don't: see {below}, or [above]", '# "so" - and so'];

/** One file's text, in a style of its own. */
function print(entries: readonly Entry[], random: RandomSource): string {
  const style = styleOf(random);
  const airy = random.chance(0.4);
  const talkative = random.chance(0.3);
  const records = entries.map(({ id, record }) => {
    const above = talkative && random.chance(0.3) ? `${random.pick(COMMENTS)}\n` : '';
    const below = airy && random.chance(0.7) ? random.pick(['\n', '\n\n', '  \n']) : '';
    return above + yamlText({ [id]: mixed(record, random) }, style) + below;
  });
  const head = talkative ? `${random.pick(COMMENTS)}\n\n` : '';
  const text = head + records.join('');
  const ended = !style.literal && random.chance(0.2) ? text.replace(/\n+$/, '') : text;
  const lines = random.chance(0.25) ? ended.replaceAll('\n', '\r\n') : ended;
  return random.chance(0.15) ? `\uFEFF${lines}` : lines;
}

/** The same data with the keys of its mappings in another order. */
function mixed(tree: Tree, random: RandomSource): Tree {
  if (typeof tree !== 'object' || isLeaf(tree)) return tree;
  if (isList(tree)) return tree.map((item) => mixed(item, random));
  const pairs = Object.entries(tree).map(
    ([key, value = '']) => [key, mixed(value, random)] as const,
  );
  return Object.fromEntries(random.chance(0.5) ? random.shuffle(pairs) : pairs);
}

function isList(tree: Tree): tree is readonly Tree[] {
  return Array.isArray(tree);
}

function isLeaf(tree: Tree): tree is Leaf {
  return typeof tree !== 'object' || ('text' in tree && typeof tree.text === 'string');
}

function styleOf(random: RandomSource): Style {
  const flowing = random.pick([0, 0, 0.2, 0.5, 1]);
  const quoting = random.pick([0, 0, 0, 0.2, 1]);
  const commenting = random.pick([0, 0, 0, 0.1, 0.5]);
  return {
    indent: random.pick([2, 2, 4, 3, 1]),
    dashIn: random.chance(0.7),
    flow: () => random.chance(flowing),
    quote: random.chance(0.5) ? quoteTwice : quoteOnce,
    quoteAnyway: () => random.chance(quoting),
    comment: () => (random.chance(commenting) ? ` ${random.pick(COMMENTS)}` : ''),
    literal: random.chance(0.5),
  };
}

const quoteTwice = (text: string): string => JSON.stringify(text);

/** Single quotes, which fold lines and so can't hold text of several. */
function quoteOnce(text: string): string {
  return text.includes('\n') ? quoteTwice(text) : `'${text.replaceAll("'", "''")}'`;
}
