import { cpSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../src/book.ts';
import { idsIn, type KnownId } from '../../src/read/kept/ids.ts';
import { NO_MEMORY, openMemory } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { storeIn } from '../helpers/memory.ts';
import { exampleCopy, tempStudio } from '../helpers/temp-studio.ts';
import { plainly } from './support/readers.ts';
import { takeIn } from '../../src/check/taken.ts';

const STAMP = 'ids';

/** What the whole reader finds, and whether it leaves a cache behind. */
async function readAll(folder: string, cache: boolean): Promise<KnownId[]> {
  const reading = await readStudio(folder, {
    memory: cache ? openMemory(folder, storeIn(folder, STAMP)) : NO_MEMORY,
  });
  if ('refused' in reading) throw new Error(reading.refused);
  reading.remember(takeIn(reading).clean);
  reading.memory.save();
  return KINDS.flatMap((kind) =>
    reading.files
      .filter((file) => file.kind === kind)
      .flatMap(({ root, file }) => Object.keys(root).map((id) => ({ kind, id, file }))),
  );
}

describe('the ids of a studio', () => {
  test('are those that the whole reader finds, without a cache and with one', async () => {
    const folder = exampleCopy();
    const all = await readAll(folder, false);
    expect(all.length).toBeGreaterThan(300);
    expect(idsIn(folder, { store: storeIn(folder, STAMP), kinds: KINDS }).ids).toEqual(all);
    await readAll(folder, true);
    expect(idsIn(folder, { store: storeIn(folder, STAMP), kinds: KINDS }).ids).toEqual(all);
    expect(idsIn(folder, { store: storeIn(folder, 'another program'), kinds: KINDS }).ids).toEqual(
      all,
    );
  });

  test('are of the kinds that are asked for', async () => {
    const folder = exampleCopy();
    const all = await readAll(folder, true);
    expect(idsIn(folder, { store: storeIn(folder, STAMP), kinds: ['sales', 'kilns'] }).ids).toEqual(
      ['sales', 'kilns'].flatMap((kind) => all.filter((each) => each.kind === kind)),
    );
    expect(idsIn(folder, { store: storeIn(folder, STAMP), kinds: [] }).ids).toEqual([]);
    expect(
      idsIn(folder, { store: storeIn(folder, STAMP), kinds: KINDS, start: 's2606' }).ids,
    ).toEqual(all.filter(({ id }) => id.startsWith('s2606')));
  });

  test('are as the files are now, where the cache is of before', async () => {
    const folder = exampleCopy();
    const all = await readAll(folder, true);
    const file = join(folder, 'sales/2026-06.yaml');
    writeFileSync(file, 'new-one:\n  date: 2026-06-30\n# more\nnew-two: {}\nnew-two: {}\n');
    const sales = idsIn(folder, { store: storeIn(folder, STAMP), kinds: ['sales'] }).ids.map(
      ({ id }) => id,
    );
    expect(sales.slice(-2)).toEqual(['new-one', 'new-two']);
    expect(sales.length).toBeLessThan(all.filter(({ kind }) => kind === 'sales').length);
    rmSync(file);
    expect(
      idsIn(folder, { store: storeIn(folder, STAMP), kinds: ['sales'] }).ids.map(({ id }) => id),
    ).toEqual(sales.slice(0, -2));
  });

  test('are found through links, and of what can be read alone', () => {
    const folder = tempStudio({ 'used/here.yaml': 'u1:\n', 'spent.yaml': 'e1:\n' });
    symlinkSync('here.yaml', join(folder, 'used/there.yaml'));
    writeFileSync(join(folder, 'spent.yaml'), Buffer.from([0xff, 0xfe, 0x31]));
    cpSync(join(folder, 'used/here.yaml'), join(folder, 'tests.yaml'));
    expect(idsIn(folder, { store: storeIn(folder, STAMP), kinds: KINDS }).ids).toEqual([
      { kind: 'used', id: 'u1', file: 'used/here.yaml' },
      { kind: 'tests', id: 'u1', file: 'tests.yaml' },
    ]);
  });

  test('lead to what is in their files, known or read anew', async () => {
    const folder = exampleCopy();
    await readAll(folder, true);
    writeFileSync(
      join(folder, 'spent.yaml'),
      'e1: { note: scanned }\ne2:\n  note: |\n    parsed\n',
    );
    writeFileSync(join(folder, 'used.yaml'), 'u1: { note: scanned }\n');
    const { ids, contentOf } = idsIn(folder, { store: storeIn(folder, STAMP), kinds: KINDS });
    const reading = await readStudio(folder, { memory: NO_MEMORY });
    const files = 'files' in reading ? reading.files : [];
    const named = new Set(ids.map(({ file }) => file));
    expect([...named]).toEqual(expect.arrayContaining(['spent.yaml', 'used.yaml', 'kilns.yaml']));
    for (const { file, root } of files.filter((each) => named.has(each.file)))
      expect(plainly(await contentOf(file))).toEqual(plainly(root));
    rmSync(join(folder, 'used.yaml'));
    expect(Object.keys(await contentOf('used.yaml'))).toEqual([]);
  });
});
