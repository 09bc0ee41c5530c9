/** The forms of values in the schemas are those that the number modules read. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PATTERNS } from '../../schema/generated/fields.js';
import { load } from '../../schema/build/shapes.js';
import { parseCone } from '../../src/number/cone.ts';
import { isDay, isTime } from '../../src/number/date.ts';
import {
  UNITS,
  dimensionOf,
  parseHeatContent,
  parsePower,
  parseQuantity,
  type Dimension,
  type Unit,
} from '../../src/number/unit.ts';
import { holds } from '../helpers/law.ts';

function form(name: string): RegExp {
  return new RegExp(PATTERNS[name]!, 'u');
}

const twoDigits = fc.integer({ min: 0, max: 40 }).map((number) => String(number).padStart(2, '0'));
const year = fc.integer({ min: 1900, max: 2099 }).map(String);

test('dates are the days of the calendar from 1900 to 2099', () => {
  const date = form('date');
  holds(
    fc.property(year, twoDigits, twoDigits, (y, m, d) => {
      const day = `${y}-${m}-${d}`;
      const real = new Date(`${day}T00:00:00Z`);
      const isReal = !Number.isNaN(real.getTime()) && real.toISOString().startsWith(day);
      expect(date.test(day)).toBe(isReal);
      expect(date.test(day)).toBe(isDay(day));
    }),
    2000,
  );
});

test('29 February is a day in leap years only, in every year', () => {
  for (let y = 1900; y < 2100; y++) {
    const leap = new Date(Date.UTC(y, 1, 29)).getUTCDate() === 29;
    expect([y, form('date').test(`${y}-02-29`)]).toEqual([y, leap]);
    expect([y, form('paid').test(`${y}-02-29`)]).toEqual([y, leap]);
  }
});

test.each(['1899-12-31', '2100-01-01', '0206-03-08', '2026-3-08', ' 2026-03-08', '2026-03-08 '])(
  '"%s" is no date',
  (text) => {
    expect(form('date').test(text)).toBe(false);
    expect(form('paid').test(text)).toBe(false);
  },
);

test('times and months are the same here and there', () => {
  holds(
    fc.property(twoDigits, fc.integer({ min: 0, max: 70 }), (hour, minute) => {
      const time = `${hour}:${String(minute).padStart(2, '0')}`;
      expect(form('time').test(time)).toBe(isTime(time));
      expect(form('hours-of-day').test(`${time}-00:00`)).toBe(isTime(time));
    }),
  );
  holds(
    fc.property(twoDigits, twoDigits, (month, day) => {
      const text = `${month}-${day}`;
      expect(form('month-day').test(text)).toBe(isDay(`2026-${text}`));
    }),
  );
});

test('cones are those that can be ordered', () => {
  const coneLike = fc.tuple(
    fc.constantFrom('', '0', '00'),
    fc.integer({ min: 0, max: 30 }).map(String),
    fc.constantFrom('', '½', ' 1/2', '1/2', '.5'),
  );
  holds(
    fc.property(coneLike, (parts) => {
      const text = parts.join('');
      expect([text, form('cone').test(text)]).toEqual([text, parseCone(text) !== undefined]);
    }),
    1000,
  );
});

const UNIT_WORDS = Object.keys(UNITS) as Unit[];
const numberText = fc.constantFrom(
  '0',
  '0.0',
  '1',
  '12.5',
  '007',
  '-1',
  '1.',
  '.5',
  '1e3',
  '1,5',
  '',
);
const unitText = fc.constantFrom(
  ...UNIT_WORDS.map((unit) => ` ${unit}`),
  '',
  ' KG',
  'kg',
  '  kg',
  ' ',
);
const quantityLike = fc
  .tuple(
    fc.oneof(
      fc.constant(''),
      numberText.map((text) => `${text} x `),
    ),
    numberText,
    unitText,
  )
  .map((parts) => parts.join(''));

test('quantities are those that can be read, but for numbers with a leading zero', () => {
  holds(
    fc.property(quantityLike, (text) => {
      const read = parseQuantity(text);
      const leadingZero = /(?:^| )0\d/.test(text);
      expect([text, form('quantity').test(text)]).toEqual([
        text,
        read !== undefined && !leadingZero,
      ]);
    }),
    3000,
  );
});

test('a quantity that must be above zero is', () => {
  holds(
    fc.property(quantityLike, (text) => {
      const above = parseQuantity(text)?.value.isZero() === false;
      if (form('quantity').test(text)) expect(form('positive-quantity').test(text)).toBe(above);
      else expect(form('positive-quantity').test(text)).toBe(false);
    }),
    3000,
  );
});

describe.each<[string, Dimension[]]>([
  ['weight', ['weight']],
  ['weight-or-volume', ['weight', 'volume']],
  ['energy', ['energy']],
])('%s', (name, dimensions) => {
  test.each(UNIT_WORDS)('takes %s or not, as its dimension says', (unit) => {
    expect(form(name).test(`2 x 5.5 ${unit}`)).toBe(dimensions.includes(dimensionOf(unit)));
  });

  test('needs a unit', () => {
    expect(form(name).test('5')).toBe(false);
  });
});

test('the lists of units are those of the number module', () => {
  const words = (name: string): unknown[] => load('values').$defs?.[name]?.enum ?? [];
  const of = (...dimensions: Dimension[]): Unit[] =>
    UNIT_WORDS.filter((unit) => dimensions.includes(dimensionOf(unit)));
  expect(words('unit')).toEqual(UNIT_WORDS);
  expect(words('stock-unit')).toEqual(of('weight', 'volume', 'count'));
  expect(words('weight-unit')).toEqual(of('weight'));
  expect(words('volume-unit')).toEqual(of('volume'));
});

test('power and heat content are those that can be read', () => {
  const per = fc.constantFrom('m3-gas', 'ccf', 'ft3', 'gal', 'L');
  holds(
    fc.property(numberText, unitText, per, (number, unit, gas) => {
      const heat = `${number}${unit}/${gas}`;
      const leadingZero = /^0\d/.test(number);
      const read = parseHeatContent(heat) !== undefined && !leadingZero;
      expect([heat, form('heat-content').test(heat)]).toEqual([heat, read]);
      const power = `${number}${unit === ' kWh' ? ' kW' : unit}`;
      const readPower = parsePower(power) !== undefined && !leadingZero;
      expect([power, form('power').test(power)]).toEqual([power, readPower]);
    }),
    2000,
  );
});

test.each([
  [
    'amount',
    ['0', '12', '12.50', '999999999999.99'],
    ['', '-1', '+1', '1e3', '1,0', '.5', '5.', '012', '1000000000000'],
  ],
  ['amount-or-refund', ['-20', '-0.5', '0', '20'], ['--1', '-0', '-0.00', '+5', '- 5']],
  ['rate', ['0.12345678'], ['0.1.2']],
  ['positive-number', ['0.1', '1', '10'], ['0', '0.00', '-1']],
  ['density', ['1.01', '2', '2.65', '19.9', '10'], ['1', '1.0', '0.9', '20', '1.0000000', '145']],
  ['count', ['0', '24'], ['1.0', '-1', '01', '1e3', '1000000000']],
  ['positive-count', ['1', '24', '100'], ['0', '00', '01', '-1']],
  ['percent', ['0%', '8%', '140%', '12.5%'], ['8', '8 %', '-8%', '%', '08%']],
  ['share', ['0%', '100%', '100.0%', '99.99%', '7.5%'], ['100.01%', '101%', '1000%', '40', '07%']],
  ['discount', ['5', '10%', '0'], ['110%', '-5', '10 %']],
  ['temperature', ['1222 °C', '2232 F'], ['1222', '1222C', '1222 K', '-5 °C']],
  ['distance', ['84 km', '52.5 mi'], ['84', '84 miles', '84km']],
  ['currency', ['USD'], ['usd', 'US', 'USDX']],
  ['oxide', ['SiO2', 'LOI', 'KNaO'], ['sio2', 'Si O2', '']],
  ['id', ['mug', 'B-2', 'x'], ['2b', '-b', 'b_2', 'b c', '', 'é']],
  ['text', ['x', ' x', '0'], ['', ' ', '\t']],
  ['hours-of-day', ['16:00-21:00', '22:00-06:00'], ['16-21', '16:00 - 21:00', '16:00-24:00']],
])('%s', (name, good, bad) => {
  for (const text of good) expect([text, form(name).test(text)]).toEqual([text, true]);
  for (const text of bad) expect([text, form(name).test(text)]).toEqual([text, false]);
});
