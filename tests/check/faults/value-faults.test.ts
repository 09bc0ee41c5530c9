import { describe, expect, test } from 'vitest';
import type { RawFile } from '../../../src/read/raw.ts';
import { check, said } from './said.ts';

describe('a value of the wrong sort', () => {
  test.each<[RawFile['kind'], string, string]>([
    ['products', 'minutes: ', 'x1/minutes schema: minutes is empty; write it as minutes: 18'],
    ['products', 'name: ""', 'x1/name schema: name is empty; write it as name: Mug'],
    [
      'products',
      'clay: 450 g',
      'x1/clay schema: clay has no fields of its own; write its fields under it, such as material: stoneware',
    ],
    [
      'products',
      'packing: { material: box, each: 1 }',
      'x1/packing schema: packing is not a list; write its entries under it, such as - material: mug-box',
    ],
    [
      'products',
      'glazes: ',
      'x1/glazes schema: glazes is empty; write its entries under it, such as - recipe: tenmoku, or take it out',
    ],
    [
      'products',
      'price: [ 28 ]',
      'x1/price schema: price has a list, but one value belongs there; write it as price: 28',
    ],
    [
      'recipes',
      'cone: { from: "6" }',
      'x1/cone schema: cone has fields of its own, but one value belongs there; write it as cone: "6"',
    ],
    [
      'sales',
      'lines: []',
      'x1/lines schema: lines has no entry; add at least one, on a line that starts with a dash',
    ],
    [
      'products',
      'care: [ food, oven, food ]',
      'x1/care/2 schema: care names "food" twice; take this one out',
    ],
  ])('%s, %s', (kind, change, expected) => {
    expect(said(kind, change)).toEqual([expected]);
  });

  test('a record that is no mapping', () => {
    for (const text of ['x1: 3\n', 'x1: [ a ]\n'])
      expect(check('used', text)).toMatchObject([
        {
          at: { path: ['x1'] },
          message: 'x1 has no fields of its own',
          hint: 'write its fields under it, such as date: 2026-03-08',
        },
      ]);
  });
});

describe('a word that is not known', () => {
  test.each<[RawFile['kind'], string, string]>([
    [
      'firings',
      'kind: bisqe',
      'x1/kind schema: kind is "bisqe", which is not one of its words; did you mean "bisque"?',
    ],
    [
      'kilns',
      'fuel: gas',
      'x1/fuel schema: fuel is "gas", which is not one of its words; write one of electricity, propane, natural-gas, wood',
    ],
    ['studio', 'format: 2', 'format schema: format is "2", which is not known here; write 1'],
    [
      'studio',
      'basis: Cash',
      'basis schema: basis is "Cash", which is not one of its words; did you mean "cash"?',
    ],
    [
      'recipes',
      'for-food: true',
      'x1/for-food schema: for-food is "true", which is not one of its words; did you mean "yes"?',
    ],
    [
      'firings',
      'load: [ { lot: a, in: 1, why: { craked: 1 } } ]',
      'x1/load/0/why/craked (key) schema: "craked" is not one of the words for why; did you mean "cracked"?',
    ],
    [
      'kilns',
      'duty: { oxidation: 4% }',
      'x1/duty/oxidation (key) schema: "oxidation" is not one of the words for duty; write one of bisque, glaze, once, lustre, raku, test',
    ],
    [
      'materials',
      'analysis: { sio2: 4% }',
      'x1/analysis/sio2 (key) schema: a key of analysis is "sio2", which is not a formula; write the oxide as its formula, such as SiO2, or LOI',
    ],
    [
      'firings',
      'kiln: my kiln',
      'x1/kiln schema: kiln is "my kiln", which can\'t be an id; write my-kiln; an id is a letter, then letters, digits and hyphens',
    ],
    [
      'firings',
      'kiln: 12',
      'x1/kiln schema: kiln is "12", which can\'t be an id; an id is a letter, then letters, digits and hyphens',
    ],
  ])('%s, %s', (kind, change, expected) => {
    expect(said(kind, change)).toEqual([expected]);
  });

  test('a key at the margin that is no id', () => {
    expect(check('used', '3 mugs: { date: 2026-03-08, material: a, quantity: 1 }\n')).toMatchObject(
      [
        {
          at: { path: ['3 mugs'], on: 'key' },
          rule: 'schema',
          message: 'this id is "3 mugs", which can\'t be an id',
        },
      ],
    );
  });
});

describe('a text without the quotes that it needs', () => {
  test.each<[RawFile['kind'], string, string]>([
    [
      'recipes',
      'cone: 04',
      'x1/cone needs-quotes: cone is 04 without quotes, which other readers take for the number 4; write cone: "04"',
    ],
    [
      'recipes',
      'cone: 4',
      'x1/cone needs-quotes: cone is 4 without quotes, which other readers take for the number 4; write cone: "4", or cone: "04" for the low-fire cone',
    ],
    [
      'bought',
      'invoice: 12E5',
      'x1/invoice needs-quotes: invoice is 12E5 without quotes, which other readers take for the number 1200000; write invoice: "12E5"',
    ],
    [
      'bought',
      'invoice: 0044',
      'x1/invoice needs-quotes: invoice is 0044 without quotes, which other readers take for the number 44; write invoice: "0044"',
    ],
    [
      'bought',
      'supplier: true',
      'x1/supplier needs-quotes: supplier is true without quotes, which other readers take for a yes or no; write supplier: "true"',
    ],
    [
      'bought',
      'note: null',
      'x1/note needs-quotes: note is null without quotes, which other readers take for nothing; write note: "null"',
    ],
    [
      'mixed',
      'lots: { other: 4471 }',
      'x1/lots/other needs-quotes: other is 4471 without quotes, which other readers take for the number 4471; write other: "4471"',
    ],
  ])('%s, %s', (kind, change, expected) => {
    expect(said(kind, change)).toEqual([expected]);
  });
});

describe('a number that is not in plain digits', () => {
  test.each<[string, string]>([
    ['1e3', 'write 1000'],
    ['0x1F', 'write 31'],
    ['+5', 'write 5'],
    ['1_000', 'write 1000'],
    ['012.50', 'write 12.50'],
    ['.5', 'write 0.5'],
    ['5.', 'write 5'],
    ['-0', 'write 0'],
    ['"1e3"', 'write 1000'],
  ])('%s', (text, hint) => {
    const bare = text.replaceAll('"', '');
    expect(said('bought', `freight: ${text}`)).toEqual([
      `x1/freight number-form: freight is "${bare}", which other programs may read as another number; ${hint}`,
    ]);
  });

  test.each(['.inf', '.nan', '-.inf'])('%s is no number at all', (text) => {
    expect(said('bought', `freight: ${text}`)).toEqual([
      `x1/freight number-form: freight is "${text}", which is not an amount in plain digits; write digits with a point for the decimals, such as 45`,
    ]);
  });

  test('a count has no point', () => {
    expect(said('pieces', 'made: 24.0')).toEqual([
      'x1/made number-form: made is "24.0", which is not a whole number; write 24',
    ]);
  });

  test('too many digits are not cut off in silence', () => {
    const long = '0.123456789012345678901';
    expect(said('bought', `freight: ${long}`)).toEqual([
      `x1/freight number-form: freight is "${long}", which has too many digits; write at most 12 before the point and 20 after it`,
    ]);
    expect(said('bought', 'freight: 1000000000001')).toEqual([
      'x1/freight number-form: freight is "1000000000001", which has too many digits; write at most 12 before the point and 20 after it',
    ]);
    expect(said('pieces', 'made: 1000000000')).toEqual([
      'x1/made schema: made is "1000000000", which has too many digits; write at most 9 digits',
    ]);
  });
});
