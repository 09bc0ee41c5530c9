import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import {
  CURRENCIES,
  NO_MONEY,
  add,
  decimalOf,
  fractionOf,
  less,
  lesser,
  minorDigits,
  moneyText,
  opposite,
  portionBy,
  portionOf,
  roundedMoney,
  times,
  total,
  type Money,
} from '../../src/number/money.ts';
import { holds } from '../helpers/law.ts';
import { halfUp } from '../helpers/exact.ts';

const FIVE = 500n as Money;
const TWO = 200n as Money;

describe('the type of money', () => {
  it('is kept apart from every other number by the compiler', () => {
    // @ts-expect-error: a number is not money
    const number: Money = 500;
    // @ts-expect-error: a bigint that nobody called money is not money
    const integer: Money = 500n;
    // @ts-expect-error: a decimal is not money, and money is not a decimal
    const quantity: Money = decimal(5);
    // @ts-expect-error: what a plain sum gives is not money any more
    const sum: Money = FIVE + 1n;
    // @ts-expect-error: neither is a product
    const product: Money = FIVE * TWO;
    // @ts-expect-error: money and a number can't be added, neither by the compiler nor at run time
    expect((): unknown => FIVE + 1).toThrow(TypeError);
    // @ts-expect-error: nor by our own sum
    expect(() => add(FIVE, 1)).toThrow(TypeError);
    expect([number, integer, quantity, sum, product]).toHaveLength(5);
  });
});

describe('sums of money', () => {
  it('add, take off, turn round, multiply and compare', () => {
    expect(add(FIVE, TWO)).toBe(700n);
    expect(less(FIVE, TWO, TWO, TWO)).toBe(-100n);
    expect(total([FIVE, TWO, opposite(FIVE)])).toBe(200n);
    expect(total([])).toBe(NO_MONEY);
    expect(opposite(NO_MONEY)).toBe(NO_MONEY);
    expect(times(TWO, 3)).toBe(600n);
    expect([lesser(FIVE, TWO), lesser(opposite(FIVE), TWO)]).toEqual([200n, -500n]);
  });
});

describe('rounding to whole minor units', () => {
  it.each([
    ['2.5', 0, 3n],
    ['-2.5', 0, -3n],
    ['2.4999999999', 0, 2n],
    ['-2.4999999999', 0, -2n],
    ['1.005', 2, 101n],
    ['-1.005', 2, -101n],
    ['0.0005', 3, 1n],
    ['-0.004', 2, 0n],
    ['12.3', 2, 1230n],
  ])('makes %s with %d decimals %d', (text, digits, units) => {
    expect(roundedMoney(decimal(text), digits)).toBe(units);
  });

  it.each<[bigint, bigint, bigint, bigint]>([
    [5n, 1n, 2n, 3n],
    [-5n, 1n, 2n, -3n],
    [5n, -1n, 2n, -3n],
    [5n, 1n, -2n, -3n],
    [-5n, -1n, 2n, 3n],
    [100n, 1n, 3n, 33n],
    [100n, 2n, 3n, 67n],
    [0n, 5n, 7n, 0n],
    [7n, 0n, 5n, 0n],
  ])('makes %d × %d ÷ %d %d', (...[amount, part, whole, rounded]) => {
    expect(portionOf(amount as Money, part, whole)).toBe(rounded);
  });

  it('is exact in any share of any amount', () => {
    const integers = fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n });
    holds(
      fc.property(integers, integers, integers, (amount, part, whole) => {
        fc.pre(whole > 0n);
        const expected = halfUp({ top: amount * part, bottom: whole }, 0);
        expect(String(portionOf(amount as Money, part, whole))).toBe(expected);
      }),
    );
  });

  it('gives all where all is taken, and refuses to share by nothing', () => {
    expect(portionOf(FIVE, 7n, 7n)).toBe(FIVE);
    expect(() => portionOf(FIVE, 1n, 0n)).toThrow(RangeError);
  });

  it('takes a quantity or a percentage of any length', () => {
    // 500 × 1.5 ÷ 4.5 = 166.67; 500 × .029 = 14.5
    expect(portionBy(FIVE, decimal('1.5'), decimal('4.5'))).toBe(167n);
    expect(portionBy(NO_MONEY, decimal('1.5'), decimal(0))).toBe(NO_MONEY);
    expect(fractionOf(FIVE, decimal('0.029'))).toBe(15n);
    expect(fractionOf(opposite(FIVE), decimal('0.029'))).toBe(-15n);
    expect(fractionOf(FIVE, decimal('0.0289999999'))).toBe(14n);
  });
});

describe('money as text', () => {
  it.each([
    [1230n, 2, '12.30'],
    [5n, 2, '0.05'],
    [-5n, 2, '-0.05'],
    [-1230n, 2, '-12.30'],
    [0n, 2, '0.00'],
    [1200n, 0, '1200'],
    [-1n, 0, '-1'],
    [0n, 0, '0'],
    [5n, 3, '0.005'],
    [123456n, 3, '123.456'],
  ])('writes %d with %d decimals as %s', (units, digits, text) => {
    expect(moneyText(units as Money, digits)).toBe(text);
  });

  it('reads back as the same amount, in currencies of any decimals', () => {
    const amounts = fc.bigInt({ min: -(10n ** 18n), max: 10n ** 18n });
    holds(
      fc.property(amounts, fc.constantFrom(0, 2, 3), (units, digits) => {
        const amount = units as Money;
        expect(roundedMoney(decimal(moneyText(amount, digits)), digits)).toBe(amount);
        expect(roundedMoney(decimalOf(amount, digits), digits)).toBe(amount);
        expect(decimalOf(amount, digits).toFixed(digits)).toBe(moneyText(amount, digits));
      }),
    );
  });
});

/**
 * The currencies of ISO 4217 list one whose minor unit is not 2, by country (from memory).
 */
const UNUSUAL: Readonly<Record<string, number>> = {
  'Bahrain BHD': 3,
  'Burundi BIF': 0,
  'Chile CLF': 4,
  'Chile CLP': 0,
  'Comoros KMF': 0,
  'Djibouti DJF': 0,
  'Guinea GNF': 0,
  'Iceland ISK': 0,
  'Iraq IQD': 3,
  'Japan JPY': 0,
  'Jordan JOD': 3,
  'Korea KRW': 0,
  'Kuwait KWD': 3,
  'Libya LYD': 3,
  'Oman OMR': 3,
  'Paraguay PYG': 0,
  'Rwanda RWF': 0,
  'Tunisia TND': 3,
  'Uganda UGX': 0,
  'Uruguay UYI': 0,
  'Uruguay UYW': 4,
  'Vanuatu VUV': 0,
  'Viet Nam VND': 0,
  'Central Africa XAF': 0,
  'West Africa XOF': 0,
  'French Pacific XPF': 0,
};

/** Codes that the standard has withdrawn, or gives no minor unit, though computers know them. */
const NOT_MONEY_NOW =
  'ADP AFA AON ATS AZM BEF BYR CUC CYP DEM EEK ESP FIM FRF GHC GRD GWP HRK IEP ITL LTL LUF LVL MGF ' +
  'MRO MTL MXP MZM NLG PTE ROL SDD SIT SKK SLL SRG STD TMM TRL UYP VEB VEF XAG XAU XDR XPD XPT XSU ' +
  'XTS XUA XXX YUM ZMK ZWD ZWL ZWR ANG';

describe('minorDigits', () => {
  it.each(Object.entries(UNUSUAL))('knows %s: %d', (name, digits) => {
    expect(minorDigits(name.slice(-3))).toBe(digits);
  });

  it('gives two digits to every other currency', () => {
    const unusual = Object.keys(UNUSUAL).map((name) => name.slice(-3));
    const others = CURRENCIES.filter((code) => !unusual.includes(code));
    expect(others.filter((code) => minorDigits(code) !== 2)).toEqual([]);
    expect(CURRENCIES.length - others.length).toBe(unusual.length);
  });

  it('knows every currency that the system knows, but for those that are no money now', () => {
    const withdrawn = new Set(NOT_MONEY_NOW.split(' '));
    const known = Intl.supportedValuesOf('currency').filter((code) => !withdrawn.has(code));
    expect(known.filter((code) => minorDigits(code) === undefined)).toEqual([]);
    expect(known.length).toBeGreaterThan(100);
  });

  it.each(['XXX', 'XAU', 'DEM', 'usd', 'US', '', 'toString', 'constructor'])(
    'does not take "%s" for a currency',
    (code) => {
      expect(minorDigits(code)).toBeUndefined();
    },
  );
});

describe('CURRENCIES', () => {
  it('has each code once, three capitals, in the order of the alphabet', () => {
    expect([...new Set(CURRENCIES)].sort()).toEqual(CURRENCIES);
    expect(CURRENCIES.filter((code) => !/^[A-Z]{3}$/.test(code))).toEqual([]);
    expect(CURRENCIES.at(0)).toBe('AED');
  });
});
