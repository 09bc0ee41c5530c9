import { describe, expect, it } from 'vitest';
import { times } from '../../src/number/money.ts';
import { totalOf } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import { productCosts } from '../../src/reckon/costs/product-cost.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

// pistrucciartworks.wordpress.com, July 2011
describe('energy of an unmetered firing', () => {
  // 48 A × 240 V = 11.52 kW at .21 a kWh: bisque at half power for 7 h, glaze at 65 % for 8.5 h.
  const book = bookFrom({
    kilns: `kiln: { name: Kiln, fuel: electricity, power: 11.52 kW, duty: { bisque: 50%, glaze: 65% } }`,
    tariffs: 't1: { from: 2011-01-01, fuel: electricity, price: 0.21, per: kWh }',
    firings: `
f1: { date: 2011-07-01, kiln: kiln, kind: bisque, hours: 7, load: [] }
f2: { date: 2011-07-08, kiln: kiln, kind: glaze, hours: 8.5, load: [] }
`,
  });
  const costs = flow(book, '2011-07-31').ware.firings;

  it('bisque 8.47', () => {
    expect(told(costs.get('f1')?.energyCost)).toBe('8.47');
    expect(costs.get('f1')?.energy?.estimated).toBe(true);
  });

  it('glaze 13.37', () => {
    expect(told(costs.get('f2')?.energyCost)).toBe('13.37');
  });
});

describe('wear by units of production (OpenStax, vol. 1, section 11.3)', () => {
  // (58,000 − 10,000) ÷ 960,000 = 0.05 a unit, 180,000 units → 9,000: here a part whose cost less
  // salvage is 48,000 and that lasts 960,000 firings; 180,000 times one firing's wear.
  it('charges cost ÷ firings to each firing', () => {
    const book = bookFrom({
      kilns:
        'kiln: { name: Kiln, fuel: electricity, wear: [{ part: press, cost: 48000, firings: 960000 }] }',
      firings: 'f1: { date: 2025-01-01, kiln: kiln, kind: bisque, load: [] }',
    });
    const wear = flow(book, '2025-01-01').ware.firings.get('f1')?.wearCost;
    expect(told(wear)).toBe('0.05');
    expect(wear && told(times(wear, 180_000))).toBe('9000.00');
  });
});

// potters.org/subject20737.htm, 1999
describe('a load of a hundred mugs', () => {
  // Clay 25.00, bisque 3.50, glaze 3.00, glaze firing 5.00, elements 1.80, shelves .60: 38.90 in all,
  // .389 a mug. The source charges wear for one of the two firings, so the parts here are fitted
  // between the two.
  const book = bookFrom({
    materials: `
clay: { name: Clay, kind: clay, unit: lb }
dry: { name: Dry glaze, kind: ready-mixed, unit: lb }
`,
    recipes:
      'clear: { name: Clear, kind: glaze, versions: [{ from: 1999-01-01, base: [{ material: dry, parts: 100 }] }] }',
    products:
      'mug: { name: Mug, clay: { material: clay, each: 1 lb }, glazes: [{ recipe: clear, each: 0.1 lb }], price: 8 }',
    bought: `
b1: { date: 1999-01-01, supplier: Pit, lines: [{ material: clay, quantity: 100 lb, cost: 25.00 }, { material: dry, quantity: 10 lb, cost: 3.00 }] }
`,
    mixed: 'm1: { date: 1999-01-02, recipe: clear, total-weight: 10 lb }',
    kilns: `
kiln:
  name: Kiln
  fuel: electricity
  wear:
    - { part: elements, cost: 180, firings: 100, fitted: 1999-01-15 }
    - { part: shelves, cost: 60, firings: 100, fitted: 1999-01-15 }
`,
    tariffs: 't1: { from: 1999-01-01, fuel: electricity, price: 0.05, per: kWh }',
    pieces: 'p1: { date: 1999-01-02, product: mug, made: 100 }',
    firings: `
f1: { date: 1999-01-10, kiln: kiln, kind: bisque, energy: 70 kWh, load: [{ lot: p1, in: 100, first: 100 }] }
f2: { date: 1999-01-20, kiln: kiln, kind: glaze, energy: 100 kWh, load: [{ lot: p1, in: 100, first: 100 }] }
`,
  });

  const flows = flow(book, '1999-01-31');

  it('costs 38.90, .389 a mug', () => {
    const shelf = flows.ware.lots.get('p1')?.shelf;
    expect(shelf && told(totalOf(shelf.cost))).toBe('38.90');
    expect(told(shelf?.cost.glaze)).toBe('3.00');
    expect(told(shelf?.cost.wear)).toBe('2.40');
    const span = { from: '1999-01-01', to: '1999-01-31' };
    const [mug] = productCosts(book, flows, { span, by: 'space' }).products;
    expect(mug?.cost.total.toFixed(3)).toBe('0.389');
  });
});
