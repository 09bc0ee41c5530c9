import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ALL_GOOD,
  atLeast,
  betaBinomial,
  correlationIn,
  exactly,
  meanShare,
  shareOfNext,
  through,
  sumOfCounts,
  type UncertainShare,
} from '../../src/number/beta-binomial.ts';
import { holds } from '../helpers/law.ts';

interface Reference {
  readonly binomial: { readonly pdf: (k: number, n: number, p: number) => number };
}

const { jStat } = createRequire(import.meta.url)('jstat') as { readonly jStat: Reference };

/** Computed with scipy 1.17.1: betabinom.pmf(k, n, a, b) and betabinom.sf(k - 1, n, a, b). */
const BY_SCIPY: readonly (readonly [
  n: number,
  a: number,
  b: number,
  k: number,
  just: number,
  least: number,
])[] = [
  [10, 4, 8, 0, 0.0551378446115, 1],
  [10, 4, 8, 5, 0.125744224815, 0.267801857585],
  [10, 4, 8, 10, 0.000810850656052, 0.000810850656053],
  [1, 0.5, 0.5, 1, 0.5, 0.5],
  [12, 30.5, 1.5, 0, 2.62702325166e-10, 1],
  [12, 30.5, 1.5, 11, 0.264588273739, 0.874611238192],
  [25, 4.2, 0.6, 12, 0.00894793463351, 0.97639759051],
  [25, 4.2, 0.6, 24, 0.162203970669, 0.467147435528],
  [60, 0.7, 0.4, 0, 0.0243431165527, 1],
  [60, 0.7, 0.4, 59, 0.0571304884092, 0.199242578327],
  [200, 95, 5.5, 0, 1.9130087268e-73, 1],
  [200, 95, 5.5, 199, 0.00801665200346, 0.0101592844478],
  [24, 1, 1, 12, 0.04, 0.52],
];

const shares = fc
  .record({ good: fc.integer({ min: 1, max: 400 }), bad: fc.integer({ min: 1, max: 100 }) })
  .map(({ good, bad }): UncertainShare => ({ good: good / 4, bad: bad / 4 }));
const counts = fc.integer({ min: 0, max: 60 });

describe('betaBinomial', () => {
  it.each(BY_SCIPY)(
    'of %d by Beta(%d, %d): %d is as in scipy',
    (...[n, good, bad, k, just, least]) => {
      const chances = betaBinomial(n, { good, bad });
      expect(chances[k]! / just).toBeCloseTo(1, 9);
      expect(atLeast(chances, k)).toBeCloseTo(least, 9);
    },
  );

  it('adds up to 1, with the mean of its share', () => {
    holds(
      fc.property(counts, shares, (count, share) => {
        const chances = betaBinomial(count, share);
        expect(chances).toHaveLength(count + 1);
        expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 10);
        const mean = chances.reduce((sum, chance, k) => sum + k * chance, 0);
        expect(mean).toBeCloseTo(count * meanShare(share), 8);
      }),
    );
  });

  it('is the binomial where the share is nearly certain', () => {
    const chances = betaBinomial(20, { good: 9e9, bad: 1e9 });
    for (const k of [10, 15, 18, 20])
      expect(chances[k]).toBeCloseTo(jStat.binomial.pdf(k, 20, 0.9), 7);
  });

  it('loses nothing of what is never lost', () => {
    expect(betaBinomial(3, ALL_GOOD)).toEqual([0, 0, 0, 1]);
    expect(through(exactly(2), ALL_GOOD)).toEqual([0, 0, 1]);
  });
});

describe('chances of counts', () => {
  // Computed with scipy 1.17.1 and numpy, stage after stage.
  it('go through several steps', () => {
    const two = [
      { good: 18, bad: 2 },
      { good: 9, bad: 1 },
    ].reduce(through, exactly(20));
    expect(atLeast(two, 15)).toBeCloseTo(0.7642371297543712, 10);
    const three = [
      { good: 60, bad: 3 },
      { good: 45.5, bad: 4.5 },
      { good: 200, bad: 10 },
    ].reduce(through, exactly(31));
    expect(atLeast(three, 24)).toBeCloseTo(0.8035168907140443, 10);
  });

  it('are added where two counts come together', () => {
    expect(sumOfCounts([0.5, 0.5], [0, 0.25, 0.75])).toEqual([0, 0.125, 0.5, 0.375]);
    expect(atLeast([0.25, 0.75], 0)).toBe(1);
    expect(atLeast([0.25, 0.75], 2)).toBe(0);
  });
});

describe('shareOfNext', () => {
  it("is Jeffreys' posterior where pieces are on their own", () => {
    const { good, bad } = shareOfNext([{ hits: 7, of: 10 }], 0);
    expect([good, bad].map((each) => each.toFixed(9))).toEqual(['7.500000000', '3.500000000']);
  });

  it('knows no more from a load of pieces that all fare alike than from one piece', () => {
    const one = shareOfNext([{ hits: 1, of: 1 }], 0.99);
    const many = shareOfNext([{ hits: 50, of: 50 }], 0.99);
    expect(meanShare(many)).toBeCloseTo(meanShare(one), 2);
  });

  it('is wider the more alike the pieces of a load fare, and never narrower than the binomial', () => {
    const loads = [10, 9, 10, 8].map((hits) => ({ hits, of: 10 }));
    const size = (correlation: number): number => {
      const { good, bad } = shareOfNext(loads, correlation);
      return good + bad;
    };
    expect(size(0)).toBeCloseTo(41, 9);
    expect(size(0.05)).toBeLessThan(size(0));
    expect(size(0.3)).toBeLessThan(size(0.05));
  });
});

describe('correlationIn', () => {
  it('is 0 where loads differ by less than chance, and where nothing or all was lost', () => {
    expect(correlationIn([9, 9, 9, 9].map((hits) => ({ hits, of: 10 })))).toBe(0);
    expect(correlationIn([10, 10].map((hits) => ({ hits, of: 10 })))).toBe(0);
    expect(correlationIn([])).toBe(0);
  });

  it('is near 1 where a load comes out whole or not at all', () => {
    const loads = Array.from({ length: 40 }, (_, at) => ({ hits: at % 4 === 0 ? 0 : 20, of: 20 }));
    expect(correlationIn(loads)).toBeGreaterThan(0.95);
  });

  // By hand: p = .75; Σn(p − p̂)² = 10 × (.25² + .25²) = 1.25; (1.25 ÷ .1875 − 1) ÷ (20 − 10 − 1).
  it('is what the moments give', () => {
    const loads = [
      { hits: 10, of: 10 },
      { hits: 5, of: 10 },
    ];
    expect(correlationIn(loads)).toBeCloseTo((1.25 / 0.1875 - 1) / 9, 12);
  });
});
