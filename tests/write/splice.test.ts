/** Splices into files of every layout: nothing outside the splice moves, and a second parser agrees. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { appendRecord } from '../../src/write/append.ts';
import { removeField, removeRecord, setField } from '../../src/write/splice.ts';
import type { Spliced } from '../../src/write/trail.ts';
import { holds } from '../helpers/law.ts';
import { randomRecord, randomText } from '../helpers/layout-data.ts';
import { layOut, type Laid, type LaidEntry, type Path, type Tree } from '../helpers/layout.ts';
import { randomSource, type RandomSource } from '../helpers/random-source.js';
import { secondReading } from '../helpers/second-reader.ts';

const seeds = fc.record({ seed: fc.nat(1e9), size: fc.integer({ min: 1, max: 5 }) });

/** The changed text; fails the test with the reason where the splice was refused. */
function changed(spliced: Spliced): string {
  if ('refused' in spliced) throw new Error(spliced.refused);
  return spliced.text;
}

function raw(tree: Tree): Raw {
  if (typeof tree === 'string') return tree;
  if (Array.isArray(tree)) return tree.map(raw);
  return Object.fromEntries([...tree].map(([key, value]) => [key, raw(value)]));
}

function copy(tree: Tree): Tree {
  if (typeof tree === 'string') return tree;
  if (Array.isArray(tree)) return tree.map(copy);
  return new Map([...tree].map(([key, value]) => [key, copy(value)]));
}

function at(tree: Tree, path: Path): Tree | undefined {
  return path.reduce<Tree | undefined>((found, step) => {
    if (found instanceof Map) return found.get(String(step));
    return Array.isArray(found) ? found[Number(step)] : undefined;
  }, tree);
}

/** The tree with a value put at the path, or without what is there. */
function treeWith(tree: Tree, path: Path, value: Tree | undefined): Tree {
  const whole = copy(tree);
  const holder = at(whole, path.slice(0, -1));
  const step = path.at(-1)!;
  if (holder instanceof Map)
    if (value === undefined) holder.delete(String(step));
    else holder.set(String(step), value);
  else if (Array.isArray(holder))
    holder.splice(Number(step), 1, ...(value === undefined ? [] : [value]));
  return whole;
}

/** What stands in the middle once the common beginning and end are taken off both. */
function middles(before: string, after: string): [string, string] {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  return [before.slice(head, before.length - tail), after.slice(head, after.length - tail)];
}

/** The longer text is the shorter with one piece more, or with two (a comma and an entry). */
function expectOnlyAdded(shorter: string, longer: string): void {
  const [kept, all] = middles(shorter, longer);
  // The blanks of empty brackets make room for the first entry.
  const still = kept.trim() === '' ? '' : kept;
  expect(all, `${JSON.stringify(kept)} should still stand in the text`).toContain(still);
}

function lostComments(laid: Laid, after: string): { text: string; at: number }[] {
  return laid.comments.filter(({ text }) => !after.includes(text));
}

/** The end of an entry's last line, before the line end unless a block scalar takes that in. */
function lineEnd({ text }: Laid, entry: LaidEntry): number {
  const end = text[entry.end - 1] === '\n' ? entry.end : text.indexOf('\n', entry.end);
  return end < 0 ? text.length : end;
}

/**
 * What belongs to an entry: its lines, the comment lines directly above in its column, and those
 * below that stand further in.
 */
function ownRegion(laid: Laid, entry: LaidEntry): { start: number; end: number } {
  const lines = laid.text.split('\n');
  const lineOf = (offset: number) => laid.text.slice(0, offset).split('\n').length - 1;
  const startOf = (line: number) => lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0);
  const column = (line: number) => lines[line]!.replace('\ufeff', '').search(/#/);
  const isComment = (line: number) => /^\ufeff?\s*#/.test(lines[line] ?? '');
  const first = lineOf(entry.start);
  const own = laid.text.slice(startOf(first), entry.start).replace('\ufeff', '').length;
  let above = first;
  while (above > 0 && isComment(above - 1) && column(above - 1) === own) above--;
  let end = lineEnd(laid, entry);
  for (let line = lineOf(laid.text[end] === '\n' ? end + 1 : end); line < lines.length; line++)
    if (isComment(line) && column(line) > own) end = startOf(line + 1) - 1;
    else if (lines[line]!.trim() !== '') break;
  return { start: startOf(above), end };
}

function expectCommentsKept(laid: Laid, after: string, entry: LaidEntry): void {
  const own = ownRegion(laid, entry);
  for (const comment of lostComments(laid, after)) {
    expect(comment.at, `${comment.text} is not the entry's own`).toBeGreaterThanOrEqual(own.start);
    expect(comment.at, `${comment.text} is not the entry's own`).toBeLessThan(own.end);
  }
}

/** One random change of a file, checked against the tree and byte for byte. */
type Check = (laid: Laid, random: RandomSource) => void;

const appends: Check = (laid, random) => {
  const record = randomRecord(random);
  const after = changed(appendRecord(laid.text, 'new-1', raw(record) as RawMap));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, ['new-1'], record));
  expectOnlyAdded(laid.text, after);
  expect(lostComments(laid, after)).toEqual([]);
};

const changesScalars: Check = (laid, random) => {
  if (laid.scalars.length === 0) return;
  const scalar = random.pick(laid.scalars);
  const value = random.chance(0.5) ? random.pick(['9', '04', '12.50']) : randomText(random);
  const after = changed(setField(laid.text, scalar.path, value));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, scalar.path, value));
  const before = laid.text.slice(0, scalar.start);
  const behind = laid.text.slice(scalar.end);
  expect(after.slice(0, before.length)).toBe(before);
  expect(after.slice(after.length - behind.length)).toBe(behind);
  const [written] = [after.slice(before.length, after.length - behind.length)];
  if (scalar.style === 'single' && !/[\n\t]/.test(value)) expect(written).toMatch(/^'.*'$/);
  if (scalar.style === 'double') expect(written).toMatch(/^".*"$/);
};

const addsFields: Check = (laid, random) => {
  const maps = laid.entries.filter(({ path }) => at(laid.tree, path) instanceof Map);
  if (maps.length === 0) return;
  const path = [...random.pick(maps).path, 'added'];
  const value = random.chance(0.5) ? randomText(random) : randomRecord(random);
  const after = changed(setField(laid.text, path, raw(value)));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, path, value));
  expectOnlyAdded(laid.text, after);
  expect(lostComments(laid, after)).toEqual([]);
};

const addsItems: Check = (laid, random) => {
  const lists = laid.entries.filter(({ path }) => Array.isArray(at(laid.tree, path)));
  if (lists.length === 0) return;
  const { path } = random.pick(lists);
  const list = at(laid.tree, path) as Tree[];
  const value = random.chance(0.5) ? randomText(random) : randomRecord(random);
  const after = changed(setField(laid.text, [...path, list.length], raw(value)));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, [...path, list.length], value));
  expectOnlyAdded(laid.text, after);
  expect(lostComments(laid, after)).toEqual([]);
};

const changesValues: Check = (laid, random) => {
  const fields = laid.entries.filter(({ path }) => path.length > 1);
  if (fields.length === 0) return;
  const entry = random.pick(fields);
  const value = random.pick<Tree>([randomRecord(random), ['a', 'b'], [], randomText(random)]);
  const after = changed(setField(laid.text, entry.path, raw(value)));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, entry.path, value));
  expect(after.slice(0, entry.start)).toBe(laid.text.slice(0, entry.start));
  for (const comment of lostComments(laid, after)) {
    expect(comment.at).toBeGreaterThanOrEqual(entry.start);
    expect(comment.at).toBeLessThan(lineEnd(laid, entry));
  }
  const behind = laid.text.slice(lineEnd(laid, entry));
  expect(after.slice(after.length - behind.length)).toBe(behind);
};

const removesFields: Check = (laid, random) => {
  const fields = laid.entries.filter(({ path }) => path.length > 1);
  if (fields.length === 0) return;
  const entry = random.pick(fields);
  const after = changed(removeField(laid.text, entry.path));
  const expected = treeWith(laid.tree, entry.path, undefined);
  expect(secondReading(after)).toEqual(expected);
  const holder = at(expected, entry.path.slice(0, -1)) as Tree[] | Map<string, Tree>;
  const isEmpty = (holder instanceof Map ? holder.size : holder.length) === 0;
  const holderEntry = laid.entries.find((each) => same(each.path, entry.path.slice(0, -1)))!;
  if (!isEmpty) expectOnlyAdded(after, laid.text);
  expectCommentsKept(laid, after, isEmpty ? holderEntry : entry);
};

const removesRecords: Check = (laid, random) => {
  const records = laid.entries.filter(({ path }) => path.length === 1);
  if (records.length === 0) return;
  const entry = random.pick(records);
  const after = changed(removeRecord(laid.text, String(entry.path[0])));
  expect(secondReading(after)).toEqual(treeWith(laid.tree, entry.path, undefined));
  expectOnlyAdded(after, laid.text);
  expectCommentsKept(laid, after, entry);
  const [header] = laid.comments.filter(
    (comment) => !laid.text.slice(0, comment.at).includes('\n'),
  );
  if (header && header.at < entry.start && !entry.inFlow) expect(after).toContain(header.text);
};

function same(left: Path, right: Path): boolean {
  return left.length === right.length && left.every((step, index) => step === right[index]);
}

describe('2,000 random splices, each byte-compared and re-read by a second parser', () => {
  test.each([
    ['append a record', appends, 400],
    ['change a scalar', changesScalars, 500],
    ['add a field', addsFields, 250],
    ['add a list item', addsItems, 250],
    ['change any value to any other', changesValues, 250],
    ['remove a field or an item', removesFields, 250],
    ['remove a record', removesRecords, 250],
  ] as const)('%s', (name, check, numRuns) => {
    holds(
      fc.property(seeds, ({ seed, size }) => {
        const laid = layOut(seed, size);
        try {
          check(laid, randomSource(name, seed));
        } catch (error) {
          throw new Error(`in this file:\n${laid.text}\n`, { cause: error });
        }
      }),
      numRuns,
    );
  });
});
