import { describe, expect, it } from 'vitest';
import { sparkLine } from '../../src/report/head.ts';

describe('sparkLine', () => {
  it('goes from the lowest to the highest sign', () => {
    expect(sparkLine([0, 1, 2, 3, 4, 5, 6, 7])).toBe('▁▂▃▄▅▆▇█');
  });

  it('stands on zero, so that a small change does not shout', () => {
    expect(sparkLine([100, 101])).toBe('██');
  });

  it('reaches below zero when a value does', () => {
    expect(sparkLine([-7, 0, 7])).toBe('▁▅█');
    expect(sparkLine([-7, -3])).toBe('▁▅');
  });

  it('marks what is missing, and survives nothing and zeros', () => {
    expect(sparkLine([7, null, NaN, 0])).toBe('█··▁');
    expect(sparkLine([])).toBe('');
    expect(sparkLine([0, 0])).toBe('▁▁');
  });
});
