/** Rounding, shares and minor units against figures in print. */
import { describe, expect, it } from 'vitest';
import { decimal, roundTo } from '../../src/number/decimal.ts';
import {
  minorDigits,
  moneyText,
  portionOf,
  roundedMoney,
  shareOut,
  total,
  type Money,
} from '../../src/number/money.ts';

function rounded(text: string, places = 0): string {
  return roundTo(decimal(text), places).toFixed(places);
}

// Java SE documentation, java.math.RoundingMode: the table of HALF_UP.
describe('rounding half up', () => {
  it.each([
    ['5.5', '6'],
    ['2.5', '3'],
    ['1.6', '2'],
    ['1.1', '1'],
    ['1.0', '1'],
    ['-1.0', '-1'],
    ['-1.1', '-1'],
    ['-1.6', '-2'],
    ['-2.5', '-3'],
    ['-5.5', '-6'],
  ])('makes %s %s', (text, whole) => {
    expect(rounded(text)).toBe(whole);
    expect(moneyText(roundedMoney(decimal(text), 0), 0)).toBe(whole);
  });

  // The same table for HALF_EVEN has 2 and -2; JavaScript's Math.round makes -2.5 -2; 1.005 is less
  // than 1.005 as a float. Each would pass for half up on friendlier numbers.
  it('is neither half even, nor the rounding of the language, nor of floats', () => {
    expect([rounded('2.5'), rounded('-2.5')]).not.toEqual(['2', '-2']);
    expect(rounded('-2.5')).not.toBe(String(Math.round(-2.5)));
    expect(rounded('1.005', 2)).toBe('1.01');
    expect(rounded('1.005', 2)).not.toBe((1.005).toFixed(2));
  });
});

// The first apportionment of the US House that followed a census (1790), had it been done by
// Hamilton's method of largest remainders: 60 seats by population.
const STATES: readonly (readonly [string, number, number])[] = [
  ['Virginia', 630_560, 11],
  ['Massachusetts', 475_327, 8],
  ['Pennsylvania', 432_879, 7],
  ['North Carolina', 353_523, 6],
  ['New York', 331_589, 6],
  ['Maryland', 278_514, 5],
  ['Connecticut', 236_841, 4],
  ['South Carolina', 206_236, 3],
  ['New Jersey', 179_570, 3],
  ['New Hampshire', 141_822, 2],
  ['Vermont', 85_533, 1],
  ['Georgia', 70_835, 1],
  ['Kentucky', 68_705, 1],
  ['Rhode Island', 68_446, 1],
  ['Delaware', 55_540, 1],
];

describe('largest remainders', () => {
  const people = STATES.map(([, count]) => BigInt(count));
  const seats = STATES.map(([, , count]) => BigInt(count));
  const house = 60n as Money;

  it('gives the 60 seats of 1790 to the states', () => {
    expect(shareOut(house, people)).toEqual(seats);
  });

  // Rounded each alone they are 59 (computed here): Virginia's 10.463 would be cut to 10.
  it('fills all 60, where rounding each alone leaves one empty', () => {
    const all = people.reduce((sum, count) => sum + count, 0n);
    const alone = people.map((count) => portionOf(house, count, all));
    expect(total(alone)).toBe(59n);
    expect(total(shareOut(house, people))).toBe(60n);
  });
});

// ISO 4217 list one.
describe('minor units', () => {
  it.each([
    ['USD', 2],
    ['EUR', 2],
    ['GBP', 2],
    ['JPY', 0],
    ['KWD', 3],
  ])('of %s are %d', (currency, digits) => {
    expect(minorDigits(currency)).toBe(digits);
  });
});
