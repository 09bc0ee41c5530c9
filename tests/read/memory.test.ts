import {
  existsSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openMemory } from '../../src/read/kept/memory.ts';
import type { RawMap } from '../../src/read/raw.ts';
import type { StudioReading } from '../../src/read/read.ts';
import { folderWith, put } from './support/folder.ts';
import { outline } from './support/outline.ts';
import { holds } from '../helpers/law.ts';
import { folderOf, memoryForTests, namesIn, storeIn } from '../helpers/memory.ts';
import {
  FILES,
  STUDIO,
  UNREMEMBERED,
  keep,
  read,
  remembered,
  remembering,
} from './support/studio.ts';
import { mistypedText } from './support/studio-text.ts';

function cleanFiles(reading: StudioReading): string[] {
  return reading.files.filter(({ known }) => known).map(({ file }) => file);
}

describe('what was remembered', () => {
  test('is read again, the same, and known to be clean', async () => {
    const folder = await remembered();
    const reading = await read(folder);
    expect(cleanFiles(reading)).toEqual(FILES);
    expect(outline(reading)).toEqual(outline(await read(folder, UNREMEMBERED)));
  });

  test('is only what was clean', async () => {
    const folder = await remembered(STUDIO, ['spent.yaml', 'sales/2026-03.yaml']);
    expect(cleanFiles(await read(folder))).toEqual(['sales/2026-04.yaml', 'studio.yaml']);
  });

  test('is never a file with faults, even if it is called clean', async () => {
    const folder = await remembered({ ...STUDIO, 'used.yaml': 'u8: "x\nu9: {date: 2026-01-01}\n' });
    const reading = await read(folder);
    expect(cleanFiles(reading)).not.toContain('used.yaml');
    expect(reading.findings).toHaveLength(1);
  });

  test('is not what was read without a cache', async () => {
    const folder = folderWith(STUDIO);
    const reading = await read(folder, UNREMEMBERED);
    keep(reading, FILES);
    expect(cleanFiles(await read(folder))).toEqual([]);
    expect(readdirSync(folder)).not.toContain('.saggar');
  });

  test('is not what another version remembered', async () => {
    const folder = await remembered();
    expect(cleanFiles(await read(folder, remembering(folder, 'v2')))).toEqual([]);
  });

  test('is not used without the cache', async () => {
    const folder = await remembered();
    expect(cleanFiles(await read(folder, UNREMEMBERED))).toEqual([]);
  });

  test('is not written again as long as nothing changes', async () => {
    const folder = await remembered();
    const store = storeIn(folder, 'v1');
    const stateOf = (name: string): unknown => {
      const { ino, mtimeMs } = statSync(join(folderOf(store), name));
      return { name, ino, mtimeMs };
    };
    const before = namesIn(store).map(stateOf);
    keep(await read(folder));
    expect(namesIn(store).map(stateOf)).toEqual(before);
    expect(before.length).toBeGreaterThan(1);
    expect(readdirSync(folder)).not.toContain('.saggar');
  });

  test.each<[string, number, boolean]>([
    ['three seconds after', 3001, true],
    ['less than that after', 2990, false],
    ['by a clock that is slow', -5000, false],
  ])('is what was changed before it was read, %s', async (_, after, isKept) => {
    const folder = folderWith(STUDIO);
    put(folder, 'spent.yaml', 'x1: {amount: 1}\n');
    const { mtimeMs } = statSync(`${folder}/spent.yaml`);
    const place = { ...memoryForTests(), clock: () => mtimeMs + after };
    const reading = await read(folder, {
      memory: openMemory(folder, storeIn(folder, 'v1', place)),
    });
    keep(reading, FILES);
    expect(cleanFiles(await read(folder)).includes('spent.yaml')).toBe(isKept);
  });

  test('is not what will have been changed an hour from now', async () => {
    const folder = folderWith(STUDIO);
    const future = new Date(Date.now() + 3_600_000);
    utimesSync(`${folder}/spent.yaml`, future, future);
    keep(await read(folder), FILES);
    expect(cleanFiles(await read(folder))).toEqual(FILES.filter((file) => file !== 'spent.yaml'));
  });

  test('does not hold for a link', async () => {
    const folder = folderWith({ '.store/sales.yaml': 's1: {date: 2026-01-01}\n' });
    symlinkSync('.store/sales.yaml', `${folder}/sales.yaml`);
    keep(await read(folder), ['sales.yaml']);
    put(folder, '.store/sales.yaml', 's1: {date: 2026-01-02}\n');
    const [file] = (await read(folder)).files;
    expect(file?.known).toBeUndefined();
    expect(file).toMatchObject({ root: { s1: { date: '2026-01-02' } } });
  });
});

describe('a change is seen', () => {
  /** The sales of April as they were, of another day. */
  function aprilOf(day: string): string {
    return (STUDIO['sales/2026-04.yaml'] ?? '').replace('2026-04-01', day);
  }

  /** The days of what is in the file of April, by their ids. */
  async function salesAfter(folder: string): Promise<unknown> {
    const reading = await read(folder);
    expect(outline(reading)).toEqual(outline(await read(folder, UNREMEMBERED)));
    const april = reading.files.find(({ file }) => file === 'sales/2026-04.yaml');
    const sales = Object.entries(april?.root ?? {}) as [string, RawMap][];
    return april && Object.fromEntries(sales.map(([id, sale]) => [id, sale['date']]));
  }

  test('of the content with the size and the time put back', async () => {
    const folder = await remembered();
    const path = `${folder}/sales/2026-04.yaml`;
    const { atime, mtime } = statSync(path);
    writeFileSync(path, aprilOf('2026-04-02'));
    utimesSync(path, atime, mtime);
    expect(await salesAfter(folder)).toEqual({ s3: '2026-04-02' });
  });

  test('of a file put in its place', async () => {
    const folder = await remembered();
    put(folder, 'new.txt', aprilOf('2026-04-03'));
    renameSync(`${folder}/new.txt`, `${folder}/sales/2026-04.yaml`);
    expect(await salesAfter(folder)).toEqual({ s3: '2026-04-03' });
  });

  test('when two files change places', async () => {
    const folder = await remembered();
    renameSync(`${folder}/sales/2026-03.yaml`, `${folder}/x`);
    renameSync(`${folder}/sales/2026-04.yaml`, `${folder}/sales/2026-03.yaml`);
    renameSync(`${folder}/x`, `${folder}/sales/2026-04.yaml`);
    expect(await salesAfter(folder)).toEqual({ s1: '2026-03-08', s2: '2026-03-09' });
  });

  test('when a file is gone', async () => {
    const folder = await remembered();
    rmSync(`${folder}/sales/2026-04.yaml`);
    expect(await salesAfter(folder)).toBeUndefined();
    keep(await read(folder), FILES);
    expect(await salesAfter(folder)).toBeUndefined();
  });

  test('when a file gets another name', async () => {
    const folder = await remembered();
    renameSync(`${folder}/sales/2026-03.yaml`, `${folder}/sales/march.yaml`);
    const reading = await read(folder);
    expect(reading.files.map(({ file }) => file)).toEqual([
      'sales/2026-04.yaml',
      'sales/march.yaml',
      'spent.yaml',
      'studio.yaml',
    ]);
    expect(cleanFiles(reading)).not.toContain('sales/march.yaml');
  });

  test('when a file becomes another kind', async () => {
    const folder = await remembered();
    renameSync(`${folder}/spent.yaml`, `${folder}/used.yaml`);
    const used = (await read(folder)).files.find(({ file }) => file === 'used.yaml');
    expect([used?.kind, used?.known]).toEqual(['used', undefined]);
  });
});

describe('with a cache a studio reads as without', () => {
  interface Step {
    readonly does: string;
    readonly file: string;
    readonly to: string;
    readonly text: string;
  }

  const names = fc.constantFrom(
    'sales.yaml',
    'sales/a.yaml',
    'sales/b.yaml',
    'spent.yaml',
    'studio.yaml',
    'firings/f.yaml',
    'odd.yml',
  );
  const step = fc.record({
    does: fc.constantFrom('write', 'write', 'remove', 'rename', 'touch', 'append'),
    file: names,
    to: names,
    text: mistypedText,
    remembers: fc.boolean(),
  });

  function change(folder: string, { does, file, to, text }: Step): void {
    const there = existsSync(`${folder}/${file}`);
    if (does === 'write') put(folder, file, text);
    else if (!there) return;
    else if (does === 'remove') rmSync(`${folder}/${file}`);
    else if (does === 'touch') utimesSync(`${folder}/${file}`, 1_700_000_000, 1_700_000_000);
    else if (does === 'append')
      put(folder, file, `${readFileSync(`${folder}/${file}`, 'utf8')}\nz9: {count: 1}\n`);
    else put(folder, to, readFileSync(`${folder}/${file}`));
  }

  test('whatever was changed between', async () => {
    const same = fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 6 }), async (steps) => {
      const folder = folderWith(STUDIO);
      for (const each of steps) {
        // The disk's own clock has ticks of a few milliseconds.
        await pause(5);
        change(folder, each);
        const reading = await read(folder);
        expect(outline(reading)).toEqual(outline(await read(folder, UNREMEMBERED)));
        if (each.remembers) keep(reading);
      }
    });
    await holds(same, 12);
  });

  test('whatever became of the list of what there is', async () => {
    const folder = await remembered();
    const list = `${folderOf(storeIn(folder, 'v1'))}/list`;
    const good = readFileSync(list);
    const expected = outline(await read(folder, UNREMEMBERED));
    const damaged = fc.asyncProperty(
      fc.nat(good.length - 1),
      fc.nat(254),
      fc.boolean(),
      async (at, by, cut) => {
        const bytes = Uint8Array.from(cut ? good.subarray(0, at) : good);
        if (!cut) bytes[at] = (bytes[at] ?? 0) ^ (by + 1);
        writeFileSync(list, bytes);
        const reading = await read(folder);
        expect(cleanFiles(reading)).toEqual([]);
        expect(outline(reading)).toEqual(expected);
      },
    );
    await holds(damaged, 60);
  });
});
