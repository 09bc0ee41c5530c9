import { describe, expect, test } from 'vitest';
import type { RawFile } from '../../../src/read/raw.ts';
import { check, said } from './said.ts';

describe('a missing, unknown or superfluous field', () => {
  test.each<[RawFile['kind'], string, string]>([
    [
      'bought',
      '-supplier',
      'x1 (key) schema: this purchase has no supplier; add it, such as supplier: Tumbledown Clay Store',
    ],
    [
      'firings',
      '-kind',
      'x1 (key) schema: this firing has no kind; add it, such as kind: bisque; the words are bisque, glaze, once, lustre, raku, test',
    ],
    [
      'sales',
      '-lines',
      'x1 (key) schema: this sale has no lines; add lines with its entries under it, such as - product: mug',
    ],
    ['studio', '-currency', ' schema: this studio has no currency; add it, such as currency: USD'],
    [
      'sales',
      'lines: [ { product: mug, count: 2 } ]',
      'x1/lines/0 schema: this line has no price; add it, such as price: 28',
    ],
    [
      'firings',
      'meter: { before: 1 }',
      'x1/meter (key) schema: this meter has no after; add it, such as after: 10553.9',
    ],
    [
      'bought',
      'freigth: 45',
      'x1/freigth (key) schema: a purchase has no field "freigth"; did you mean "freight"?',
    ],
    [
      'studio',
      'lead_days: 4',
      'lead_days (key) schema: a studio has no field "lead_days"; did you mean "lead-days"?',
    ],
    [
      'sales',
      'price: 28',
      'x1/price (key) schema: a sale has no field "price"; write price in an entry of lines',
    ],
    [
      'firings',
      'before: 3',
      'x1/before (key) schema: a firing has no field "before"; write before in meter',
    ],
    [
      'used',
      'weather: fine',
      'x1/weather (key) schema: a use has no field "weather"; write note if it is a remark; the fields are date, material, quantity, for, checked and note',
    ],
    [
      'mixed',
      '-base-weight',
      'x1 (key) schema: this mix has none of base-weight and total-weight; add exactly one of them, such as base-weight: 5000 g',
    ],
    [
      'mixed',
      'total-weight: 9 kg',
      'x1/total-weight (key) schema: this mix has base-weight and total-weight, but only one of them can be there; take base-weight or total-weight out, whichever is not meant',
    ],
    [
      'firings',
      'load: [ { in: 3 } ]',
      'x1/load/0 schema: this load line has none of lot, class and outside; add exactly one of them, such as lot: p260308kt',
    ],
    [
      'firings',
      'load: [ { in: 3, lot: a, outside: b, class: c } ]',
      'x1/load/0/class (key) schema: this load line has lot, class and outside, but only one of them can be there; take lot, class or outside out, whichever is not meant',
    ],
  ])('%s, %s', (kind, change, expected) => {
    expect(said(kind, change)).toEqual([expected]);
  });

  test('at most one measure of energy, said once however many there are', () => {
    const three =
      '{ date: 2026-03-20, kiln: k, kind: glaze, load: [], energy: 1 kWh, meter: { before: 1, after: 2 }, fuel-used: 3 gal }';
    expect(check('firings', `x1: ${three}\n`)).toMatchObject([
      {
        at: { path: ['x1', 'meter'], on: 'key' },
        message: 'this firing has energy, meter and fuel-used, but only one of them can be there',
      },
    ]);
  });

  test.each(['constructor', '__proto__', 'toString'])(
    '%s is a field like any unknown one',
    (key) => {
      expect(
        check('used', `x1: { date: 2026-03-08, material: a, quantity: 1, ${key}: 3 }\n`),
      ).toMatchObject([
        { at: { path: ['x1', key], on: 'key' }, message: `a use has no field "${key}"` },
      ]);
    },
  );
});
