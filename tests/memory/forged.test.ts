/** Whatever stands where things are remembered, or looks like it in a studio: nothing comes out otherwise. */
import { cpSync, existsSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/check.ts';
import { add } from '../../src/commands/add.ts';
import { day } from '../../src/commands/day.ts';
import { income } from '../../src/commands/income.ts';
import { materials } from '../../src/commands/materials.ts';
import { review } from '../../src/commands/review.ts';
import type { Asked, Command } from '../../src/commands/world.ts';
import { writeAnswer } from '../../src/read/kept.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { EACH_DAMAGE, damage, damageAll, damages } from '../helpers/forged-memory.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { HILL_STREET } from '../helpers/hill-street.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

type Ask = readonly [Command, readonly string[], Asked['options']];

const DAY = '2026-05-01';
const SALE = ['sales', '--channel', 'door', '--line', '1 mug at 30', '--date', '2026-04-20'];

/** What is asked of a studio: of its files, of a commit, of both, and a record to add. */
const ASKED: readonly Ask[] = [
  [check, [], {}],
  [check, [], { at: 'HEAD' }],
  [materials, [], {}],
  [income, [], { as: 'json', year: '2026' }],
  [day, [], {}],
  [review, ['main'], {}],
  [add, SALE, { dryRun: true }],
];

/** A studio on a branch, with a fault that has come with it. */
function studio(): string {
  const folder = inGit(tempStudio(HILL_STREET));
  git(folder, 'branch', '-M', 'main');
  git(folder, 'checkout', '-qb', 'work');
  const [sales = ''] = [HILL_STREET['sales.yaml']];
  writeFileSync(
    join(folder, 'sales.yaml'),
    `${sales}s4: { date: 2026-03-14, channel: dor, lines: [] }\n`,
  );
  commitAll(folder, 'Sell');
  return folder;
}

async function asked(folder: string, wanted: readonly Ask[] = ASKED): Promise<Said[]> {
  const said: Said[] = [];
  for (const [command, words, options] of wanted)
    said.push(await run(command, folder, { words, options: { asOf: DAY, ...options } }));
  return said;
}

/** Answers, of which some may have fallen on one place: which one goes by the number of the folder. */
function answersOf(folder: string): number {
  const stores = [storeIn(folder), storeIn(join(folder, '.git'))];
  return stores.flatMap(namesIn).filter((name) => /^(?:answer|commit)-/.test(name)).length;
}

/** So many answers are kept of what is asked. */
const ANSWERS = 6;
const TRIES = 8;

/** A studio of which every answer has found a place of its own, and what is said of it. */
async function askedStudio(): Promise<{ folder: string; expected: Said[] }> {
  let found = { folder: '', expected: [] as Said[] };
  for (let most = 0, tries = 0; tries < TRIES && most < ANSWERS; tries += 1) {
    const folder = studio();
    found = { folder, expected: await asked(folder) };
    most = answersOf(folder);
  }
  return found;
}

/** The studio with all that is remembered of it, and what is said without any memory. */
async function known(): Promise<{
  folder: string;
  memory: string;
  commits: string;
  expected: Said[];
}> {
  const { folder, expected } = await askedStudio();
  expect(expected.map(({ status }) => status)).toEqual([1, 1, 1, 1, 1, 1, 0]);
  const [own, ofCommits] = [storeIn(folder), storeIn(join(folder, '.git'))];
  expect(namesIn(own).length).toBeGreaterThan(3);
  expect(namesIn(ofCommits).length).toBeGreaterThan(1);
  return { folder, memory: folderOf(own), commits: folderOf(ofCommits), expected };
}

describe('a memory that was damaged or forged', () => {
  it.each(EACH_DAMAGE)('with every file %s changes nothing', async (what) => {
    const { folder, memory, commits, expected } = await known();
    damageAll(memory, what);
    damageAll(commits, what);
    expect(await asked(folder)).toEqual(expected);
    expect(await asked(folder)).toEqual(expected);
  });

  it('by chance changes nothing', async () => {
    const { folder, memory, commits, expected } = await known();
    const good = [memory, commits].map((each) => [each, `${each}-good`] as const);
    for (const [from, to] of good) cpSync(from, to, { recursive: true });
    const someAsked = fc.subarray(
      ASKED.map((_, index) => index),
      { minLength: 1, maxLength: 2 },
    );
    await fc.assert(
      fc.asyncProperty(damages, someAsked, async (done, which) => {
        for (const [to, from] of good) {
          rmSync(to, { recursive: true, force: true });
          cpSync(from, to, { recursive: true });
          damage(to, done);
        }
        const some = which.flatMap((index) => ASKED.slice(index, index + 1));
        expect(await asked(folder, some)).toEqual(which.map((index) => expected[index]));
      }),
      { numRuns: 40 },
    );
    for (const [, copy] of good) rmSync(copy, { recursive: true });
  });

  it.each<[string, unknown]>([
    ['a number', 7],
    ['nothing', null],
    ['a text', 'no problems'],
    ['a list of numbers', [1, 2]],
    ['a list of nothing', [null]],
    ['a list of things that are no findings', [{ rule: 1, at: { file: 2 } }]],
    [
      'an object',
      { text: 5, errors: 'none', end: { day: 1 }, held: [], stock: [[1]], pieces: [0] },
    ],
    ['half a finding', [{ rule: 'schema', severity: 'error', message: 'a', hint: 'b', at: {} }]],
    ['holdings of a wrong form', { stock: [['clay', 'kg', 'much']], pieces: [['mug', '3']] }],
    ['figures of a wrong form', [{ figure: 'income', of: 'x', type: 'money', value: 'much' }]],
  ])('with %s for each answer ends no command', async (_, answer) => {
    const { folder, expected } = await known();
    let count = 0;
    for (const store of [storeIn(folder), storeIn(join(folder, '.git'))])
      for (const name of namesIn(store).filter((each) => /^(?:answer|commit)-/.test(each))) {
        const [, question = ''] = (store.read(name) ?? '').toString().split('\n');
        writeAnswer(store, name, { question, answer });
        count += 1;
      }
    expect(count).toBeGreaterThan(5);
    expect(await asked(folder)).toEqual(expected);
  });

  it.each<[string, (memory: string) => void]>([
    [
      'a file',
      (memory) => {
        writeFileSync(memory, '');
      },
    ],
    [
      'a link to another memory',
      (memory) => {
        symlinkSync(dirname(memory), memory);
      },
    ],
    [
      'a link that leads nowhere',
      (memory) => {
        symlinkSync('/nowhere/at/all', memory);
      },
    ],
  ])('with %s in place of its folder changes nothing', async (_, put) => {
    const { folder, memory, expected } = await known();
    rmSync(memory, { recursive: true });
    put(memory);
    const [first, ...others] = await asked(folder);
    expect({ ...first, err: '' }).toEqual({ ...expected[0], err: '' });
    expect(first?.err).toContain('nothing is remembered between runs');
    expect(others.slice(1)).toEqual(expected.slice(2));
    rmSync(memory);
  });
});

describe('what a branch brings under .saggar', () => {
  /** As an earlier version kept it, by a checksum that has no secret. */
  function oldAnswer(question: string, answer: unknown): string {
    const json = JSON.stringify(answer);
    return [oldSum(json), question, json].join('\n');
  }

  function oldSum(text: string): string {
    let sum = 0x811c9dc5;
    for (const unit of text.split('')) sum = Math.imul(sum ^ unit.charCodeAt(0), 0x01000193);
    return (sum >>> 0).toString(16).padStart(8, '0');
  }

  it('is ignored, and named by check once', async () => {
    const { folder, expected } = await known();
    const [memory, leftover] = [folderOf(storeIn(folder)), join(folder, '.saggar')];
    rmSync(memory, { recursive: true });
    await asked(folder);
    cpSync(memory, leftover, { recursive: true });
    rmSync(memory, { recursive: true });
    const id = git(folder, 'rev-parse', 'HEAD').trim();
    mkdirSync(join(leftover, 'commits'));
    const files = git(folder, 'ls-tree', '-r', '-z', 'HEAD')
      .split('\0')
      .filter((line) => line.endsWith('.yaml'))
      .map((line) => [line.split('\t')[1] ?? '', line.split(/[ \t]/)[2] ?? '']);
    const sum = oldSum(files.flat().join('\n'));
    const words = JSON.stringify(['findings', DAY]);
    const question = JSON.stringify(['', id, '', sum, words]);
    const place = parseInt(oldSum(question), 16) % 64;
    writeFileSync(join(leftover, 'commits', `commit-${String(place)}`), oldAnswer(question, []));
    git(folder, 'add', '-Af');
    git(folder, 'commit', '-qm', 'More');
    git(folder, 'reset', '-q', '--soft', 'HEAD~1');
    const now = await asked(folder);
    expect(now[0]?.err).toMatch(/\.saggar is left over .* safe to delete\n$/);
    expect(now[1]?.err).toBe(now[0]?.err);
    expect(now.map(({ status }) => status)).toEqual(expected.map(({ status }) => status));
    const [here, there, ...others] = now;
    expect([here?.out, there?.out]).toEqual([expected[0]?.out, expected[1]?.out]);
    // What is committed of it is told by none of the others.
    expect(others.map(({ err }) => err)).toEqual(expected.slice(2).map(({ err }) => err));
    expect(others[3]?.out).toContain('1 new error');
    expect(existsSync(leftover)).toBe(true);
  });
});
