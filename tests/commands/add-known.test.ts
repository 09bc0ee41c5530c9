/** A record is added by what is known of the studio, and looks just as if all had been read. */
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import type { Asked } from '../../src/commands/world.ts';
import { openMemory } from '../../src/read/kept/memory.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { storeIn } from '../helpers/memory.ts';
import { exampleCopy, filesIn } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

// On the last day of the book the mugs are counted by their glaze.
const DAY = '2026-07-01';
const SALE = ['sales', '--channel', 'door', '--line', '1 mug oatmeal at 40'];
const DRY = { dryRun: true };

/** Sales of all sorts, of which some are written. */
const MORE: readonly (readonly [more: readonly string[], options: Asked['options']])[] = [
  [[], { id: 'one-more' }],
  [['--buyer', 'a: b # c', '--note', "it's\nlate", '--paid', 'no'], DRY],
  [['--discount', '10%', '--shipping', '4.50', '--tax', '1.20'], DRY],
  [['--line', '2 mug oatmeal at 38 less 5%'], {}],
  [[], { ...DRY, asOf: '2026-07-20' }],
  [['--date', '2026-06-01'], DRY],
  [['--line', '1 bowl lot p260301ab'], DRY],
  [['--line', '1 mug at 40'], DRY],
  [['--line', '9000 mug oatmeal at 1'], {}],
  [['--paid', '2026-06-01'], DRY],
  [['--fair', 'k260516dn'], DRY],
];

function added(folder: string, words: readonly string[], options = {}): Promise<Said> {
  return run(add, folder, { words, options: { asOf: DAY, ...options } });
}

/** The same where nothing is remembered. */
function addedAnew(folder: string, words: readonly string[], options = {}): Promise<Said> {
  return run(add, folder, { words, options: { asOf: DAY, ...options }, memory: 'none' });
}

function knownOf(folder: string, name: string): readonly unknown[] {
  const known = openMemory(folder, storeIn(folder)).recallMore(name) as object | undefined;
  return Object.values(known ?? {});
}

/** A studio of which everything is known. */
async function knownStudio(): Promise<string> {
  const folder = exampleCopy();
  expect((await added(folder, SALE)).err).toBe('');
  expect(knownOf(folder, 'found')).not.toEqual([]);
  expect(knownOf(folder, 'months')).not.toEqual([]);
  return folder;
}

/** The same of which nothing is known. */
async function otherStudio(): Promise<string> {
  const folder = exampleCopy();
  expect((await addedAnew(folder, SALE)).err).toBe('');
  return folder;
}

describe('a sale that is added to a studio that is known', () => {
  it('is said and written as after a look at the whole, whatever it is', async () => {
    const [known, other] = [await knownStudio(), await otherStudio()];
    for (const [more, options] of some(MORE, 8)) {
      const words = [...SALE, ...more];
      const said = await added(known, words, options);
      expect(said, more.join(' ')).toEqual(await addedAnew(other, words, options));
    }
    expect(filesIn(known)).toEqual(filesIn(other));
  });

  it('is refused where its id is taken, and nothing is written', async () => {
    const folder = await knownStudio();
    const before = filesIn(folder);
    const { status, err } = await added(folder, SALE, { id: 'S260310KR' });
    expect([status, err]).toEqual([
      1,
      expect.stringContaining('there is a record s260310kr already'),
    ]);
    expect(filesIn(folder)).toEqual(before);
  });

  it('sees what has come into a file from outside', async () => {
    const [known, other] = [await knownStudio(), await otherStudio()];
    for (const text of ['\n# a word\n', '\nplate-x: {}\n', '\n  - : [\n']) {
      for (const folder of [known, other]) appendFileSync(join(folder, 'products.yaml'), text);
      expect(await added(known, SALE, DRY), text).toEqual(await addedAnew(other, SALE, DRY));
    }
  });

  it('and what does not fit any more elsewhere is told as coming of it', async () => {
    const folder = await knownStudio();
    const { status, err } = await added(folder, [...SALE, '--date', '2026-01-03']);
    expect(status).toBe(1);
    expect(err).toMatch(
      /^With this sale of 2026-01-03 in the book, another record does not fit any more:\nsales\/2026-03\.yaml:/,
    );
    expect(err).toContain('date: 2026-01-03\nchannel: door\n');
    const tooMany = await added(folder, [
      'sales',
      '--channel',
      'door',
      '--line',
      '9000 mug oatmeal at 1',
    ]);
    expect(tooMany.err).not.toContain('With this sale');
  });
});
