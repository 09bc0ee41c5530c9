/** Statistics of losses against figures in print. */
import { describe, expect, it } from 'vitest';
import { roundTo, type Decimal } from '../../src/number/decimal.ts';
import { laney, pChart, wilson } from '../../src/number/statistics.ts';

function shown(value: Decimal | undefined, places: number): string | undefined {
  return value && roundTo(value, places).toFixed(places);
}

// Cans of frozen juice: 30 samples of 50, those that would leak. D. C. Montgomery, "Introduction to
// Statistical Quality Control", 2nd edition 1991, pp. 152-155.
const CANS = [
  12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7,
  13, 9, 6,
].map((hits) => ({ hits, of: 50 }));

// Samples 15 and 23, counted from 1, had causes that were found and mended.
const MENDED = new Set([14, 22]);

describe('p-chart of the juice cans (Montgomery 1991)', () => {
  it('has the printed centre and limits, and samples 15 and 23 outside', () => {
    const chart = pChart(CANS);
    expect(shown(chart?.centre, 4)).toBe('0.2313');
    expect(shown(chart?.limits[0]?.upper, 4)).toBe('0.4102');
    expect(shown(chart?.limits[0]?.lower, 4)).toBe('0.0524');
    expect(chart?.outside.map((index) => index + 1)).toEqual([15, 23]);
  });

  // The book's lower limit without them is .0407, its upper .3893.
  it('finds sample 21 when the two are left out', () => {
    const kept = CANS.map((sample, index) => ({ sample, number: index + 1 })).filter(
      (_, index) => !MENDED.has(index),
    );
    const chart = pChart(kept.map(({ sample }) => sample));
    expect(shown(chart?.centre, 4)).toBe('0.2150');
    expect(shown(chart?.limits[0]?.upper, 4)).toBe('0.3893');
    expect(shown(chart?.limits[0]?.lower, 4)).toBe('0.0407');
    expect(chart?.outside.map((index) => kept[index]?.number)).toEqual([21]);
  });
});

// P. B. Laney, "Improved control charts for attributes", Quality Engineering 14(4), 2002, gives the
// method: σz is the mean moving range of z ÷ 1.128. The figures for the cans were computed apart
// from this program, not printed there.
describe("Laney's p′ chart of the same cans", () => {
  it('has wider limits, and no sample outside', () => {
    const chart = laney(CANS);
    expect(shown(chart?.sigmaZ, 6)).toBe('1.660867');
    expect(shown(chart?.limits[0]?.upper, 6)).toBe('0.528472');
    expect(chart?.limits[0]?.lower.toString()).toBe('0');
    expect(chart?.outside).toEqual([]);
  });
});

// Test values of the statsmodels library for its Wilson interval at 95 %, made with R's
// binom.confint.
describe('Wilson score interval', () => {
  it.each([
    [4, 20, '0.0806577', '0.4160174'],
    [0, 30, '0.0000000', '0.1135134'],
    [1, 30, '0.0059086', '0.1667039'],
  ])('of %d in %d', (...[hits, of, low, high]) => {
    const interval = wilson(hits, of);
    expect([shown(interval?.low, 7), shown(interval?.high, 7)]).toEqual([low, high]);
  });
});
