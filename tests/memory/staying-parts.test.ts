import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { MemoryLost, NO_BOXES, keepBoxes, openBoxes } from '../../src/memory/boxes.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const bytes = (...numbers: number[]): Uint8Array => Uint8Array.from(numbers);

it('a part that stays is kept as it lies there, with the checksum that it had', () => {
  const store = storeIn(tempStudio({}));
  const keep = (parts: [string, Uint8Array | undefined][]): void => {
    const boxes = new Map([['2025', new Map(parts)]]);
    keepBoxes(store, { about: 1, boxes, found: openBoxes(store) });
  };
  const all = (): number[][] =>
    ['sales', 'spent', 'used'].map((name) => [...openBoxes(store).part('2025', name)]);
  keepBoxes(store, { about: 0, boxes: new Map(), found: NO_BOXES });
  keep([
    ['sales', bytes(1, 2, 3)],
    ['spent', bytes()],
    ['used', bytes(4, 5)],
  ]);
  keep([
    ['sales', undefined],
    ['spent', bytes(7)],
    ['used', undefined],
  ]);
  expect(all()).toEqual([[1, 2, 3], [7], [4, 5]]);
  for (const name of namesIn(store).filter((each) => each.startsWith('box-'))) {
    const path = join(folderOf(store), name);
    const content = readFileSync(path);
    content[0] = 9;
    writeFileSync(path, content);
  }
  keep([
    ['sales', undefined],
    ['spent', bytes(8)],
    ['used', undefined],
  ]);
  expect([...openBoxes(store).part('2025', 'used')]).toEqual([4, 5]);
  expect(() => openBoxes(store).part('2025', 'sales')).toThrow(MemoryLost);
});
