import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { KINDS, type Kind } from '../../src/book.ts';
import { typeRecord, typeStudio } from '../../src/check/typed.ts';
import { decimal, isDecimal } from '../../src/number/decimal.ts';
import { parseQuantity } from '../../src/number/unit.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { holds } from '../helpers/law.ts';
import { rawFile } from '../helpers/file-views.ts';
import { DOCUMENTS, fileOf } from '../schema/documents.ts';

const ORIGIN = { id: 'x1', file: 'some/file.yaml' };

function raw(kind: Kind | 'studio', text: string): RawMap {
  return rawFile(kind, text).root;
}

test('a purchase with everything', () => {
  const record = raw(
    'bought',
    `date: 2026-03-08
supplier: Tumbledown Clay Store
invoice: "0044"
lines:
  - { material: silica, quantity: 4 x 25 lb, cost: 22.50, lot: "12E5" }
  - { material: box, quantity: 24, cost: "9", weight: 2 x 3 kg }
freight: 45.10
discount: 12
share-freight-by: weight
paid: no
`,
  );
  expect(typeRecord('bought', record, ORIGIN)).toEqual({
    id: 'x1',
    file: 'some/file.yaml',
    date: '2026-03-08',
    supplier: 'Tumbledown Clay Store',
    invoice: '0044',
    lines: [
      {
        material: 'silica',
        quantity: parseQuantity('4 x 25 lb'),
        cost: decimal('22.5'),
        lot: '12E5',
      },
      {
        material: 'box',
        quantity: parseQuantity('24'),
        cost: decimal('9'),
        weight: parseQuantity('2 x 3 kg'),
      },
    ],
    freight: decimal('45.1'),
    discount: decimal('12'),
    shareFreightBy: 'weight',
    paid: 'no',
  });
});

test('a firing: counts are numbers, cones have one form, free keys stay as they are', () => {
  const record = raw(
    'firings',
    `date: 2026-03-20
kiln: rotunda
kind: glaze
cone: 03 1/2
cone-seen: "04"
hours: 8.5
fuel-used: { material: propane, quantity: 12 gal }
meter: { before: 10482.5, after: 10553.9 }
load:
  - { lot: p1, in: 24, first: 21, second: 2, lost: 1, why: { s-crack: 2, dripped-on: 1 }, refire: yes, space: 1.5 }
`,
  );
  const firing = typeRecord('firings', record, ORIGIN);
  expect(firing).toMatchObject({
    cone: '03½',
    coneSeen: '04',
    hours: decimal('8.5'),
    fuelUsed: { material: 'propane', quantity: parseQuantity('12 gal') },
    meter: { before: decimal('10482.5'), after: decimal('10553.9') },
    load: [
      { lot: 'p1', in: 24, first: 21, second: 2, lost: 1, refire: 'yes', space: decimal('1.5') },
    ],
  });
  expect(Object.entries(firing.load[0]?.why ?? {})).toEqual([
    ['s-crack', 2],
    ['dripped-on', 1],
  ]);
});

test('fuel that is priced by the tariff is a quantity', () => {
  const record = raw('firings', 'fuel-used: 12 gal\n');
  expect(typeRecord('firings', record, ORIGIN).fuelUsed).toEqual(parseQuantity('12 gal'));
});

test('a discount is money or a share of 1', () => {
  const record = raw('sales', 'discount: 10%\nlines: [ { discount: 2.5 }, { discount: 12.5% } ]\n');
  expect(typeRecord('sales', record, ORIGIN)).toMatchObject({
    discount: { percent: decimal('0.1') },
    lines: [{ discount: { amount: decimal('2.5') } }, { discount: { percent: decimal('0.125') } }],
  });
});

test('percentages are exact shares of 1', () => {
  const record = raw(
    'channels',
    'commission: 33.3333333333%\nfee-percent: 100%\ntax-included: 0%\n',
  );
  const { commission, feePercent, taxIncluded } = typeRecord('channels', record, ORIGIN);
  expect([commission, feePercent, taxIncluded].map(String)).toEqual(['0.333333333333', '1', '0']);
});

test('a kiln: power in kW, heat content, duty and wear', () => {
  const record = raw(
    'kilns',
    'power: 11.52 kW\nheat-content: 10.8 kWh/m3-gas\nduty: { bisque: 50% }\nwear: [ { part: Elements, cost: 180, firings: 100 } ]\n',
  );
  expect(typeRecord('kilns', record, ORIGIN)).toMatchObject({
    power: decimal('11.52'),
    heatContent: { value: decimal('10.8'), energy: 'kWh', per: 'm3-gas' },
    duty: { bisque: decimal('0.5') },
    wear: [{ part: 'Elements', cost: decimal('180'), firings: decimal('100') }],
  });
  expect(typeRecord('kilns', raw('kilns', 'power: 9\n'), ORIGIN).power).toEqual(decimal('9'));
});

test('a key of a free map can be any word, and none is there of itself', () => {
  const mix = typeRecord('mixed', raw('mixed', 'lots: { constructor: A1 }\n'), ORIGIN);
  expect(mix.lots?.['constructor']).toBe('A1');
  expect(Object.getPrototypeOf(mix.lots)).toBeNull();
});

test('fields that are absent stay absent', () => {
  const record = raw('sales', fileOf('studio', DOCUMENTS.sales.base));
  expect(Object.keys(typeRecord('sales', record, ORIGIN))).toEqual([
    'id',
    'file',
    'date',
    'channel',
    'lines',
  ]);
});

test('a refund stays below zero', () => {
  expect(typeRecord('spent', raw('spent', 'amount: -20.50\n'), ORIGIN).amount).toEqual(
    decimal('-20.5'),
  );
});

test('settings', () => {
  const text =
    'format: 1\nname: Hill\ncurrency: USD\nlabour-rate: 22.50\nincome-tax-rate: 22%\nlead-days: 7\nyear-starts: "04-06"\ncategories: { kiln-insurance: "22" }\n';
  expect(typeStudio(raw('studio', text), 'studio.yaml')).toEqual({
    file: 'studio.yaml',
    format: '1',
    name: 'Hill',
    currency: 'USD',
    labourRate: decimal('22.5'),
    incomeTaxRate: decimal('0.22'),
    leadDays: 7,
    yearStarts: '04-06',
    categories: { 'kiln-insurance': '22' },
  });
});

describe('every sound document can be typed', () => {
  test.each(KINDS)('%s', (kind) => {
    const { base, good } = DOCUMENTS[kind];
    for (const change of good) {
      const record = raw(kind, fileOf(kind, base, change))['x1'] as RawMap;
      const typed = typeRecord(kind, record, ORIGIN) as unknown as Record<string, unknown>;
      const keys = Object.keys(record).map((key) =>
        key.replace(/-(.)/g, (_, c: string) => c.toUpperCase()),
      );
      expect(Object.keys(typed)).toEqual(['id', 'file', ...keys]);
    }
  });
});

test('no digit of an amount is lost', () => {
  const digits = fc.stringMatching(/^(?:0|[1-9][0-9]{0,11})\.[0-9]{1,20}$/);
  holds(
    fc.property(digits, (text) => {
      const { amount } = typeRecord('spent', { amount: text }, ORIGIN);
      expect(isDecimal(amount)).toBe(true);
      expect(amount.toFixed(text.split('.')[1]?.length)).toBe(text);
    }),
  );
});

test.each<[Kind, RawMap]>([
  ['spent', { amount: ['1'] }],
  ['sales', { lines: 'x' }],
  ['products', { clay: 'x' }],
  ['mixed', { lots: ['x'] }],
  ['used', { quantity: 'some' }],
  ['recipes', { cone: '15' }],
])('an unsound record of %s is refused, for checkFile keeps it back', (kind, record) => {
  expect(() => typeRecord(kind, record, ORIGIN)).toThrow(RangeError);
});
