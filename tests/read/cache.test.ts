import {
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, test } from 'vitest';
import { diskTime, loadParts, storeParts, type Part } from '../../src/read/cache.ts';
import { folderWith } from './support/folder.ts';

const words = (...numbers: number[]): Uint8Array => new Uint8Array(new Uint32Array(numbers).buffer);

const PARTS = new Map<Part, Uint8Array>([
  ['studio', words(1, 2, 3)],
  ['sales', words(...Array.from({ length: 100 }, (_, index) => index * 2_654_435))],
  ['spent', words()],
]);
const NAMES = [...PARTS.keys()];

function cached(): string {
  const folder = folderWith({});
  storeParts(folder, 'v1', PARTS);
  return folder;
}

function asNumbers(parts: ReadonlyMap<Part, Uint8Array>): Record<string, number[]> {
  return Object.fromEntries([...parts].map(([part, bytes]) => [part, [...bytes]]));
}

describe('the cache file', () => {
  test('gives back what was put in', () => {
    expect(asNumbers(loadParts(cached(), 'v1', NAMES))).toEqual(asNumbers(PARTS));
  });

  test('gives only the parts that are asked for and are there', () => {
    expect(Object.keys(asNumbers(loadParts(cached(), 'v1', ['spent', 'bought'])))).toEqual([
      'spent',
    ]);
  });

  test('keeps the parts that are not put in anew', () => {
    const folder = cached();
    storeParts(
      folder,
      'v1',
      new Map<Part, Uint8Array>([
        ['sales', words(7)],
        ['bought', words(8)],
      ]),
    );
    const now = asNumbers(loadParts(folder, 'v1', [...NAMES, 'bought']));
    expect(now).toEqual({ ...asNumbers(PARTS), sales: [...words(7)], bought: [...words(8)] });
  });

  test('of another version is nothing, and is not kept', () => {
    const folder = cached();
    expect(loadParts(folder, 'v2', NAMES).size).toBe(0);
    storeParts(folder, 'v2', new Map<Part, Uint8Array>([['spent', words(9)]]));
    expect(asNumbers(loadParts(folder, 'v2', NAMES))).toEqual({ spent: [...words(9)] });
    expect(loadParts(folder, 'v1', NAMES).size).toBe(0);
  });

  test('is kept out of git', () => {
    const folder = cached();
    expect(readdirSync(`${folder}/.saggar`).sort()).toEqual(['.gitignore', 'cache']);
    expect(readFileSync(`${folder}/.saggar/.gitignore`, 'utf8')).toBe('*\n');
  });

  test("leaves a .gitignore of one's own alone", () => {
    const folder = folderWith({ '.saggar/.gitignore': 'cache\n' });
    storeParts(folder, 'v1', PARTS);
    expect(readFileSync(`${folder}/.saggar/.gitignore`, 'utf8')).toBe('cache\n');
    expect(loadParts(folder, 'v1', NAMES).size).toBe(3);
  });
});

describe('a cache file that is not as it was written', () => {
  const expected = asNumbers(PARTS);

  function isHarmless(folder: string, bytes: Uint8Array): boolean {
    writeFileSync(`${folder}/.saggar/cache`, bytes);
    const parts = asNumbers(loadParts(folder, 'v1', NAMES));
    return Object.entries(parts).every(
      ([part, numbers]) => String(numbers) === String(expected[part]),
    );
  }

  test('with one byte changed, wherever it is, gives no wrong part', () => {
    const folder = cached();
    const good = readFileSync(`${folder}/.saggar/cache`);
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
    const bytes = readFileSync(`${folder}/.saggar/cache`);
    bytes[4096 + 12 + 5] = (bytes[4096 + 12 + 5] ?? 0) + 1;
    writeFileSync(`${folder}/.saggar/cache`, bytes);
    expect([...loadParts(folder, 'v1', NAMES).keys()]).toEqual(['studio', 'spent']);
  });

  test('cut short, wherever, gives no wrong part', () => {
    const folder = cached();
    const good = readFileSync(`${folder}/.saggar/cache`);
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
    const folder = folderWith({ '.saggar/cache': content });
    expect(loadParts(folder, 'v1', NAMES).size).toBe(0);
    storeParts(folder, 'v1', PARTS);
    expect(loadParts(folder, 'v1', NAMES).size).toBe(3);
  });

  test('a folder in its place gives nothing, and no error', () => {
    const folder = folderWith({ '.saggar/cache/x': '' });
    expect(loadParts(folder, 'v1', NAMES).size).toBe(0);
    storeParts(folder, 'v1', PARTS);
    expect(loadParts(folder, 'v1', NAMES).size).toBe(0);
  });
});

describe('where nothing can be written', () => {
  test('in a folder that is gone, nothing happens', () => {
    const folder = folderWith({});
    rmSync(folder, { recursive: true });
    storeParts(folder, 'v1', PARTS);
    expect(diskTime(folder)).toBeUndefined();
    expect(loadParts(folder, 'v1', NAMES).size).toBe(0);
  });

  test('through a link, nothing is written', () => {
    const elsewhere = folderWith({});
    const folder = folderWith({});
    symlinkSync(elsewhere, `${folder}/.saggar`);
    storeParts(folder, 'v1', PARTS);
    expect(diskTime(folder)).toBeUndefined();
    expect(readdirSync(elsewhere)).toEqual([]);
  });

  test('a file in place of the folder is left alone', () => {
    const folder = folderWith({ '.saggar': 'mine' });
    storeParts(folder, 'v1', PARTS);
    expect(readFileSync(`${folder}/.saggar`, 'utf8')).toBe('mine');
  });

  test('a stamp too long for the first line is not written', () => {
    const folder = folderWith({});
    storeParts(folder, 'v'.repeat(5000), PARTS);
    expect(readdirSync(`${folder}/.saggar`)).toEqual(['.gitignore']);
  });
});

describe("the disk's clock", () => {
  test('is that of a file written at the time', () => {
    const folder = folderWith({});
    const before = diskTime(folder)!;
    writeFileSync(`${folder}/a`, '');
    const written = statSync(`${folder}/a`).mtimeMs;
    expect(written).toBeGreaterThanOrEqual(before);
    expect(diskTime(folder)!).toBeGreaterThanOrEqual(written);
  });

  test('leaves nothing behind', () => {
    const folder = folderWith({});
    mkdirSync(`${folder}/.saggar`);
    diskTime(folder);
    expect(readdirSync(`${folder}/.saggar`)).toEqual([]);
  });
});
