import { mkdirSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  MemoryLost,
  NO_BOXES,
  keepBoxes,
  openBoxes,
  type Boxes,
  type BoxToKeep,
} from '../../src/memory/boxes.ts';
import type { StudioStore } from '../../src/memory/store.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const bytes = (...numbers: number[]): Uint8Array => Uint8Array.from(numbers);

const box = (parts: Readonly<Record<string, Uint8Array>>): BoxToKeep =>
  new Map(Object.entries(parts));

/** A store with two boxes, one of them of parts of odd sizes and of none. */
function kept(stamp = 'v1'): { readonly folder: string; readonly store: StudioStore } {
  const folder = tempStudio({});
  const store = storeIn(folder, stamp);
  const boxes = new Map([
    ['2025', box({ sales: bytes(1, 2, 3), spent: bytes(), used: bytes(4, 5, 6, 7, 8) })],
    ['2026', box({ sales: bytes(9) })],
  ]);
  keepBoxes(store, { about: { month: 3 }, boxes, found: NO_BOXES });
  return { folder, store };
}

function contentOf(boxes: Boxes): unknown {
  const content = [...boxes.places].map(([name, { parts }]) => [
    name,
    Object.fromEntries([...parts.keys()].map((part) => [part, [...boxes.part(name, part)]])),
  ]);
  return { about: boxes.about, ...Object.fromEntries(content) };
}

const CONTENT = {
  about: { month: 3 },
  '2025': { sales: [1, 2, 3], spent: [], used: [4, 5, 6, 7, 8] },
  '2026': { sales: [9] },
};

const fileIn = (store: StudioStore, start: string): string => {
  const name = namesIn(store).find((each) => each.startsWith(start)) ?? 'none';
  return join(folderOf(store), name);
};

describe('boxes', () => {
  it('are as they were kept, and none where nothing was', () => {
    const { folder, store } = kept();
    expect(contentOf(openBoxes(store))).toEqual(CONTENT);
    expect(readdirSync(folder)).toEqual([]);
    expect(openBoxes(storeIn(tempStudio({})))).toBe(NO_BOXES);
  });

  it('begin at a place where a view of wide numbers can be laid on each part', () => {
    const { store } = kept();
    const { part } = openBoxes(store);
    expect(['sales', 'spent', 'used'].map((name) => part('2025', name).byteOffset % 8)).toEqual([
      0, 0, 0,
    ]);
  });

  it('of another version or another folder are none', () => {
    const { folder, store } = kept();
    expect(openBoxes(storeIn(folder, 'v2'))).toBe(NO_BOXES);
    const other = storeIn(tempStudio({}), 'v1');
    other.write('list', readFileSync(fileIn(store, 'list')));
    for (const name of namesIn(store).filter((each) => each !== 'list'))
      other.write(name, readFileSync(join(folderOf(store), name)));
    expect(openBoxes(other)).toBe(NO_BOXES);
  });

  it('stay as they are where they are only named, and go where they are not', () => {
    const { store } = kept();
    const found = openBoxes(store);
    const before = namesIn(store);
    const boxes = new Map<string, BoxToKeep>([['2025', undefined]]);
    keepBoxes(store, { about: 2, boxes, found });
    expect(contentOf(openBoxes(store))).toEqual({ about: 2, '2025': CONTENT['2025'] });
    // A run that is under way may still look into what the list before has named.
    expect(namesIn(store)).toEqual(before);
    expect(contentOf(found)).toEqual(CONTENT);
    keepBoxes(store, { about: 3, boxes, found: openBoxes(store) });
    expect(namesIn(store)).toEqual(before.filter((name) => !name.startsWith('box-2026')));
  });

  it('are kept whole or not at all where one to stay was never there', () => {
    const { store } = kept();
    const boxes = new Map<string, BoxToKeep>([
      ['2024', undefined],
      ['2025', box({ sales: bytes(7) })],
    ]);
    keepBoxes(store, { about: 2, boxes, found: openBoxes(store) });
    expect(contentOf(openBoxes(store))).toEqual(CONTENT);
  });

  it('that stay are those which were found, whatever another run has kept meanwhile', () => {
    const { store } = kept();
    const found = openBoxes(store);
    const all = (sales: number): ReadonlyMap<string, BoxToKeep> =>
      new Map([
        ['2025', box({ sales: bytes(sales) })],
        ['2026', undefined],
      ]);
    keepBoxes(store, { about: 'other', boxes: all(77), found: openBoxes(store) });
    const mine = new Map([
      ['2025', undefined],
      ['2026', box({ sales: bytes(10) })],
    ]);
    keepBoxes(store, { about: 'mine', boxes: mine, found });
    expect(contentOf(openBoxes(store))).toEqual({
      about: 'mine',
      '2025': CONTENT['2025'],
      '2026': { sales: [10] },
    });
  });

  it('are forgotten where one to stay is gone by now', () => {
    const { store } = kept();
    const found = openBoxes(store);
    rmSync(fileIn(store, 'box-2026'));
    const boxes = new Map([
      ['2025', box({ sales: bytes(7) })],
      ['2026', undefined],
    ]);
    keepBoxes(store, { about: 2, boxes, found });
    expect(openBoxes(store)).toBe(NO_BOXES);
  });

  it('are kept by no link, and are not followed through one', () => {
    const { store } = kept();
    const list = fileIn(store, 'list');
    const elsewhere = join(tempStudio({}), 'list');
    writeFileSync(elsewhere, readFileSync(list));
    rmSync(list);
    symlinkSync(elsewhere, list);
    expect(openBoxes(store)).toBe(NO_BOXES);
    keepBoxes(store, { about: 2, boxes: new Map(), found: NO_BOXES });
    expect(openBoxes(store).about).toBe(2);
    expect(readFileSync(elsewhere)).not.toEqual(readFileSync(list));
  });
});

describe('a list that is not as it was written', () => {
  it('with one byte changed, wherever it is, names nothing', () => {
    const { store } = kept();
    const path = fileIn(store, 'list');
    const good = readFileSync(path);
    const believed = [...good.keys()].filter((at) => {
      const bad = Uint8Array.from(good);
      bad[at] = (bad[at] ?? 0) ^ (1 << (at % 8));
      writeFileSync(path, bad);
      return openBoxes(store) !== NO_BOXES;
    });
    expect(good.length).toBeGreaterThan(200);
    expect(believed).toEqual([]);
  });

  it('cut short, wherever, names nothing', () => {
    const { store } = kept();
    const path = fileIn(store, 'list');
    const good = readFileSync(path);
    const believed = [...good.keys()].filter((length) => {
      writeFileSync(path, good.subarray(0, length));
      return openBoxes(store) !== NO_BOXES;
    });
    expect(believed).toEqual([]);
  });

  it.each<[string, (path: string) => void]>([
    [
      'gone',
      (path) => {
        rmSync(path);
      },
    ],
    [
      'empty',
      (path) => {
        writeFileSync(path, '');
      },
    ],
    [
      'of zeros',
      (path) => {
        writeFileSync(path, new Uint8Array(9000));
      },
    ],
    [
      'a folder',
      (path) => {
        rmSync(path);
        mkdirSync(join(path, 'in it'), { recursive: true });
      },
    ],
  ])('%s names nothing, and is written over', (_, damage) => {
    const { store } = kept();
    damage(fileIn(store, 'list'));
    expect(openBoxes(store)).toBe(NO_BOXES);
    keepBoxes(store, {
      about: 2,
      boxes: new Map([['2025', box({ a: bytes(1) })]]),
      found: NO_BOXES,
    });
    expect(contentOf(openBoxes(store))).toEqual({ about: 2, '2025': { a: [1] } });
  });
});

describe('a box that is not as it was kept', () => {
  it.each<[string, (path: string) => void]>([
    [
      'gone',
      (path) => {
        rmSync(path);
      },
    ],
    [
      'empty',
      (path) => {
        writeFileSync(path, '');
      },
    ],
    [
      'cut short',
      (path) => {
        writeFileSync(path, readFileSync(path).subarray(0, 4));
      },
    ],
    [
      'changed',
      (path) => {
        const all = readFileSync(path);
        all[4] = 1;
        writeFileSync(path, all);
      },
    ],
    [
      'another one',
      (path) => {
        writeFileSync(path, readFileSync(path.replace(/[^/]*$/, 'list')));
      },
    ],
    [
      'a folder',
      (path) => {
        rmSync(path);
        mkdirSync(path);
      },
    ],
  ])('%s ends the run that asks for it, and the next one knows nothing', (_, damage) => {
    const { store } = kept();
    damage(fileIn(store, 'box-2025'));
    const { part } = openBoxes(store);
    expect([...part('2026', 'sales')]).toEqual([9]);
    expect(() => part('2025', 'used')).toThrow(MemoryLost);
    expect(openBoxes(store)).toBe(NO_BOXES);
  });

  it('with one byte changed gives the other parts, and never a wrong one', () => {
    const { store } = kept();
    const path = fileIn(store, 'box-2025');
    const list = readFileSync(fileIn(store, 'list'));
    const good = readFileSync(path);
    const parts = { sales: [1, 2, 3], used: [4, 5, 6, 7, 8] };
    for (const at of good.keys()) {
      const bad = Uint8Array.from(good);
      bad[at] = (bad[at] ?? 0) ^ (1 << (at % 8));
      writeFileSync(path, bad);
      store.write('list', list);
      const { part } = openBoxes(store);
      for (const [name, content] of Object.entries(parts)) {
        const start = name === 'sales' ? 0 : 3;
        const isHit = at >= start && at < start + content.length;
        const look = expect(() => [...part('2025', name)], `${name} ${String(at)}`);
        expect(isHit || [...part('2025', name)]).toEqual(isHit || content);
        (isHit ? look : look.not).toThrow(MemoryLost);
      }
    }
  });

  it('that nobody kept is not there', () => {
    const { part } = openBoxes(kept().store);
    expect(() => part('2024', 'sales')).toThrow(MemoryLost);
    expect(() => part('2025', 'bought')).toThrow(MemoryLost);
    expect(() => NO_BOXES.part('2025', 'sales')).toThrow(MemoryLost);
  });
});
