import { inUnit, measureIn } from '../../src/number/measure.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, type Decimal } from '../../src/number/decimal.ts';
import {
  convert,
  dimensionOf,
  inBase,
  isUnit,
  parseHeatContent,
  parsePower,
  parseQuantity,
  ratioIn,
  UNITS,
  type Dimension,
  type Unit,
} from '../../src/number/unit.ts';
import { holds } from '../helpers/law.ts';
import { by, decimalTexts, fraction, halfUp, over, withPoint } from '../helpers/exact.ts';

const ALL = Object.keys(UNITS).filter(isUnit);
const units = fc.constantFrom(...ALL);
const values = decimalTexts(12, 6);
const pairs = ALL.flatMap((from) => ALL.map((to): [Unit, Unit] => [from, to]));
const related = pairs.filter(([from, to]) => dimensionOf(from) === dimensionOf(to));

describe('UNITS', () => {
  it('has the units of the book, by dimension', () => {
    const of = (dimension: Dimension) => ALL.filter((unit) => dimensionOf(unit) === dimension);
    expect(of('weight')).toEqual(['g', 'kg', 't', 'oz', 'lb', 'ton']);
    const metric = ['mL', 'L'];
    const customary = ['floz', 'pint', 'qt', 'gal', 'imp-pint', 'imp-gal', 'ft3', 'in3'];
    expect(of('volume')).toEqual([...metric, ...customary]);
    expect(of('energy')).toEqual(['kWh', 'MJ', 'Btu', 'therm']);
    expect(of('gas')).toEqual(['m3-gas', 'ccf']);
    expect(of('count')).toEqual(['each']);
    expect(ALL).toHaveLength(23);
  });

  it('names a source for each', () => {
    expect(ALL.filter((unit) => UNITS[unit].source.length === 0)).toEqual([]);
  });

  it.each(['toString', 'KG', 'l', 'ml', 'litre', 'pt', 'tonne', 'm3', '', 'constructor'])(
    'has no unit "%s"',
    (text) => {
      expect(isUnit(text)).toBe(false);
    },
  );
});

describe('convert', () => {
  it.each(related)('turns %s into %s as whole numbers do', (from, to) => {
    holds(
      fc.property(values, (text) => {
        const [factor, base] = [fraction(UNITS[from].factor), fraction(UNITS[to].factor)];
        const expected = halfUp(over(by(fraction(text), factor), base), 24);
        expect(convert(decimal(text), from, to)?.toFixed(24)).toBe(expected);
      }),
      20,
    );
  });

  it('comes back to where it began', () => {
    holds(
      fc.property(values, fc.constantFrom(...related), (text, [from, to]) => {
        const start = decimal(text);
        const back = convert(convert(start, from, to)!, to, from)!;
        const slip = decimal(`0.${'0'.repeat(14)}1`);
        expect(back.minus(start).abs().lte(slip)).toBe(true);
      }),
    );
  });

  it('leaves the value itself in its own unit', () => {
    const value = decimal('1.2300000000000000000000000000001');
    expect(convert(value, 'lb', 'lb')).toBe(value);
  });

  it('refuses two dimensions, and gas for energy', () => {
    holds(
      fc.property(units, units, (from, to) => {
        const refused = convert(decimal(1), from, to) === undefined;
        expect(refused).toBe(dimensionOf(from) !== dimensionOf(to));
      }),
    );
    expect(convert(decimal(1), 'ccf', 'therm')).toBeUndefined();
    expect(convert(decimal(1), 'gal', 'kg')).toBeUndefined();
  });

  it('keeps to 24 decimals, so that stock kept in another unit still adds up', () => {
    const third = decimal(`0.${'3'.repeat(24)}`);
    expect(convert(third, 'lb', 'kg')?.toString()).toBe('0.151197456666666666666667');
    expect(convert(third, 'lb', 'oz')?.toString()).toBe('5.333333333333333333333328');
  });
});

describe('parseQuantity', () => {
  it.each([
    ['12.5 kg', '12.5', 'kg'],
    ['4 x 25 lb', '100', 'lb'],
    ['1.5 x 50 lb', '75', 'lb'],
    ['3 gal', '3', 'gal'],
    ['24', '24', 'each'],
    ['24 each', '24', 'each'],
    ['2 x 12', '24', 'each'],
    ['0 g', '0', 'g'],
    ['0.10 imp-pint', '0.1', 'imp-pint'],
    ['9 m3-gas', '9', 'm3-gas'],
  ])('reads %s', (text, value, unit) => {
    const quantity = parseQuantity(text);
    expect(quantity?.value.toString()).toBe(value);
    expect(quantity).toMatchObject({ unit, text });
  });

  it.each([
    '',
    'kg',
    '-3 kg',
    '12,5 kg',
    '1.5e3 g',
    '3 litre',
    '3 toString',
    '3kg',
    ' 3 kg',
    '3 kg ',
    '3  kg',
    '4 × 25 lb',
    '4x25 lb',
    '4 x 25 x 2 lb',
    '1. kg',
    '.5 kg',
    '1234567890123 g',
    `0.${'1'.repeat(21)} g`,
  ])('refuses "%s"', (text) => {
    expect(parseQuantity(text)).toBeUndefined();
  });

  it('reads every multiple of every unit', () => {
    const count = fc.nat({ max: 99 });
    holds(
      fc.property(count, fc.nat({ max: 99_999 }), units, (times, each, unit) => {
        const got = parseQuantity(`${times} x ${withPoint(BigInt(each), 2)} ${unit}`);
        expect(got?.value.toFixed(2)).toBe(withPoint(BigInt(times * each), 2));
        expect(got?.unit).toBe(unit);
      }),
    );
  });

  it('remembers a text, but not more than so many', () => {
    const before = parseQuantity('12.5 kg');
    expect(parseQuantity('12.5 kg')).toBe(before);
    for (let other = 0; other < 20_000; other += 1) parseQuantity(`${other} g`);
    const again = parseQuantity('12.5 kg');
    expect(again).not.toBe(before);
    expect(again?.value.toString()).toBe('12.5');
  });
});

function told(heat: { value: Decimal; energy: Unit; per: Unit } | undefined): unknown {
  return heat && [heat.value.toString(), heat.energy, heat.per];
}

describe('parseHeatContent', () => {
  it.each([
    ['10.8 kWh/m3-gas', ['10.8', 'kWh', 'm3-gas']],
    ['1.037 therm/ccf', ['1.037', 'therm', 'ccf']],
    ['1035 Btu/ft3', ['103500', 'Btu', 'ccf']],
    ['38.9 MJ/m3-gas', ['38.9', 'MJ', 'm3-gas']],
  ])('reads %s', (text, expected) => {
    expect(told(parseHeatContent(text))).toEqual(expected);
  });

  it.each([
    '10.8',
    '10.8 kWh',
    '10.8 kWh/gal',
    '10.8 kg/ccf',
    '10.8 ccf/kWh',
    '10.8 kWh/each',
    '0 kWh/ccf',
    '0.00 Btu/ft3',
    '-1 kWh/ccf',
    '10.8 kWh / ccf',
    '10.8 kWh/ccf/ccf',
  ])('refuses "%s"', (text) => {
    expect(parseHeatContent(text)).toBeUndefined();
  });
});

describe('parsePower', () => {
  it.each([
    ['11.52 kW', '11.52'],
    ['9', '9'],
    ['0.5 kW', '0.5'],
  ])('reads %s as %s kW', (text, kilowatts) => {
    expect(parsePower(text)?.toString()).toBe(kilowatts);
  });

  it.each(['', 'kW', '9 W', '9 kWh', '9kW', '-9 kW', '9 kW '])('refuses "%s"', (text) => {
    expect(parsePower(text)).toBeUndefined();
  });
});

describe('the base unit', () => {
  it.each<[string, Unit, string]>([
    ['1.5', 'kg', '1500'],
    ['3', 'lb', '1360.77711'],
    ['1', 'oz', '28.349523125'],
    ['2', 'gal', '7570.823568'],
    ['7', 'each', '7'],
    ['-0.1', 'g', '-0.1'],
  ])('%s %s are %s of it, exactly, and back', (text, unit, base) => {
    expect(inBase(decimal(text), unit).toString()).toBe(base);
    expect(inUnit(measureIn(decimal(text), unit), unit).toString()).toBe(text);
  });

  it('is told in another unit with at most twelve decimals', () => {
    // 1 ÷ 453.59237 = 0.0022046226218487…
    expect(inUnit(measureIn(decimal(1), 'g'), 'lb').toString()).toBe('0.002204622622');
  });
});

describe('ratioIn', () => {
  it('is exact where a decimal could not be', () => {
    // A pound in ounces is 453.59237 ÷ 28.349523125.
    const pound = ratioIn(decimal(1), 'lb', 'oz');
    expect([pound?.top.toString(), pound?.bottom.toString()]).toEqual([
      '453.59237',
      '28.349523125',
    ]);
    const same = ratioIn(decimal(5), 'kg', 'kg');
    expect([same?.top.toString(), same?.bottom.toString()]).toEqual(['5', '1']);
  });

  it('is none between what measures different things', () => {
    expect(ratioIn(decimal(1), 'lb', 'L')).toBeUndefined();
  });
});
