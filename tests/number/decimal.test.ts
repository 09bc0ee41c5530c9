import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimal,
  divide,
  integerOf,
  integersOf,
  isDecimal,
  ONE,
  portion,
  root,
  roundTo,
  sum,
  timesQuotient,
  ZERO,
  type Decimal,
} from '../../src/number/decimal.ts';
import { holds } from '../helpers/law.ts';
import { by, decimalTexts, fraction, halfUp, over, withPoint } from '../helpers/exact.ts';

const amounts = decimalTexts(12, 4);
const long = decimalTexts(38, 24);

function isNotZero(text: string): boolean {
  return /[1-9]/.test(text);
}

function shown(values: readonly Decimal[]): string[] {
  return values.map((value) => value.toString());
}

/** 10 to the power of −places. */
function unit(places: number): Decimal {
  return decimal(withPoint(1n, places));
}

describe('decimal', () => {
  it.each(['0', '12', '-0.50', '.5', '+3', '0.1234567890123456789012345678901234567890123'])(
    'keeps every digit of %s',
    (text) => {
      const { top, bottom } = fraction(text.replace(/^\+?\./, '0.'));
      const places = String(bottom).length - 1;
      expect(decimal(text).toFixed(places)).toBe(withPoint(top, places));
    },
  );

  it('knows no float: 0.1 and 0.2 are 0.3', () => {
    expect(decimal('0.1').plus(decimal('0.2')).toString()).toBe('0.3');
  });

  it.each(['', ' 1', '1 ', '1e5', '0x1f', '1_000', '1,5', '1.', '.', '-', 'NaN', 'Infinity', '½'])(
    'refuses the text "%s"',
    (text) => {
      expect(() => decimal(text)).toThrow(RangeError);
    },
  );

  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])(
    'refuses the number %d',
    (number) => {
      expect(() => decimal(number)).toThrow(RangeError);
    },
  );

  it('takes whole numbers', () => {
    expect(decimal(24).toString()).toBe('24');
    expect(decimal(-3).toString()).toBe('-3');
    expect(decimal(Number.MAX_SAFE_INTEGER).toString()).toBe('9007199254740991');
  });

  it('never writes an exponent', () => {
    expect(decimal('1000000000000000000000000').toString()).toBe('1000000000000000000000000');
    expect(decimal('0.000000000000000000000001').toString()).toBe('0.000000000000000000000001');
  });

  it('reads a negative zero as zero', () => {
    expect(decimal('-0.00').isNegative()).toBe(false);
  });

  it('is the same object for the same text', () => {
    expect(decimal('48.25')).toBe(decimal('48.25'));
  });

  it('does not remember more than so many texts, and reads the others anew', () => {
    const before = decimal('48.25');
    for (let other = 0; other < 70_000; other += 1) decimal(other);
    const again = decimal('48.25');
    expect(again).not.toBe(before);
    expect(again.eq(before)).toBe(true);
  });

  it('shows a half rounded up', () => {
    expect(['2.5', '-2.5', '1.005'].map((text) => decimal(text).toFixed(0))).toEqual([
      '3',
      '-3',
      '1',
    ]);
    expect(decimal('1.005').toFixed(2)).toBe('1.01');
  });

  it('has no division of its own, and takes no plain number as an operand', () => {
    // @ts-expect-error every division goes through divide, portion or portions
    const division: keyof Decimal = 'div';
    // @ts-expect-error a float could slip in
    const product = ONE.times(3);
    expect([division, product.toString()]).toEqual(['div', '3']);
  });

  it('adds, takes away and multiplies as BigInt does', () => {
    holds(
      fc.property(
        fc.bigInt({ min: 0n, max: 10n ** 19n }),
        fc.bigInt({ min: 0n, max: 10n ** 19n }),
        (a, b) => {
          const [left, right] = [decimal(withPoint(a, 3)), decimal(withPoint(b, 3))];
          expect(left.plus(right).toFixed(3)).toBe(withPoint(a + b, 3));
          expect(left.minus(right).toFixed(3)).toBe(withPoint(a - b, 3));
          expect(left.times(right).toFixed(6)).toBe(withPoint(a * b, 6));
        },
      ),
    );
  });
});

describe('isDecimal', () => {
  it('tells decimals from what looks like them', () => {
    expect([ZERO, decimal('1.5'), divide(ONE, decimal(3))].map(isDecimal)).toEqual([
      true,
      true,
      true,
    ]);
    expect([0, '0', null, undefined, {}, { d: [1], e: 0, s: 1 }].some(isDecimal)).toBe(false);
  });
});

describe('divide', () => {
  it('rounds like BigInt, half up at the 24th decimal', () => {
    holds(
      fc.property(long, long.filter(isNotZero), (a, b) => {
        const expected = halfUp(over(fraction(a), fraction(b)), 24);
        expect(divide(decimal(a), decimal(b)).toFixed(24)).toBe(expected);
      }),
    );
  });

  it('rounds once: 49 at the 25th decimal is not first rounded to 5', () => {
    const nearlyHalf = decimal(`0.${'0'.repeat(24)}4${'9'.repeat(30)}`);
    expect(divide(nearlyHalf, ONE).toString()).toBe('0');
    expect(divide(decimal(`0.${'0'.repeat(24)}5`), ONE).eq(unit(24))).toBe(true);
    expect(divide(decimal(`-0.${'0'.repeat(24)}5`), ONE).eq(unit(24).neg())).toBe(true);
  });

  it('refuses zero', () => {
    expect(() => divide(ONE, ZERO)).toThrow(RangeError);
  });

  it('leaves a number of the ledger: later sums keep 40 digits and round half up', () => {
    const third = divide(ONE, decimal(3));
    expect(third.times(third).toString()).toBe(`0.${'1'.repeat(23)}0${'8'.repeat(15)}9`);
  });
});

describe('portion', () => {
  it('multiplies exactly and rounds once, as BigInt does', () => {
    holds(
      fc.property(long, amounts, amounts.filter(isNotZero), (total, part, whole) => {
        fc.pre(part !== whole);
        const exact = over(by(fraction(total), fraction(part)), fraction(whole));
        const got = portion(decimal(total), decimal(part), decimal(whole));
        expect(got.toFixed(24)).toBe(halfUp(exact, 24));
      }),
    );
  });

  it('gives the whole total for the whole, with every digit', () => {
    const total = decimal('7.0000000000000000000000000009');
    expect(portion(total, decimal('3.00'), decimal(3))).toBe(total);
  });

  it('gives zero without a minus for no part', () => {
    expect(portion(decimal(-5), ZERO, decimal(3)).isNegative()).toBe(false);
  });

  it('refuses a whole of zero, even for a part of zero', () => {
    expect(() => portion(ONE, ZERO, ZERO)).toThrow(RangeError);
  });
});

describe('roundTo', () => {
  it('rounds like BigInt, a half away from zero', () => {
    holds(
      fc.property(decimalTexts(20, 6), fc.nat({ max: 5 }), (text, places) => {
        expect(roundTo(decimal(text), places).toFixed(places)).toBe(halfUp(fraction(text), places));
      }),
    );
  });

  it('has no negative zero', () => {
    expect(roundTo(decimal('-0.4'), 0).toFixed(0)).toBe('0');
  });
});

describe('root', () => {
  it('is the half-up root to 24 decimals', () => {
    holds(
      fc.property(decimalTexts(15, 8), (text) => {
        const value = decimal(text).abs();
        const got = root(value);
        const halfUnit = decimal(withPoint(5n, 25));
        const low = got.minus(halfUnit);
        const high = got.plus(halfUnit);
        const { top, bottom } = fraction(value.toString());
        const low25 = fraction(low.toFixed(25));
        const high25 = fraction(high.toFixed(25));
        expect(low25.top <= 0n || low25.top ** 2n * bottom <= top * low25.bottom ** 2n).toBe(true);
        expect(high25.top ** 2n * bottom > top * high25.bottom ** 2n).toBe(true);
      }),
    );
  });

  it('is exact for squares', () => {
    expect(shown(['0', '1', '2.25', '1000000'].map((text) => root(decimal(text))))).toEqual([
      '0',
      '1',
      '1.5',
      '1000',
    ]);
  });

  it('refuses a negative number', () => {
    expect(() => root(decimal('-0.01'))).toThrow(RangeError);
  });
});

describe('sum', () => {
  it('of none is zero', () => {
    expect(sum([]).isZero()).toBe(true);
  });

  it('takes any iterable', () => {
    expect(sum(new Set([decimal('0.1'), decimal('0.2')])).toString()).toBe('0.3');
  });
});

describe('integersOf', () => {
  it('makes numbers integers of one size', () => {
    expect(integersOf(['1.5', '0.25', '-3', '0'].map(decimal))).toEqual([150n, 25n, -300n, 0n]);
    expect(integersOf([])).toEqual([]);
  });

  it('keeps their ratios exactly', () => {
    holds(
      fc.property(long, long, (a, b) => {
        const [one = 0n, other = 0n] = integersOf([decimal(a), decimal(b)]);
        const [left, right] = [fraction(a), fraction(b)];
        expect(one * right.top * left.bottom).toBe(other * left.top * right.bottom);
      }),
    );
  });
});

describe('integerOf', () => {
  it.each([
    ['12.345', 2, 1235n],
    ['-12.345', 2, -1235n],
    ['-0.001', 2, 0n],
    ['7', 3, 7000n],
  ])('makes %s with %d decimals %d', (text, places, whole) => {
    expect(integerOf(decimal(text), places)).toBe(whole);
  });
});

describe('timesQuotient', () => {
  it('divides nothing, so that a third of a third of nine is one', () => {
    const third = { top: ONE, bottom: decimal(3) };
    const { top, bottom } = timesQuotient(third, third);
    expect(divide(top.times(decimal(9)), bottom).toString()).toBe('1');
  });
});
