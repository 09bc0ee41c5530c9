import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bar, barWithLimit } from '../../src/render/terminal/bars.ts';
import { holds } from '../helpers/law.ts';

describe('bar', () => {
  it.each([
    [10, '██████████'],
    [5, '█████'],
    [2.5, '██▌'],
    [1.25, '█▎'],
    [0.125, '▏'],
    [0.0001, '▏'],
    [0.875, '▉'],
    [0.99, '█'],
    [0, ''],
    [-3, ''],
    [NaN, ''],
    [99, '██████████'],
  ])('draws %f of ten in ten cells', (value, drawn) => {
    expect(bar(value, { largest: 10, cells: 10 })).toBe(drawn);
  });

  it('draws nothing without a scale', () => {
    expect(bar(1, { largest: 0, cells: 10 })).toBe('');
  });

  it('is never longer than its cells', () => {
    const figure = fc.double({ min: 0, max: 1e9, noNaN: true });
    holds(
      fc.property(
        figure,
        figure,
        (value, largest) => bar(value, { largest, cells: 12 }).length <= 12,
      ),
    );
  });
});

describe('barWithLimit', () => {
  it.each([
    [3, 5, '███  ┃'],
    [8, 5, '█████┃██'],
    [5, 5, '█████┃'],
    [0, 5, '     ┃'],
    [4, 10, '████     ┃'],
    [4, 0, '████'],
    [4, 11, '████'],
    [4, NaN, '████'],
  ])('draws %f of ten, with a limit of %f', (value, limit, drawn) => {
    expect(barWithLimit(value, { limit, largest: 10, cells: 10 })).toBe(drawn);
  });
});
