import { describe, expect, it } from 'vitest';
import { keepBoxes, openBoxes } from '../../src/memory/boxes.ts';
import { storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/** More than half of what is kept of one studio. */
const large = (fill: number): Uint8Array => new Uint8Array(40 * 1024 * 1024).fill(fill);

describe('boxes that are large', () => {
  it('make room for those that take their place', () => {
    const store = storeIn(tempStudio({}));
    for (const fill of [1, 2]) {
      const boxes = new Map([['2025', new Map([['sales', large(fill)]])]]);
      keepBoxes(store, { about: fill, boxes, found: openBoxes(store) });
      expect(openBoxes(store).about).toBe(fill);
    }
  });

  it('of another version of the program are not in the way of this one', () => {
    const folder = tempStudio({});
    for (const [at, stamp] of ['v1', 'v2'].entries()) {
      const store = storeIn(folder, stamp);
      const boxes = new Map([['2025', new Map([['sales', large(at)]])]]);
      keepBoxes(store, { about: stamp, boxes, found: openBoxes(store) });
      expect(openBoxes(store).about).toBe(stamp);
    }
  });
});
