import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, divide, ONE, root, ZERO, type Decimal } from '../../src/number/decimal.ts';
import {
  binomialAtLeast,
  laney,
  pChart,
  toMakeForGood,
  wilson,
  type Sample,
} from '../../src/number/statistics.ts';
import { holds } from '../helpers/law.ts';

interface Reference {
  readonly binomial: { readonly cdf: (k: number, n: number, p: number) => number };
}

const { jStat } = createRequire(import.meta.url)('jstat') as { readonly jStat: Reference };

/** A share in whole percents, from 1 % to 99 %. */
const percents = fc.integer({ min: 1, max: 99 });
const sample = fc
  .integer({ min: 1, max: 200 })
  .chain((of) => fc.record({ hits: fc.integer({ min: 0, max: of }), of: fc.constant(of) }));
const samples = fc.array(sample, { minLength: 2, maxLength: 30 });

function percent(whole: number): Decimal {
  return divide(decimal(whole), decimal(100));
}

function ratio({ hits, of }: Sample): number {
  return hits / of;
}

function isClose(value: Decimal, expected: number): void {
  expect(value.toNumber()).toBeCloseTo(expected, 12);
}

describe('wilson', () => {
  it('ends where the score test just rejects: |share − end| = z √(end (1 − end) ÷ n)', () => {
    const z = decimal('1.959963984540054');
    holds(
      fc.property(sample, ({ hits, of }) => {
        const { low, high } = wilson(hits, of)!;
        const share = divide(decimal(hits), decimal(of));
        for (const end of [low, high]) {
          const reach = z.times(root(divide(end.times(ONE.minus(end)), decimal(of))));
          const gap = share.minus(end).abs().minus(reach).abs();
          expect(gap.toNumber()).toBeLessThan(1e-11);
        }
        expect(low.lte(share) && share.lte(high) && low.lt(high)).toBe(true);
      }),
    );
  });

  it('mirrors: what is lost in one is kept in the other', () => {
    holds(
      fc.property(sample, ({ hits, of }) => {
        const lost = wilson(hits, of)!;
        const kept = wilson(of - hits, of)!;
        expect(lost.low.plus(kept.high).minus(ONE).toNumber()).toBeCloseTo(0, 20);
      }),
    );
  });

  it('reaches exactly 0 for none and exactly 1 for all', () => {
    for (let of = 1; of <= 200; of += 1) {
      expect(wilson(0, of)!.low.isZero()).toBe(true);
      expect(wilson(of, of)!.high.eq(ONE)).toBe(true);
    }
  });

  it.each([
    [0, 0],
    [5, 4],
    [-1, 4],
  ])('is undefined for %d of %d', (hits, of) => {
    expect(wilson(hits, of)).toBeUndefined();
  });
});

describe('pChart', () => {
  it('follows the formula in plain numbers, for uneven sizes too', () => {
    holds(
      fc.property(samples, (list) => {
        const { centre, limits, outside } = pChart(list)!;
        const hits = list.reduce((total, { hits: each }) => total + each, 0);
        const p = hits / list.reduce((total, { of }) => total + of, 0);
        isClose(centre, p);
        expect(limits).toHaveLength(list.length);
        list.forEach(({ of }, index) => {
          const reach = 3 * Math.sqrt((p * (1 - p)) / of);
          isClose(limits[index]!.upper, Math.min(1, p + reach));
          isClose(limits[index]!.lower, Math.max(0, p - reach));
        });
        const beyond = list.flatMap((each, index) => {
          const { lower, upper } = limits[index]!;
          const inside = ratio(each) >= lower.toNumber() && ratio(each) <= upper.toNumber();
          return inside ? [] : [index];
        });
        expect(outside).toEqual(beyond);
      }),
    );
  });

  it('finds the one bad load, above and below', () => {
    const many = Array.from({ length: 20 }, () => ({ hits: 2, of: 40 }));
    expect(pChart([...many, { hits: 12, of: 40 }])?.outside).toEqual([20]);
    const poor = many.map(() => ({ hits: 20, of: 40 }));
    expect(pChart([{ hits: 2, of: 40 }, ...poor])?.outside).toEqual([0]);
  });

  it('has nothing outside when all or none are lost', () => {
    const all = pChart([
      { hits: 3, of: 3 },
      { hits: 7, of: 7 },
    ]);
    const none = pChart([
      { hits: 0, of: 3 },
      { hits: 0, of: 7 },
    ]);
    expect([all?.centre.toString(), all?.outside]).toEqual(['1', []]);
    expect([none?.centre.toString(), none?.outside]).toEqual(['0', []]);
  });

  it('takes a point on its limit as inside', () => {
    expect(pChart([{ hits: 1, of: 1 }])?.outside).toEqual([]);
  });

  it('passes over an empty sample', () => {
    const chart = pChart([
      { hits: 0, of: 0 },
      { hits: 1, of: 4 },
    ]);
    expect(chart?.centre.toString()).toBe('0.25');
    expect(chart?.limits[0]).toEqual({ upper: ONE, lower: ZERO });
    expect(chart?.outside).toEqual([]);
  });

  it('is undefined for nothing, and for samples that can not be', () => {
    expect(pChart([])).toBeUndefined();
    expect(pChart([{ hits: 0, of: 0 }])).toBeUndefined();
    expect(pChart([{ hits: 5, of: 4 }])).toBeUndefined();
    expect(pChart([{ hits: -1, of: 4 }])).toBeUndefined();
  });
});

describe('laney', () => {
  it('follows the formula in plain numbers', () => {
    holds(
      fc.property(samples, (list) => {
        const chart = laney(list);
        const p = pChart(list)!.centre.toNumber();
        fc.pre(p > 0 && p < 1);
        const spread = list.map(({ of }) => Math.sqrt((p * (1 - p)) / of));
        const z = list.map((each, index) => (ratio(each) - p) / spread[index]!);
        const moves = z.slice(1).map((score, index) => Math.abs(score - z[index]!));
        const sigma = moves.reduce((total, move) => total + move, 0) / moves.length / 1.128;
        expect(chart!.sigmaZ.toNumber()).toBeCloseTo(sigma, 9);
        list.forEach((_, index) => {
          const reach = 3 * spread[index]! * sigma;
          expect(chart!.limits[index]!.upper.toNumber()).toBeCloseTo(Math.min(1, p + reach), 9);
          expect(chart!.limits[index]!.lower.toNumber()).toBeCloseTo(Math.max(0, p - reach), 9);
        });
      }),
    );
  });

  it('passes over an empty sample between two others', () => {
    const [first, second] = [
      { hits: 1, of: 10 },
      { hits: 4, of: 20 },
    ];
    const with0 = laney([first, { hits: 0, of: 0 }, second]);
    expect(with0?.sigmaZ.toString()).toBe(laney([first, second])?.sigmaZ.toString());
    expect(with0?.limits).toHaveLength(3);
  });

  it('draws the limits together when all loads are alike, and finds none outside', () => {
    const chart = laney([
      { hits: 1, of: 3 },
      { hits: 2, of: 6 },
      { hits: 3, of: 9 },
    ]);
    expect(chart?.sigmaZ.isZero()).toBe(true);
    expect(chart?.outside).toEqual([]);
  });

  it.each([
    [[]],
    [[{ hits: 1, of: 4 }]],
    [
      [
        { hits: 0, of: 4 },
        { hits: 0, of: 5 },
      ],
    ],
    [
      [
        { hits: 4, of: 4 },
        { hits: 5, of: 5 },
      ],
    ],
    [
      [
        { hits: 5, of: 4 },
        { hits: 1, of: 5 },
      ],
    ],
  ])('is undefined for %j', (list) => {
    expect(laney(list)).toBeUndefined();
  });
});

describe('binomialAtLeast', () => {
  it('agrees with jstat', () => {
    const n = fc.integer({ min: 1, max: 120 });
    holds(
      fc.property(n, fc.integer({ min: 1, max: 120 }), percents, (tries, least, rate) => {
        fc.pre(least <= tries);
        const reference = 1 - jStat.binomial.cdf(least - 1, tries, rate / 100);
        const got = binomialAtLeast(tries, least, percent(rate)).toNumber();
        expect(got).toBeCloseTo(reference, 8);
      }),
    );
  });

  it('is exact to 18 decimals', () => {
    const half = decimal('0.5');
    expect(binomialAtLeast(10, 8, half).toString()).toBe('0.0546875');
    expect(binomialAtLeast(3, 2, decimal('0.9')).toString()).toBe('0.972');
    expect(binomialAtLeast(20, 1, half).toString()).toBe('0.999999046325683594');
  });

  it('is certain of none, and never sure of more than were tried', () => {
    expect(binomialAtLeast(5, 0, ZERO).toString()).toBe('1');
    expect(binomialAtLeast(5, -2, ONE).toString()).toBe('1');
    expect(binomialAtLeast(5, 6, ONE).toString()).toBe('0');
    expect(binomialAtLeast(5, 5, ONE).toString()).toBe('1');
    expect(binomialAtLeast(5, 1, ZERO).toString()).toBe('0');
  });

  it('does not drown in small numbers', () => {
    const median = binomialAtLeast(4001, 2001, decimal('0.5'));
    expect(median.toString()).toBe('0.5');
  });
});

describe('toMakeForGood', () => {
  it('is the fewest that jstat finds enough', () => {
    const needed = fc.integer({ min: 1, max: 60 });
    const assurances = fc.integer({ min: 50, max: 99 });
    holds(
      fc.property(needed, fc.integer({ min: 1, max: 60 }), assurances, (good, loss, sure) => {
        const make = toMakeForGood(good, percent(loss), percent(sure))!;
        const chance = (tries: number) => 1 - jStat.binomial.cdf(good - 1, tries, 1 - loss / 100);
        expect(chance(make)).toBeGreaterThan(sure / 100 - 1e-9);
        expect(make === good || chance(make - 1) < sure / 100 + 1e-9).toBe(true);
      }),
    );
  });

  it('takes a chance that is exactly the assurance as enough', () => {
    expect(toMakeForGood(1, decimal('0.2'), decimal('0.8'))).toBe(1);
    expect(toMakeForGood(2, decimal('0.1'), decimal('0.972'))).toBe(3);
  });

  it('makes just what is needed when nothing is lost, and nothing when nothing is needed', () => {
    expect(toMakeForGood(24, ZERO, ONE)).toBe(24);
    expect(toMakeForGood(0, decimal('0.5'), decimal('0.9'))).toBe(0);
    expect(toMakeForGood(-3, ZERO, decimal('0.9'))).toBe(0);
  });

  it('has no answer when all is lost, when certainty is asked, or when it would be no plan', () => {
    expect(toMakeForGood(1, ONE, decimal('0.5'))).toBeUndefined();
    expect(toMakeForGood(1, decimal('0.1'), ONE)).toBeUndefined();
    expect(toMakeForGood(5000, decimal('0.9'), decimal('0.9'))).toBeUndefined();
    expect(toMakeForGood(20_000, decimal('0.1'), decimal('0.9'))).toBeUndefined();
  });
});
