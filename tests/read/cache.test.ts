import {
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, test } from 'vitest';
import { loadParts, storeParts, type Part } from '../../src/read/cache.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { folderWith } from './support/folder.ts';

const words = (...numbers: number[]): Uint8Array => new Uint8Array(new Uint32Array(numbers).buffer);

const PARTS = new Map<Part, Uint8Array>([
  ['studio', words(1, 2, 3)],
  ['sales', words(...Array.from({ length: 100 }, (_, index) => index * 2_654_435))],
  ['spent', words()],
]);
const NAMES = [...PARTS.keys()];

/** The file in which the cache of a folder is. */
function cacheOf(folder: string): string {
  return `${folderOf(storeIn(folder, 'v1'))}/cache`;
}

function cached(): string {
  const folder = folderWith({});
  storeParts(storeIn(folder, 'v1'), PARTS);
  return folder;
}

function asNumbers(parts: ReadonlyMap<Part, Uint8Array>): Record<string, number[]> {
  return Object.fromEntries([...parts].map(([part, bytes]) => [part, [...bytes]]));
}

describe('the cache file', () => {
  test('gives back what was put in', () => {
    expect(asNumbers(loadParts(storeIn(cached(), 'v1'), NAMES))).toEqual(asNumbers(PARTS));
  });

  test('gives only the parts that are asked for and are there', () => {
    expect(Object.keys(asNumbers(loadParts(storeIn(cached(), 'v1'), ['spent', 'bought'])))).toEqual(
      ['spent'],
    );
  });

  test('keeps the parts that are not put in anew', () => {
    const folder = cached();
    storeParts(
      storeIn(folder, 'v1'),
      new Map<Part, Uint8Array>([
        ['sales', words(7)],
        ['bought', words(8)],
      ]),
    );
    const now = asNumbers(loadParts(storeIn(folder, 'v1'), [...NAMES, 'bought']));
    expect(now).toEqual({ ...asNumbers(PARTS), sales: [...words(7)], bought: [...words(8)] });
  });

  test('of another version is nothing, and is not kept', () => {
    const folder = cached();
    expect(loadParts(storeIn(folder, 'v2'), NAMES).size).toBe(0);
    storeParts(storeIn(folder, 'v2'), new Map<Part, Uint8Array>([['spent', words(9)]]));
    expect(asNumbers(loadParts(storeIn(folder, 'v2'), NAMES))).toEqual({ spent: [...words(9)] });
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(0);
  });

  test('lies in the memory, for the person alone, and leaves the studio as it is', () => {
    const folder = cached();
    const store = storeIn(folder, 'v1');
    expect(readdirSync(folder)).toEqual([]);
    expect(namesIn(store)).toEqual(['cache']);
    expect(statSync(folderOf(store)).mode & 0o777).toBe(0o700);
    expect(statSync(`${folderOf(store)}/cache`).mode & 0o777).toBe(0o600);
  });
});

describe('a cache file that is not as it was written', () => {
  const expected = asNumbers(PARTS);

  function isHarmless(folder: string, bytes: Uint8Array): boolean {
    writeFileSync(cacheOf(folder), bytes);
    const parts = asNumbers(loadParts(storeIn(folder, 'v1'), NAMES));
    return Object.entries(parts).every(
      ([part, numbers]) => String(numbers) === String(expected[part]),
    );
  }

  test('with one byte changed, wherever it is, gives no wrong part', () => {
    const folder = cached();
    const good = readFileSync(cacheOf(folder));
    const bad = Array.from(good.keys()).filter((at) => {
      const bytes = Uint8Array.from(good);
      bytes[at] = (bytes[at] ?? 0) ^ (1 << (at % 8));
      return !isHarmless(folder, bytes);
    });
    expect(good.length).toBeGreaterThan(4500);
    expect(bad).toEqual([]);
  });

  test('with one byte changed in a part gives the other parts', () => {
    const folder = cached();
    const bytes = readFileSync(cacheOf(folder));
    bytes[4096 + 12 + 5] = (bytes[4096 + 12 + 5] ?? 0) + 1;
    writeFileSync(cacheOf(folder), bytes);
    expect([...loadParts(storeIn(folder, 'v1'), NAMES).keys()]).toEqual(['studio', 'spent']);
  });

  test('cut short, wherever, gives no wrong part', () => {
    const folder = cached();
    const good = readFileSync(cacheOf(folder));
    const bad = Array.from(good.keys()).filter(
      (length) => !isHarmless(folder, good.subarray(0, length)),
    );
    expect(bad).toEqual([]);
  });

  test.each([
    ['empty', ''],
    ['of something else', '{"version": 3}\n'],
    ['a long text', 'x'.repeat(100_000)],
    ['nothing but zeros', new Uint8Array(10_000)],
  ])('%s, gives nothing and is written over', (_, content) => {
    const folder = cached();
    writeFileSync(cacheOf(folder), content);
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(0);
    storeParts(storeIn(folder, 'v1'), PARTS);
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(3);
  });

  test('a folder in its place gives nothing, and is written over', () => {
    const folder = cached();
    rmSync(cacheOf(folder));
    mkdirSync(`${cacheOf(folder)}/x`, { recursive: true });
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(0);
    storeParts(storeIn(folder, 'v1'), PARTS);
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(3);
  });

  test('a link in its place is neither read nor written through', () => {
    const folder = cached();
    const [cache, elsewhere] = [cacheOf(folder), `${folder}/elsewhere`];
    renameSync(cache, elsewhere);
    symlinkSync(elsewhere, cache);
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(0);
    writeFileSync(elsewhere, 'mine');
    storeParts(storeIn(folder, 'v1'), PARTS);
    expect(readFileSync(elsewhere, 'utf8')).toBe('mine');
    expect(loadParts(storeIn(folder, 'v1'), NAMES).size).toBe(3);
  });
});

describe('a first line that is too long', () => {
  test('is not written', () => {
    const store = storeIn(folderWith({}), 'v'.repeat(5000));
    storeParts(store, PARTS);
    expect(loadParts(store, NAMES).size).toBe(0);
  });
});
