/** How many slips of the hand are found, and how many honest records are asked about. */
import { expect, test } from 'vitest';
import { finishBook } from '../../../src/check/draft.ts';
import { foundIn } from '../../../src/check/looking.ts';
import { NOTHING_UNSOUND } from '../../../src/check/rule.ts';
import { DOUBTS, RULES } from '../../../src/check/rules.ts';
import { takeIn } from '../../../src/check/taken.ts';
import type { Finding } from '../../../src/problem.ts';
import { NO_MEMORY } from '../../../src/read/kept/memory.ts';
import { isMap, type RawFile } from '../../../src/read/raw.ts';
import { readStudio } from '../../../src/read/read.ts';
import { checkStudio } from '../../helpers/check-studio.ts';
import { randomSource } from '../../helpers/random-source.js';
import { slippable, slipped, withText, type Slippable } from '../../helpers/slips.ts';
import { cases, some } from '../../helpers/tier.ts';
import { withStudio } from '../../helpers/write-studio.ts';
import { grow } from '../../bench/grow.js';

/** A figure, and what was typed in its place. */
interface Slip {
  readonly figure: Slippable;
  readonly typed: string;
}

const RULES_OF_DOUBT = RULES.filter(({ name }) => DOUBTS.has(name));
const NOTHING_SHORT = { of: () => [], early: [], after: () => [] };
const DAY = '2026-06-30';

/** Studios of honest records: the example, and those of old. */
const HONEST = ['example', 'grown-usd', 'grown-jpy', 'grown-kwd'].map(
  (name) => `tests/old-studios/${name}/studio`,
);

function doubtsIn(files: readonly RawFile[]): readonly Finding[] {
  const taken = takeIn({ files, findings: [], coreOf: () => undefined });
  const judging = {
    rules: RULES_OF_DOUBT,
    book: finishBook(taken.draft),
    unsound: NOTHING_UNSOUND,
  };
  return foundIn(judging, { day: DAY, shortBeside: () => NOTHING_SHORT });
}

async function filesIn(folder: string): Promise<readonly RawFile[]> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return reading.files;
}

/** Studios grown for measuring, of two years each: their records are honest. */
const SEEDS = some([2, 3, 4, 5], 1);

function grownIn(seed: number): Promise<readonly RawFile[]> {
  const grown = [...grow({ years: 2, seed })].map(({ path, text }) => [path, text] as const);
  return withStudio(Object.fromEntries(grown), filesIn);
}

function countOf(files: readonly RawFile[]): number {
  return files.flatMap(({ root }) => Object.keys(root)).length;
}

test('the example studio is asked about nothing, and of honest records one in 500 at the most', async () => {
  expect(doubtsIn(await filesIn('example-studio'))).toEqual([]);
  const studios = await Promise.all(HONEST.map(filesIn));
  const doubted = studios.flatMap(doubtsIn);
  expect(doubted.length).toBeLessThanOrEqual(countOf(studios.flat()) / 500);
});

test.each(SEEDS)(
  'of a grown studio with seed %i one record in 500 is asked about at the most',
  async (seed) => {
    const files = await grownIn(seed);
    const records = countOf(files);
    expect(records).toBeGreaterThan(5000);
    expect(doubtsIn(files).length).toBeLessThanOrEqual(records / 500);
  },
);

/** Slips of one figure each, where five or more others like it are on record. */
function someSlips(files: readonly RawFile[], most: number): readonly Slip[] {
  const random = randomSource(20, 'slips');
  const known = slippable(files).filter(({ others }) => others >= 5);
  const figures = random.shuffle(known).slice(0, most);
  return figures.map((figure) => ({ figure, typed: slipped(figure.text, random.chance(0.5)) }));
}

function isMissed(files: readonly RawFile[], { figure, typed }: Slip): boolean {
  const found = doubtsIn(withText(files, figure, typed));
  return !found.some(({ rule, at }) => rule === figure.rule && isThere(at, figure));
}

const STUDIOS = [
  { name: 'the example', read: () => filesIn('example-studio'), most: cases(100, 1000) },
  { name: 'a grown studio', read: () => grownIn(2), most: cases(25, 1000) },
];

test.each(STUDIOS)(
  'of ten-fold slips either way 98 of 100 are found in $name where five or more others are on record',
  async ({ read, most }) => {
    const files = await read();
    const slips = someSlips(files, most);
    const missed = slips.filter((slip) => isMissed(files, slip));
    expect(slips.length).toBeGreaterThanOrEqual(Math.min(most, 500));
    expect(missed.length).toBeLessThanOrEqual(slips.length / 50);
  },
);

function isThere(at: Finding['at'], { file, path }: { file: string; path: readonly unknown[] }) {
  return 'path' in at && at.file === file && at.path.join('\n') === path.join('\n');
}

/** The example with one price ten times too large, and what its record answers. */
async function withAnswer(price: string, answer?: string): Promise<readonly string[]> {
  const files = await filesIn('example-studio');
  const file = files.find((each) => each.file === 'sales/2026-05.yaml');
  const slip = slippable(file ? [file] : []).find(({ rule }) => rule === 'price-slip');
  if (!slip) throw new Error('no price in that month');
  const id = String(slip.path[0]);
  const changed = withText(files, slip, price).map((each) => {
    const record = each.root[id];
    if (each.file !== slip.file || answer === undefined || !isMap(record)) return each;
    const answered = { ...record, checked: { 'price-slip': answer } };
    return { ...each, root: { ...each.root, [id]: answered } };
  });
  const reading = { files: changed, findings: [], coreOf: () => undefined };
  return checkStudio(reading, DAY)
    .findings.filter(({ rule }) => rule === 'price-slip')
    .map(({ hint }) => hint);
}

test('an answer holds for the figure that it names, and for no other', async () => {
  const [asked = ''] = await withAnswer('900.00');
  expect(asked).toContain('add checked: { price-slip: "900.00: your reason" }');
  expect(await withAnswer('900.00', '900.00: the big one')).toEqual([]);
  expect(await withAnswer('900', '900.00: the big one')).toEqual([]);
  const [again = ''] = await withAnswer('950.00', '900.00: the big one');
  expect(again).toContain('write price-slip: "950.00: your reason"');
  expect(await withAnswer('900.00', 'the big one')).toHaveLength(1);
});
