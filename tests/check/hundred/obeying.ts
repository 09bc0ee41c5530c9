/** Does to a file what a problem's hint says, to the letter. */
import {
  isMap,
  isPair,
  isScalar,
  parseDocument,
  visit,
  type Pair,
  type Range,
  type YAMLMap,
} from 'yaml';
import type { Problem } from '../../../src/problem.ts';

const VALUE = String.raw`"(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|\{[^}]*\}|\[[^\]]*\]|[^,;?]+?`;
const END = String.raw`(?=$|,? or |, |;|\?| if | where | for | since )`;

/** In the order in which they count where a hint has several. */
const FORMS: readonly RegExp[] = [
  /\bwrite the line as: (?<line>.*)$/,
  /\bwrite: (?<text>.*)$/,
  /\bdid you mean "?(?<text>.+?)"?(?:\?| \()/,
  /\btake this (?<out>line|one) out/,
  new RegExp(String.raw`\bsuch as (?<text>(?:[\w-]+: )?(?:${VALUE}))${END}`),
  new RegExp(String.raw`\bwrite(?: it as| one of)? (?<text>(?:[\w-]+: )?(?:${VALUE}))${END}`),
  /\btake (?<out>[\w-]+)(?: or [\w-]+)? out/,
  new RegExp(String.raw`\badd(?: it as| one of)? (?<text>(?:[\w-]+: )?(?:${VALUE}))${END}`),
];

/** What a hint says to write, or to take out. */
interface Told {
  readonly line?: string;
  readonly text?: string;
  readonly out?: string;
}

/** Undefined where the hint names nothing that could be written. */
function toldBy(hint: string): Told | undefined {
  for (const form of FORMS) {
    const groups = form.exec(hint)?.groups;
    if (groups) return groups;
  }
  return undefined;
}

/** The text with exactly that in the place that the problem marks. */
export function obeyed(text: string, { place, hint }: Pick<Problem, 'place' | 'hint'>): string {
  const told = toldBy(hint);
  const start = lineStart(text, place.line) + place.column - 1;
  const mark: Range = [start, start + place.width, start + place.width];
  if (told?.line !== undefined) return withLine(text, place.line, told.line);
  if (told?.out !== undefined) return without(text, mark, told.out);
  if (told?.text === undefined) return text;
  const [, key, value = ''] = /^([\w-]+): (.+)$/.exec(told.text) ?? [];
  const map = key === undefined ? undefined : mapFor(text, mark, key);
  return key !== undefined && map
    ? withField(text, map, [key, value])
    : spliced(text, mark, told.text);
}

function lineStart(text: string, line: number): number {
  return (
    text
      .split('\n')
      .slice(0, line - 1)
      .join('\n').length + (line > 1 ? 1 : 0)
  );
}

function spliced(text: string, [from, to]: Range, by: string): string {
  return text.slice(0, from) + by + text.slice(to);
}

function withLine(text: string, line: number, by: string): string {
  return text
    .split('\n')
    .toSpliced(line - 1, 1, by)
    .join('\n');
}

/** The innermost mapping round a mark that has a field; else the innermost. */
function mapFor(text: string, mark: Range, key: string): YAMLMap | undefined {
  const maps = mapsAt(text, mark, key === text.slice(mark[0], mark[1]));
  return maps.findLast((map) => pairIn(map, key)) ?? maps.at(-1);
}

function mapAt(text: string, mark: Range): YAMLMap | undefined {
  return mapsAt(text, mark).at(-1);
}

/** The mappings that a mark is in, or that it is the key of, the innermost last, where the file can be read. */
function mapsAt(text: string, [from, to]: Range, isOuter = false): readonly YAMLMap[] {
  const document = parseDocument(text);
  const found: YAMLMap[] = [];
  if (document.errors.length > 0) return found;
  visit(document, (_, node) => {
    if (isMap(node) && node.range && node.range[0] <= from && to <= node.range[1]) found.push(node);
    if (!isOuter && isPair(node) && isMap(node.value) && isAt(node, from)) found.push(node.value);
  });
  return found;
}

function isAt({ key }: Pair, offset: number): boolean {
  return isScalar(key) && key.range?.[0] === offset;
}

function pairIn({ items }: YAMLMap, name: string): Pair | undefined {
  return items.find(({ key }) => isScalar(key) && key.source === name);
}

function rangeOf(node: unknown): Range {
  return (node as { range: Range }).range;
}

function withField(text: string, map: YAMLMap, [key, value]: readonly [string, string]): string {
  const there = pairIn(map, key);
  if (there) {
    const [, end] = rangeOf(there.key);
    const [from, to] = there.value ? rangeOf(there.value) : [end + 1, end + 1];
    const isEmpty = from === to;
    return isEmpty
      ? spliced(text, [end + 1, end + 1, 0], ` ${value}`)
      : spliced(text, [from, to, to], value);
  }
  if (map.flow) {
    const end = rangeOf(map)[1];
    return `${text.slice(0, end - 1).trimEnd()}, ${key}: ${value} ${text.slice(end - 1)}`;
  }
  const [first] = rangeOf(map.items[0]?.key);
  const indent = first - text.lastIndexOf('\n', first - 1) - 1;
  return spliced(text, [first, first, first], `${key}: ${value}\n${' '.repeat(indent)}`);
}

/** Without a field, or without what is marked: with the line, where a line begins with it. */
function without(text: string, mark: Range, name: string): string {
  const pair = mapAt(text, mark)?.items.find(({ key }) => isScalar(key) && key.source === name);
  const [from, to] = pair ? [rangeOf(pair.key)[0], rangeOf(pair.value ?? pair.key)[1]] : mark;
  const before = text.slice(0, from);
  const after = text.slice(to);
  if (/(?:^|\n) *$/.test(before)) return before.replace(/ *$/, '') + after.replace(/^.*\n/, '');
  if (/^\W+$/.test(text.slice(from, to))) return before + after;
  if (before.trimEnd().endsWith(',')) return before.trimEnd().slice(0, -1) + after;
  return before + after.replace(/^,\s*/, '');
}
