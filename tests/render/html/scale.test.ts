import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scaleOf } from '../../../src/render/html/drawing/scale.ts';
import { holds } from '../../helpers/law.ts';

describe('the scale of a chart', () => {
  it.each([
    [
      [1020, 10030.43],
      [0, 2500, 5000, 7500, 10000],
    ],
    [
      [0.049, 0.354],
      [0, 0.1, 0.2, 0.3],
    ],
    [
      [-20, 50],
      [-20, 0, 20, 40],
    ],
    [
      [-3, -1],
      [-3, -2, -1, 0],
    ],
    [
      [0, 0],
      [0, 1],
    ],
    [[], [0, 1]],
  ])('of %j has round marks', (values, marks) => {
    expect(scaleOf(values).marks).toEqual(marks);
  });

  it('spans every value and zero in few steps', () => {
    holds(
      fc.property(fc.array(fc.integer().map((cents) => cents / 100)), (values) => {
        const { marks, at } = scaleOf(values);
        expect(marks.length).toBeGreaterThanOrEqual(2);
        expect(marks.length).toBeLessThanOrEqual(6);
        expect(marks).toContain(0);
        for (const value of [...values, 0]) {
          expect(at(value)).toBeGreaterThanOrEqual(-1e-9);
          expect(at(value)).toBeLessThanOrEqual(1 + 1e-9);
        }
      }),
    );
  });
});
