/** Fisher's exact test and Holm's correction, against printed values and a plain second way. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fisherExact, holmCorrected } from '../../src/number/exact-test.ts';
import { holds } from '../helpers/law.ts';

type Four = readonly [number, number, number, number];

function table(...[a, b, c, d]: Four): number {
  return fisherExact({ faulty: a, sound: b }, { faulty: c, sound: d });
}

/** n over k, exact. */
function choose(n: bigint, k: bigint): bigint {
  if (k < 0n || k > n) return 0n;
  let found = 1n;
  for (let at = 1n; at <= k; at += 1n) found = (found * (n - k + at)) / at;
  return found;
}

/** The same by whole numbers: every table with these margins, those no likelier than the one seen. */
function counted(...[a, b, c, d]: Four): number {
  const [one, two, three, four] = [BigInt(a), BigInt(b), BigInt(c), BigInt(d)];
  const ways = (count: bigint): bigint =>
    choose(one + three, count) * choose(two + four, one + two - count);
  const seen = ways(one);
  let all = 0n;
  for (let count = 0n; count <= one + two; count += 1n) if (ways(count) <= seen) all += ways(count);
  return Number((all * 10n ** 15n) / choose(one + two + three + four, one + two)) / 1e15;
}

describe("Fisher's exact test", () => {
  it('tea tasting: 3 1 / 1 3 (R documentation, fisher.test, after Agresti)', () => {
    expect(table(3, 1, 1, 3)).toBeCloseTo(0.4857, 4);
  });

  // R documentation, fisher.test: Fisher's convicts and twins (two-sided, as R prints it).
  it('twins: 2 10 / 15 3', () => {
    expect(table(2, 10, 15, 3)).toBeCloseTo(0.0005367, 7);
  });

  it.each([
    [0, 5, 0, 9, 1],
    [5, 0, 9, 0, 1],
    [1, 0, 0, 1, 1],
  ])('%i %i / %i %i says nothing', (...[a, b, c, d, chance]) => {
    expect(table(a, b, c, d)).toBeCloseTo(chance, 12);
  });

  it('is what counting all tables gives, and the same either way round', () => {
    const count = fc.integer({ min: 0, max: 60 });
    holds(
      fc.property(fc.tuple(count, count, count, count), ([a, b, c, d]) => {
        fc.pre(a + b > 0 && c + d > 0);
        expect(table(a, b, c, d)).toBeCloseTo(counted(a, b, c, d), 9);
        expect(table(c, d, a, b)).toBeCloseTo(table(a, b, c, d), 12);
      }),
      60,
    );
  });
});

describe("Holm's correction", () => {
  // By hand: .01 × 4, .02 × 3, .03 × 2 = .06, .04 × 1 raised to .06.
  it('takes the smallest times how many, the next times one fewer', () => {
    expect(holmCorrected([0.04, 0.01, 0.03, 0.02]).map((each) => each.toFixed(4))).toEqual([
      '0.0600',
      '0.0400',
      '0.0600',
      '0.0600',
    ]);
  });

  it('never passes one, and leaves one alone as it is', () => {
    expect(holmCorrected([0.6, 0.9])).toEqual([1, 1]);
    expect(holmCorrected([0.03])).toEqual([0.03]);
    expect(holmCorrected([])).toEqual([]);
  });
});
