/** Whatever stands where things are remembered, or looks like it in a studio: nothing comes out otherwise. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { day } from '../../src/commands/reports/day.ts';
import { review } from '../../src/commands/review/review.ts';
import type { Asked, Command } from '../../src/commands/world.ts';
import { holds } from '../helpers/law.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { EACH_DAMAGE, damage, damageAll, damages } from '../helpers/forged-memory.ts';
import { forge, forgeries } from '../helpers/forged-parts.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { HILL_STREET } from '../helpers/hill-street.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const income = await loadCommand('income');
const materials = await loadCommand('materials');

type Ask = readonly [Command<never>, readonly string[], Asked['options']];

const DAY = '2026-05-01';
const OF_A_MONTH = /^\d{4}-\d\d /;
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
  for (const [command, words, options] of wanted) {
    const told = { words, options: { asOf: DAY, ...options } };
    said.push(await run(command, folder, told));
  }
  return said;
}

/** The studio with all that is remembered of it, and what is said without any memory. */
async function known(): Promise<{ folder: string; memory: string; expected: Said[] }> {
  const folder = studio();
  const expected = await asked(folder);
  expect(expected.map(({ status }) => status)).toEqual([1, 1, 1, 1, 1, 1, 0]);
  const store = storeIn(folder);
  expect(namesIn(store).length).toBeGreaterThan(2);
  return { folder, memory: folderOf(store), expected };
}

describe('a memory that was damaged or forged', () => {
  it.each(EACH_DAMAGE)('with every file %s changes nothing', async (what) => {
    const { folder, memory, expected } = await known();
    damageAll(memory, what);
    expect(await asked(folder)).toEqual(expected);
    expect(await asked(folder)).toEqual(expected);
  });

  it('by chance changes nothing', async () => {
    const { folder, memory, expected } = await known();
    const good = `${memory}-good`;
    cpSync(memory, good, { recursive: true });
    const someAsked = fc.subarray(
      ASKED.map((_, index) => index),
      { minLength: 1, maxLength: 2 },
    );
    await holds(
      fc.asyncProperty(damages, someAsked, async (done, which) => {
        rmSync(memory, { recursive: true, force: true });
        cpSync(good, memory, { recursive: true });
        damage(memory, done);
        const some = which.flatMap((index) => ASKED.slice(index, index + 1));
        expect(await asked(folder, some)).toEqual(which.map((index) => expected[index]));
      }),
      6,
      { long: 200 },
    );
    rmSync(good, { recursive: true });
  });

  it('in parts of a wrong form, though of the right digest, changes nothing', async () => {
    const { folder, memory, expected } = await known();
    const good = `${memory}-good`;
    cpSync(memory, good, { recursive: true });
    const ofAsked = fc.nat(ASKED.length - 1);
    await holds(
      fc.asyncProperty(forgeries, ofAsked, async (forgery, at) => {
        rmSync(memory, { recursive: true, force: true });
        cpSync(good, memory, { recursive: true });
        const part = forge(storeIn(folder), forgery);
        const [said] = await asked(folder, ASKED.slice(at, at + 1));
        // Nobody looks at each number of all that happened in a month.
        if (!OF_A_MONTH.test(part)) expect(said).toEqual(expected[at]);
        expect(said?.status).toBe(expected[at]?.status);
      }),
      12,
      { long: 1100 },
    );
    rmSync(good, { recursive: true });
  });

  it('in parts of a wrong form, writes a record once', async () => {
    const { folder, memory } = await known();
    const good = `${memory}-good`;
    cpSync(memory, good, { recursive: true });
    const file = join(folder, 'sales.yaml');
    const before = readFileSync(file, 'utf8');
    const sale: Ask = [add, SALE, {}];
    const [expected] = await asked(folder, [sale]);
    expect(expected?.out).toContain('Added s260420bb to sales.yaml.');
    const after = readFileSync(file, 'utf8');
    await holds(
      fc.asyncProperty(forgeries, async (forgery) => {
        rmSync(memory, { recursive: true, force: true });
        cpSync(good, memory, { recursive: true });
        writeFileSync(file, before);
        const part = forge(storeIn(folder), forgery);
        const [said] = await asked(folder, [sale]);
        if (!OF_A_MONTH.test(part)) expect(said).toEqual(expected);
        expect(readFileSync(file, 'utf8')).toBe(after);
      }),
      6,
      { long: 200 },
    );
    rmSync(good, { recursive: true });
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
    // The commit is what is asked of there, and not the folder.
    expect(now[1]?.err).toBe('');
    expect(now.map(({ status }) => status)).toEqual(expected.map(({ status }) => status));
    const [here, there, ...others] = now;
    expect([here?.out, there?.out]).toEqual([expected[0]?.out, expected[1]?.out]);
    // What is committed of it is told by none of the others.
    expect(others.map(({ err }) => err)).toEqual(expected.slice(2).map(({ err }) => err));
    expect(others[3]?.out).toContain('1 new error');
    expect(existsSync(leftover)).toBe(true);
  });
});
