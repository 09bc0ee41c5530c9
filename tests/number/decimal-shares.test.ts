import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimal,
  portion,
  portions,
  roundTo,
  shownParts,
  sum,
  ZERO,
  type Decimal,
} from '../../src/number/decimal.ts';
import { decimalTexts, withPoint } from '../helpers/exact.ts';

const amounts = decimalTexts(12, 4);

/** What the ledger holds exactly: 15 digits before the point and up to 24 after it. */
const totals = fc.nat({ max: 24 }).chain((places) => {
  const most = 10n ** BigInt(15 + places);
  return fc.bigInt({ min: -most, max: most }).map((units) => withPoint(units, places));
});

function shown(values: readonly Decimal[]): string[] {
  return values.map((value) => value.toString());
}

/** One unit of the last of so many decimals. */
function unit(places: number): Decimal {
  return decimal(withPoint(1n, places));
}

describe('portions', () => {
  const weights = fc.array(
    decimalTexts(9, 3).map((text) => text.replace('-', '')),
    { minLength: 1 },
  );

  it('adds up to the total exactly', () => {
    fc.assert(
      fc.property(totals, weights, (total, shares) => {
        const parts = portions(decimal(total), shares.map(decimal));
        expect(parts).toHaveLength(shares.length);
        expect(sum(parts).eq(decimal(total))).toBe(true);
      }),
    );
  });

  it('gives each its share to within a unit of the 24th decimal, and no weight nothing', () => {
    fc.assert(
      fc.property(amounts, weights, (total, shares) => {
        const whole = sum(shares.map(decimal));
        fc.pre(!whole.isZero());
        const parts = portions(decimal(total), shares.map(decimal));
        parts.forEach((part, index) => {
          const share = decimal(shares[index]!);
          const fair = portion(decimal(total), share, whole);
          expect(part.minus(fair).abs().lte(unit(24))).toBe(true);
          expect(share.isZero() && !part.isZero()).toBe(false);
        });
      }),
    );
  });

  it('shares plain amounts plainly', () => {
    const parts = portions(decimal('10.00'), [decimal(1), decimal(0), decimal(3)]);
    expect(shown(parts)).toEqual(['2.5', '0', '7.5']);
  });

  it('shares equally when the weights add up to zero', () => {
    expect(shown(portions(decimal(9), [ZERO, ZERO]))).toEqual(['4.5', '4.5']);
    expect(shown(portions(decimal(9), [decimal(2), decimal(-2)]))).toEqual(['4.5', '4.5']);
  });

  it('shares among nobody', () => {
    expect(portions(decimal(9), [])).toEqual([]);
  });

  it('takes negative weights, as of a piece brought back', () => {
    expect(shown(portions(decimal(6), [decimal(4), decimal(-1)]))).toEqual(['8', '-2']);
  });
});

describe('shownParts', () => {
  const values = fc.array(decimalTexts(8, 4), { maxLength: 12 });

  function check(
    test: (exact: readonly Decimal[], parts: readonly Decimal[], places: number) => void,
  ) {
    fc.assert(
      fc.property(values, fc.nat({ max: 3 }), (list, places) => {
        const exact = list.map(decimal);
        test(exact, shownParts(exact, places), places);
      }),
    );
  }

  it('adds up to the rounded sum', () => {
    check((exact, parts, places) => {
      expect(parts).toHaveLength(exact.length);
      expect(sum(parts).eq(roundTo(sum(exact), places))).toBe(true);
    });
  });

  it('moves each part by less than one unit, to a whole number of units', () => {
    check((exact, parts, places) => {
      parts.forEach((part, index) => {
        expect(part.minus(exact[index]!).abs().lt(unit(places))).toBe(true);
        expect(part.decimalPlaces()).toBeLessThanOrEqual(places);
      });
    });
  });

  it('raises the largest remainders: none is raised while a larger one is not', () => {
    check((exact, parts, places) => {
      const moves = parts.map((part, index) => part.minus(exact[index]!));
      const raised = moves.filter((move) => move.gt(ZERO));
      const lowered = moves.filter((move) => move.lt(ZERO));
      const isFair = (up: Decimal) => lowered.every((down) => up.minus(down).lte(unit(places)));
      expect(raised.every(isFair)).toBe(true);
    });
  });

  it('mirrors a negative list', () => {
    check((exact, parts, places) => {
      fc.pre(!roundTo(sum(exact), places).isZero());
      const mirrored = shownParts(
        exact.map((value) => value.neg()),
        places,
      );
      expect(shown(mirrored.map((part) => part.neg()))).toEqual(shown(parts));
    });
  });

  it.each([
    [['0.5', '0.5', '0.5'], 0, ['1', '1', '0']],
    [['33.333', '33.333', '33.334'], 2, ['33.33', '33.33', '33.34']],
    [['0.334', '0.333', '0.333'], 2, ['0.34', '0.33', '0.33']],
    [['0.4', '0.4', '0.4'], 0, ['1', '0', '0']],
    [['10.6', '-0.6'], 0, ['11', '-1']],
    [['10.4', '-0.6'], 0, ['11', '-1']],
    [['-0.5', '-0.5'], 0, ['-1', '0']],
    [['1.005'], 2, ['1.01']],
    [['-1.005'], 2, ['-1.01']],
    [[], 2, []],
  ])('shows %j with %d decimals as %j', (list, places, expected) => {
    expect(shown(shownParts(list.map(decimal), places))).toEqual(expected);
  });
});
