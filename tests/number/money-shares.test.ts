import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, integersOf } from '../../src/number/decimal.ts';
import { opposite, shareOut, shareOutEqually, total, type Money } from '../../src/number/money.ts';
import { holds } from '../helpers/law.ts';

const amounts = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }).map((units) => units as Money);
const weights = fc.array(fc.bigInt({ min: 0n, max: 10n ** 6n }), { minLength: 1, maxLength: 20 });
const anyWeights = fc.array(fc.bigInt({ min: -1000n, max: 1000n }), { maxLength: 12 });

function sumOf(numbers: readonly bigint[]): bigint {
  return numbers.reduce((all, each) => all + each, 0n);
}

function size(value: bigint): bigint {
  return value < 0n ? -value : value;
}

function shares(amount: bigint, by: readonly bigint[]): bigint[] {
  return shareOut(amount as Money, by);
}

describe('shareOut', () => {
  it('adds up to the whole, whatever the weights', () => {
    holds(
      fc.property(amounts, anyWeights, (amount, by) => {
        const parts = shareOut(amount, by);
        expect(parts).toHaveLength(by.length);
        expect(total(parts)).toBe(by.length === 0 ? 0n : amount);
      }),
    );
  });

  it('is nowhere off by a whole unit from the exact share, and gives no weight nothing', () => {
    holds(
      fc.property(amounts, anyWeights, (amount, by) => {
        const whole = sumOf(by);
        fc.pre(whole !== 0n);
        shareOut(amount, by).forEach((part, at) => {
          const weight = by[at] ?? 0n;
          expect(size(part * whole - amount * weight) < size(whole)).toBe(true);
          if (weight === 0n) expect(part).toBe(0n);
        });
      }),
    );
  });

  it('gives the odd units to the largest remainders, and to the first of equal ones', () => {
    holds(
      fc.property(amounts, weights, (amount, by) => {
        const whole = sumOf(by);
        fc.pre(amount > 0n && whole > 0n);
        const found = shareOut(amount, by).map((part, at) => {
          const exact = amount * (by[at] ?? 0n);
          return { at, rest: exact % whole, raised: part > exact / whole };
        });
        for (const up of found.filter(({ raised }) => raised))
          for (const down of found.filter(({ raised }) => !raised)) {
            const goesFirst = up.rest > down.rest || (up.rest === down.rest && up.at < down.at);
            expect(goesFirst).toBe(true);
          }
      }),
    );
  });

  it('shares a negative amount like a positive one', () => {
    holds(
      fc.property(amounts, anyWeights, (amount, by) => {
        expect(shareOut(opposite(amount), by)).toEqual(shareOut(amount, by).map(opposite));
      }),
    );
  });

  it.each<[string, bigint, bigint[], bigint[]]>([
    ['the odd cents to the first of equal weights', 100n, [1n, 1n, 1n], [34n, 33n, 33n]],
    // 7.5, 0, 2.5: equal remainders.
    ['nothing to a weight of zero', 10n, [3n, 0n, 1n], [8n, 0n, 2n]],
    ['the same to each where all weights are zero', 5n, [0n, 0n], [3n, 2n]],
    ['the same to each where weights cancel out', 9n, [2n, -2n], [5n, 4n]],
    ['a loss by its size', -100n, [1n, 1n, 1n], [-34n, -33n, -33n]],
    // 6 × 4 ÷ 3 and 6 × −1 ÷ 3.
    ['less than nothing to a negative weight', 6n, [4n, -1n], [8n, -2n]],
    // 10 × 5 ÷ 3 = 16.67 and 10 × −2 ÷ 3 = −6.67: cut down to 16 and −7, one odd unit to the first.
    ['the odd unit beside a negative weight', 10n, [5n, -2n], [17n, -7n]],
    ['by size where all weights are negative', 10n, [-3n, -1n], [8n, 2n]],
    // 0.25, 0.25, 0.5
    ['less than there are shares', 1n, [1n, 1n, 2n], [0n, 0n, 1n]],
    ['all to the only one', 7n, [0n], [7n]],
    ['nothing of nothing', 0n, [1n, 2n], [0n, 0n]],
    ['nobody nothing', 5n, [], []],
  ])('gives %s', (...[, amount, by, expected]) => {
    expect(shares(amount, by)).toEqual(expected);
  });

  it('compares remainders that no floating number could tell apart', () => {
    // 10^17 and 10^17 + 1 of their sum: one a trace less than half, the other a trace more.
    const [less, more] = [10n ** 17n, 10n ** 17n + 1n];
    expect(shares(1n, [less, more])).toEqual([0n, 1n]);
    expect(shares(1n, [more, less])).toEqual([1n, 0n]);
  });
});

describe('shareOut by decimals', () => {
  it('takes decimals of any length as they are', () => {
    const by = integersOf(['1.5', '0.25', '0', '0.000000000001'].map(decimal));
    // 100 × 1.5 ÷ 1.750000000001 = 85.71…, 14.28…, 0, 0.00….
    expect(shareOut(100n as Money, by)).toEqual([86n, 14n, 0n, 0n]);
    expect(shareOut(0n as Money, by)).toEqual([0n, 0n, 0n, 0n]);
  });
});

describe('shareOutEqually', () => {
  it('has the larger ones first', () => {
    expect(shareOutEqually(11n as Money, 4)).toEqual([3n, 3n, 3n, 2n]);
    expect(shareOutEqually(-11n as Money, 4)).toEqual([-3n, -3n, -3n, -2n]);
    expect(shareOutEqually(11n as Money, 0)).toEqual([]);
  });
});
