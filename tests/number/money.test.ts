import { describe, expect, it } from 'vitest';
import { CURRENCIES, decimalsOf, minorDigits } from '../../src/number/money.ts';

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

describe('decimalsOf', () => {
  it.each([
    ['12', 0],
    ['1.10', 2],
    ['0.005', 3],
    ['-3.5', 1],
    ['0', 0],
  ])('counts those of %s as written: %d', (text, decimals) => {
    expect(decimalsOf(text)).toBe(decimals);
  });
});
