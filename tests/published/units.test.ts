/** Units against figures in print. */
import { describe, expect, it } from 'vitest';
import { decimal, roundTo } from '../../src/number/decimal.ts';
import { convert, parseHeatContent, parseQuantity, type Unit } from '../../src/number/unit.ts';

function turned(text: string, to: Unit): string | undefined {
  const quantity = parseQuantity(text);
  return quantity && convert(quantity.value, quantity.unit, to)?.toString();
}

function turnedTo(text: string, to: Unit, places: number): string | undefined {
  const exact = turned(text, to);
  return exact === undefined ? undefined : roundTo(decimal(exact), places).toFixed(places);
}

describe('weights and measures', () => {
  // NIST Special Publication 811 (2008), appendix B, and NIST Handbook 44, appendix C: exact values.
  it.each<[string, Unit, string]>([
    ['1 lb', 'g', '453.59237'],
    ['1 oz', 'g', '28.349523125'],
    ['1 lb', 'oz', '16'],
    ['1 ton', 'kg', '907.18474'],
    ['1 ton', 'lb', '2000'],
    ['1 gal', 'L', '3.785411784'],
    ['1 pint', 'mL', '473.176473'],
    ['1 imp-pint', 'mL', '568.26125'],
    ['1 in3', 'mL', '16.387064'],
    ['1 ft3', 'in3', '1728'],
    ['1 ft3', 'L', '28.316846592'],
    ['1 ccf', 'm3-gas', '2.8316846592'],
    ['1 gal', 'in3', '231'],
  ])('%s is so many %s: %s', (from, to, expected) => {
    expect(turned(from, to)).toBe(expected);
  });

  // NIST Handbook 44, appendix C: a US pint is 16 fluid ounces, a quart 2 pints, a gallon 4 quarts.
  // The imperial gallon of 4.54609 L (NIST SP 811) holds 8 imperial pints.
  it.each<[string, Unit, string]>([
    ['1 pint', 'floz', '16'],
    ['1 qt', 'pint', '2'],
    ['1 gal', 'qt', '4'],
    ['1 imp-gal', 'imp-pint', '8'],
    ['1 imp-gal', 'L', '4.54609'],
  ])('%s holds so many %s: %s', (from, to, expected) => {
    expect(turned(from, to)).toBe(expected);
  });

  // The pairs that are easily taken for each other, by the exact factors above: an imperial pint is
  // a fifth more than a US pint, a tonne a tenth more than a US ton.
  it('keeps apart what sounds alike', () => {
    expect(turnedTo('1 imp-pint', 'pint', 5)).toBe('1.20095');
    expect(turnedTo('1 imp-gal', 'gal', 5)).toBe('1.20095');
    expect(turnedTo('1 t', 'ton', 5)).toBe('1.10231');
    expect(turned('1 t', 'kg')).toBe('1000');
    expect(turnedTo('1 floz', 'mL', 3)).toBe('29.574');
    expect(turnedTo('1 oz', 'g', 3)).toBe('28.350');
  });
});

describe('energy', () => {
  // US Energy Information Administration, units and calculators: 1 kWh = 3,412 Btu (to the Btu),
  // 1 therm = 100,000 Btu.
  it('agrees with the printed Btu', () => {
    expect(turnedTo('1 kWh', 'Btu', 0)).toBe('3412');
    expect(turned('1 therm', 'Btu')).toBe('100000');
  });

  // NIST SP 811, appendix B: 1 kWh = 3.6 MJ exactly; International Table Btu 1055.05585262 J.
  it('takes the International Table Btu', () => {
    expect(turned('1 kWh', 'MJ')).toBe('3.6');
    expect(turned('1000000 Btu', 'MJ')).toBe('1055.05585262');
    expect(turnedTo('1 therm', 'kWh', 4)).toBe('29.3071');
  });

  // US Energy Information Administration, as reported second-hand: 91,452 Btu in a gallon of
  // propane; the kWh are computed here from the exact Btu.
  it('turns the heat of a gallon of propane into kWh', () => {
    expect(turnedTo('91452 Btu', 'kWh', 3)).toBe('26.802');
  });

  // US Energy Information Administration: 1,028 to 1,039 Btu in a cubic foot of natural gas by year
  // and place, so that 100 ft3 (a ccf) are a little more than a therm.
  it.each([
    ['1028 Btu/ft3', '102800', '1.02800'],
    ['1039 Btu/ft3', '103900', '1.03900'],
  ])('reads the heat of gas: %s', (text, perCcf, therms) => {
    const heat = parseHeatContent(text);
    expect(heat?.value.toString()).toBe(perCcf);
    expect(turnedTo(`${perCcf} Btu`, 'therm', 5)).toBe(therms);
  });
});
