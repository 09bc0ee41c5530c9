/** An ordinary sale is added by what is known of the studio, and looks just as if all had been read. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { add } from '../../src/commands/add.ts';
import { keepEnd, keptEnd, keptFindings } from '../../src/commands/kept-book.ts';
import type { BookEnd } from '../../src/entry/book-end.ts';
import { keptOfStudio, type KeptOfStudio } from '../../src/read/answers.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { folderOf, storeIn } from '../helpers/memory.ts';
import { exampleCopy, filesIn } from '../helpers/temp-studio.ts';

// On the last day of the book the mugs are counted by their glaze.
const DAY = '2026-07-01';
const SALE = ['sales', '--channel', 'door', '--line', '1 mug at 40'];
const DRY = { asOf: DAY, dryRun: true };

/** Past the disk's tick. */
function settle(): Promise<void> {
  return new Promise((done) => setTimeout(done, 30));
}

async function added(folder: string, words: readonly string[], options = {}): Promise<Said> {
  await settle();
  return run(add, folder, { words, options: { asOf: DAY, ...options } });
}

function keptOf(folder: string): KeptOfStudio {
  return keptOfStudio(folder, storeIn(folder));
}

/** A studio of which everything is known. */
async function knownStudio(): Promise<string> {
  const folder = exampleCopy();
  expect((await added(folder, SALE, DRY)).err).toBe('');
  return folder;
}

const MARKED = 9001;

/** Makes it show whether the next sale is taken from what is kept: so many mugs no studio has. */
async function mark(folder: string): Promise<void> {
  await settle();
  const kept = keptOf(folder);
  const known = keptEnd(kept, DAY);
  if (!known) throw new Error('nothing is kept');
  const pieces = known.held.pieces.map(([name]) => [name, MARKED] as const);
  keepEnd(kept, DAY, { ...known, held: { ...known.held, pieces } });
}

/** Whether nothing but what is kept was asked for what is left. */
function isQuick({ out }: Said): boolean {
  return out.includes(` ${String(MARKED)} → ${String(MARKED - 1)}\n`);
}

describe('a sale that is vouched for', () => {
  it('is taken from what is kept', async () => {
    const folder = await knownStudio();
    await mark(folder);
    expect(isQuick(await added(folder, SALE))).toBe(true);
  });

  it('is taken from it on a later day, too', async () => {
    const folder = await knownStudio();
    await mark(folder);
    const later = await added(folder, SALE, { asOf: '2026-07-20' });
    expect(isQuick(later)).toBe(true);
    expect(later.out).toContain('date: 2026-07-20');
    const next = await added(folder, SALE, { asOf: '2026-07-21' });
    expect(next.out).toContain(` ${String(MARKED - 1)} → `);
  });

  it('leaves everything known for the next one', async () => {
    const folder = await knownStudio();
    await mark(folder);
    await added(folder, SALE);
    expect((await added(folder, SALE)).out).toContain(` ${String(MARKED - 1)} → `);
  });

  it.each<[string, readonly string[]]>([
    ['as plain as can be', []],
    ['with words of all sorts', ['--buyer', 'a: b # c', '--note', "it's\nlate", '--paid', 'no']],
    ['with money of all sorts', ['--discount', '10%', '--shipping', '4.50', '--tax', '1.20']],
    ['of two lines', ['--line', '2 mug at 38 less 5%']],
  ])('is said, written and kept as after a look at the whole: %s', async (_, more) => {
    const [quick, whole] = [await knownStudio(), await knownStudio()];
    await added(quick, SALE);
    await added(whole, SALE);
    const words = [...SALE, ...more];
    rmSync(folderOf(storeIn(whole)), { recursive: true });
    for (const options of [DRY, {}])
      expect(await added(quick, words, options)).toEqual(await added(whole, words, options));
    expect(filesIn(quick)).toEqual(filesIn(whole));
    await settle();
    const known = (folder: string) => [
      keptFindings(keptOf(folder), DAY),
      keptEnd(keptOf(folder), DAY),
    ];
    expect(known(quick)).not.toContain(undefined);
    expect(known(quick)).toEqual(known(whole));
  });
});

describe('all of the studio is looked at', () => {
  it.each<[string, readonly string[], Record<string, string>]>([
    ['for a sale on an earlier day', ['--date', '2026-06-01'], {}],
    ['for one with an id of its own', [], { id: 'my-sale' }],
    ['for one of a lot', ['--line', '1 bowl lot p260301ab'], {}],
    ['for one that is more than there is', ['--line', '9000 mug at 1'], {}],
    ['for one that pays beforehand', ['--paid', '2026-06-01'], {}],
    ['for one with a fair', ['--fair', 'k260516dn'], {}],
  ])('%s', async (_, more, options) => {
    const folder = await knownStudio();
    await mark(folder);
    expect(isQuick(await added(folder, [...SALE, ...more], options))).toBe(false);
  });

  it('where an id is given that is taken, and nothing is written', async () => {
    const folder = await knownStudio();
    const before = filesIn(folder);
    const { status, err } = await added(folder, SALE, { id: 'S260310KR' });
    expect([status, err]).toEqual([
      1,
      expect.stringContaining('there is a record s260310kr already'),
    ]);
    expect(filesIn(folder)).toEqual(before);
  });

  it('once a file was changed from outside', async () => {
    const folder = await knownStudio();
    await mark(folder);
    await settle();
    const products = join(folder, 'products.yaml');
    writeFileSync(products, `${readFileSync(products, 'utf8')}\nplate-x: {}\n`);
    const { status, out, err } = await added(folder, SALE);
    expect([status, err]).toEqual([0, '']);
    expect(out).not.toContain(String(MARKED));
  });

  it('where the book has an error', async () => {
    const folder = exampleCopy();
    const products = join(folder, 'products.yaml');
    writeFileSync(products, `${readFileSync(products, 'utf8')}\nplate-x: {}\n`);
    await added(folder, SALE);
    expect(keptFindings(keptOf(folder), DAY)).toBeDefined();
    await mark(folder);
    expect(isQuick(await added(folder, SALE))).toBe(false);
  });

  it.each([
    ['cut off', (text: string) => text.slice(0, -20)],
    ['changed', (text: string) => text.replace('"ids"', '"idz"')],
    ['empty', () => ''],
  ])('where what is kept is %s', async (_, damage) => {
    const folder = await knownStudio();
    await mark(folder);
    const answers = folderOf(storeIn(folder));
    for (const name of readdirSync(answers)) {
      const text = readFileSync(join(answers, name), 'utf8');
      if (text.includes('\\"end\\"')) writeFileSync(join(answers, name), damage(text));
    }
    const said = await added(folder, SALE);
    expect(said.status).toBe(0);
    expect(isQuick(said)).toBe(false);
  });

  it.each([
    ['a day that is none', { day: 1 }],
    ['no list', { bound: 'mug' }],
    ['no ids', { ids: undefined }],
    ['no day from which on it holds', { settled: undefined }],
    ['no holdings', { uncounted: true }],
  ])('where %s is kept of where the book ends', async (_, odd) => {
    const folder = await knownStudio();
    await mark(folder);
    const known = keptEnd(keptOf(folder), DAY);
    expect(known).toBeDefined();
    const end = { ...known?.end, ...odd } as unknown as BookEnd;
    if (known) keepEnd(keptOf(folder), DAY, { ...known, end });
    expect(isQuick(await added(folder, SALE))).toBe(false);
  });

  it('and a record elsewhere that does not fit any more is put down to the new one', async () => {
    const folder = await knownStudio();
    const { status, err } = await added(folder, [...SALE, '--date', '2026-01-03']);
    expect(status).toBe(1);
    expect(err).toMatch(
      /^With this sale of 2026-01-03 in the book, another record does not fit any more:\nsales\/2026-03\.yaml:/,
    );
    expect(err).toContain('date: 2026-01-03\nchannel: door\n');
    const tooMany = await added(folder, ['sales', '--channel', 'door', '--line', '9000 mug at 1']);
    expect(tooMany.err).not.toContain('With this sale');
  });
});
