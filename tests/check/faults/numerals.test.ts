import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  everydayDigits,
  isNumeral,
  isPlain,
  plainDigits,
  wholeDigits,
} from '../../../src/check/faults/numerals.ts';
import { holds } from '../../helpers/law.ts';

test.each(['0', '7', '-7', '12.50', '999999999999', '0.12345678901234567890'])(
  '%s is in plain digits',
  (text) => {
    expect([isPlain(text), isNumeral(text)]).toEqual([true, true]);
  },
);

test.each([
  '1e3',
  '1E-3',
  '0x1F',
  '0o17',
  '0b1',
  '+5',
  '.5',
  '5.',
  '012',
  '-0',
  '1_000',
  '.inf',
  '-.INF',
  '.NaN',
])('%s is a numeral, but not in plain digits', (text) => {
  expect([isPlain(text), isNumeral(text)]).toEqual([false, true]);
});

test.each(['', 'x', '1 kg', '1,5', '12E', 'e5', '1-2', '--1', '.', '_1'])(
  '%s is no numeral',
  (text) => {
    expect([isPlain(text), isNumeral(text)]).toEqual([false, false]);
  },
);

describe('plain digits', () => {
  test.each([
    ['1e3', '1000'],
    ['2.5e1', '25'],
    ['0x1F', '31'],
    ['+5.50', '5.50'],
    ['-.5', '-0.5'],
    ['00', '0'],
    ['-0.0', '0.0'],
    ['1_000.5', '1000.5'],
    ['.inf', undefined],
    ['1e99', undefined],
    ['1e-9', undefined],
    ['x', undefined],
  ])('of %s: %s', (text, digits) => {
    expect(plainDigits(text)).toBe(digits);
  });

  test('are worth the same', () => {
    const number = fc.integer({ min: -999_999, max: 999_999 });
    const disguise = fc.constantFrom<(n: number) => string>(
      (n) => (n < 0 ? String(n) : `+${n}`),
      (n) => `${n}.`,
      (n) => `${n}e0`,
      (n) => String(n).replace(/(\d)(\d{3})$/, '$1_$2'),
      (n) => String(n).replace(/^(-?)/, '$100'),
    );
    holds(
      fc.property(number, disguise, (value, hide) => {
        expect(Number(plainDigits(hide(value)))).toBe(value === 0 ? 0 : value);
      }),
    );
  });
});

test.each([
  ['3.0', '3'],
  ['3.', '3'],
  ['3', '3'],
  ['3.5', undefined],
  ['x', undefined],
])('whole digits of %s: %s', (text, digits) => {
  expect(wholeDigits(text)).toBe(digits);
});

test('an amount with marks and signs means the amount without them', () => {
  const cents = fc.integer({ min: 100_000, max: 99_999_999 });
  holds(
    fc.property(cents, fc.constantFrom('$', 'EUR ', '£', ''), (value, sign) => {
      const plain = (value / 100).toFixed(2);
      const [whole = '', decimals = ''] = plain.split('.');
      const grouped = (mark: string): string => whole.replace(/\B(?=(\d{3})+$)/g, mark);
      expect(everydayDigits(`${sign}${grouped(',')}.${decimals}`)).toEqual([plain]);
      expect(everydayDigits(`${sign}${grouped('.')},${decimals}`)).toEqual([plain]);
      expect(everydayDigits(`${grouped(' ')},${decimals} ${sign}`)).toEqual([plain]);
    }),
  );
});
