import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, divide, ONE, root, ZERO, type Decimal } from '../../src/number/decimal.ts';
import { laney, pChart, wilson, type Sample } from '../../src/number/statistics.ts';
import { holds } from '../helpers/law.ts';

const sample = fc
  .integer({ min: 1, max: 200 })
  .chain((of) => fc.record({ hits: fc.integer({ min: 0, max: of }), of: fc.constant(of) }));
const samples = fc.array(sample, { minLength: 2, maxLength: 30 });

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
