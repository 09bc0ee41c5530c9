import { describe, expect, it } from 'vitest';
import { decimal, isDecimal, type Decimal } from '../../src/number/decimal.ts';
import type { Money } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { productCostTable } from '../../src/report/product-cost.ts';
import type { Table } from '../../src/report/table.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

function mugTable(files: Files, year: string): Table {
  const book = bookFrom(files);
  const span = { from: `${year}-01-01`, to: `${year}-12-31` };
  const flows = flow(book, span.to);
  return productCostTable(book, flows, { product: 'mug', span, by: 'space' }) ?? expect.fail();
}

/** What a whole load of a hundred costs, by part; parts that cost nothing are left out. */
function loadOf({ rows }: Table): Record<string, string> {
  const parts = rows.flatMap(({ item, cost }) =>
    isDecimal(cost ?? null) && !(cost as Decimal).isZero()
      ? [[String(item), (cost as Decimal).times(decimal(100)).toFixed(2)] as const]
      : [],
  );
  return Object.fromEntries(parts);
}

// potters.org/subject20737.htm, 1999
describe('a whole load of a hundred mugs', () => {
  // Clay 100 lb at .25 = 25.00; bisque 70 kWh at .05 = 3.50; glaze 3.00; glaze firing 100 kWh = 5.00;
  // elements 180 per 100 firings = 1.80; shelves 60 per 100 firings = .60; total 38.90, .389 a mug.
  // The source charges wear for one of the two firings: here the parts are fitted between the two.
  const table = mugTable(
    {
      materials: `
clay: { name: Clay, kind: clay, unit: lb }
dry: { name: Dry glaze, kind: ready-mixed, unit: lb }
`,
      recipes:
        'clear: { name: Clear, kind: glaze, versions: [{ from: 1999-01-01, base: [{ material: dry, parts: 100 }] }] }',
      products:
        'mug: { name: Mug, clay: { material: clay, each: 1 lb }, glazes: [{ recipe: clear, each: 0.1 lb }] }',
      channels: 'door: { name: Door, kind: direct }',
      bought:
        'b1: { date: 1999-01-01, supplier: Pit, lines: [{ material: clay, quantity: 100 lb, cost: 25.00 }, { material: dry, quantity: 10 lb, cost: 3.00 }] }',
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
    },
    '1999',
  );

  it('costs 38.90, .389 a mug', () => {
    expect(loadOf(table)).toEqual({ clay: '25.00', glaze: '3.00', energy: '8.50', wear: '2.40' });
    expect(String(table.totals?.['cost'])).toBe('0.389');
  });

  it('must sell for .39 at least', () => {
    const direct = table.rows.find(({ item }) => item === 'direct');
    expect(told(direct?.['floor'] as Money)).toBe('0.39');
  });

  it('leads from each part to the records behind it', () => {
    const behind = Object.fromEntries(
      table.rows.map(({ item }, at) => [String(item), table.behind?.()?.[at]]),
    );
    expect(behind).toMatchObject({ clay: ['p1'], energy: ['f1', 'f2'], direct: ['door'] });
  });
});

// pistrucciartworks.wordpress.com, July 2011
describe('the energy of two unmetered firings', () => {
  // 48 A × 240 V = 11.52 kW at .21 a kWh: bisque at half power for 7 h 8.47, glaze at 65 % for 8.5 h
  // 13.37. The hundred mugs are of this test, so that the pieces' energy is that of the two firings.
  const table = mugTable(
    {
      products: 'mug: { name: Mug }',
      kilns:
        'kiln: { name: Kiln, fuel: electricity, power: 11.52 kW, duty: { bisque: 50%, glaze: 65% } }',
      tariffs: 't1: { from: 2011-01-01, fuel: electricity, price: 0.21, per: kWh }',
      pieces: 'p1: { date: 2011-06-20, product: mug, made: 100 }',
      firings: `
f1: { date: 2011-07-01, kiln: kiln, kind: bisque, hours: 7, load: [{ lot: p1, in: 100, first: 100 }] }
f2: { date: 2011-07-08, kiln: kiln, kind: glaze, hours: 8.5, load: [{ lot: p1, in: 100, first: 100 }] }
`,
    },
    '2011',
  );

  it('is 8.47 + 13.37 for the load', () => {
    // 8.47 + 13.37, as printed: each firing is booked to the cent.
    expect(loadOf(table)).toEqual({ energy: '21.84' });
  });
});
