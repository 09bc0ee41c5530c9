import { describe, expect, it } from 'vitest';
import { effectLines, holdingsOf } from '../../src/entry/effect.ts';
import { bookFrom, type Files } from '../helpers/book.ts';

const BASE: Files = {
  materials:
    'clay:\n  name: C\n  kind: clay\n  unit: lb\nspar:\n  name: S\n  kind: dry\n  unit: kg\nbox:\n  name: B\n  kind: packing\n  unit: each\n',
  recipes: `glaze:
  name: G
  kind: glaze
  versions: [{ from: 2026-01-01, base: [{ material: spar, parts: 1 }] }]
`,
  products: `mug:
  name: M
  clay: { material: clay, each: 1 lb }
  glazes: [{ recipe: glaze, each: 50 g }]
  packing: [{ material: box, each: 1 }]
`,
  channels:
    'door:\n  name: D\n  kind: direct\ngallery:\n  name: G\n  kind: consignment\n  commission: 40%\n',
  kilns: 'k:\n  name: K\n  fuel: wood\n',
  bought: `b1:
  date: 2026-01-01
  supplier: P
  lines:
    - { material: clay, quantity: 100 lb, cost: 50 }
    - { material: spar, quantity: 10 kg, cost: 20 }
    - { material: box, quantity: 40, cost: 20 }
`,
  mixed: 'm1:\n  date: 2026-01-02\n  recipe: glaze\n  base-weight: 3 kg\n',
  pieces: 'p1:\n  date: 2026-01-03\n  product: mug\n  made: 20\n',
  firings: `f1:
  date: 2026-01-04
  kiln: k
  kind: bisque
  load: [{ lot: p1, in: 20, first: 20 }]
f2:
  date: 2026-01-05
  kiln: k
  kind: glaze
  load: [{ lot: p1, in: 10, first: 8, second: 2 }]
`,
};

const CLOSED = {
  studio: 'format: 1\nname: S\ncurrency: EUR\nclosed-through: 2026-01-31\n',
};

function effect(
  files: Files,
  touched: { kind: keyof Files; id: string },
  before: Files = {},
): unknown {
  const sides = {
    before: bookFrom({ ...BASE, ...before }),
    after: bookFrom({ ...BASE, ...before, ...files }),
    asOf: '2026-02-01',
  };
  const held = holdingsOf(sides.before, sides.asOf);
  const holds = holdingsOf(sides.after, sides.asOf);
  return effectLines({ ...sides, held, holds }, [
    touched as Parameters<typeof effectLines>[1][number],
  ]);
}

const SALE = (lines: string, more = ''): Files => ({
  sales: `s1:\n  date: 2026-01-10\n  channel: door\n  lines: [${lines}]\n${more}`,
});

describe('the effect of a record', () => {
  it('of a sale: its money, packing and pieces', () => {
    const sale = SALE(
      '{ product: mug, count: 3, price: 40 }, { product: mug, grade: second, count: 1, price: 20.5 }',
      '  shipping: 9.50\n  fee: 2\n',
    );
    expect(effect(sale, { kind: 'sales', id: 's1' })).toEqual([
      'sale s1 150.00 USD, fee 2.00',
      'mug in the studio 8 → 5',
      'mug seconds in the studio 2 → 1',
      'box 40 → 36',
    ]);
  });

  it('of a changed sale: the money before and after', () => {
    const before = SALE('{ product: mug, count: 1, price: 40 }');
    const after = SALE('{ product: mug, count: 1, price: 36 }');
    expect(effect(after, { kind: 'sales', id: 's1' }, before)).toEqual([
      'sale s1 40.00 USD → 36.00 USD',
    ]);
  });

  it('of what comes into closed business, or goes out of it', () => {
    const sale = SALE('{ for: mending, count: 1, price: 40 }');
    const touched = { kind: 'sales', id: 's1' } as const;
    const line = '2026-01-10 is closed: the settings say closed-through 2026-01-31';
    expect(effect({ ...CLOSED, ...sale }, touched)).toEqual([line, 'sale s1 40.00 EUR']);
    expect(effect({ sales: '' }, touched, { ...CLOSED, ...sale })).toEqual([line]);
    const later = SALE('{ for: mending, count: 1, price: 40 }', '  paid: 2026-02-01\n');
    expect(effect(later, touched, { ...CLOSED, ...sale })).toEqual([]);
    const open = sale.sales?.replace('2026-01-10', '2026-02-01') ?? '';
    expect(effect({ ...CLOSED, sales: open }, touched)).toEqual(['sale s1 40.00 EUR']);
  });

  it('of a return: money and pieces the other way', () => {
    const sale = SALE('{ product: mug, count: 1, price: 40, returned: yes }');
    expect(effect(sale, { kind: 'sales', id: 's1' })).toEqual([
      'sale s1 -40.00 USD',
      'mug in the studio 8 → 9',
    ]);
  });

  it('of a purchase: what it comes to with freight, tax and discount', () => {
    const bought = `${BASE.bought ?? ''}b2:
  date: 2026-01-20
  supplier: P
  lines: [{ material: clay, quantity: 4 x 25 lb, cost: 92 }]
  freight: 10
  tax: 1.5
  discount: 2
`;
    expect(effect({ bought }, { kind: 'bought', id: 'b2' })).toEqual([
      'purchase b2 101.50 USD',
      'clay 80 lb → 180 lb',
    ]);
  });

  it('sets thousands apart', () => {
    const bought = `${BASE.bought ?? ''}b2:\n  date: 2026-01-20\n  supplier: S\n  lines:\n    - { material: clay, quantity: 1000 lb, cost: 1500.00 }\n`;
    expect(effect({ bought }, { kind: 'bought', id: 'b2' })).toEqual([
      'purchase b2 1,500.00 USD',
      'clay 80 lb → 1,080 lb',
    ]);
  });

  it('of a glaze firing: the bucket, and the pieces on their way', () => {
    const firings = `${BASE.firings ?? ''}f3:
  date: 2026-01-20
  kiln: k
  kind: glaze
  load: [{ lot: p1, in: 9 }]
`;
    expect(effect({ firings }, { kind: 'firings', id: 'f3' })).toEqual([
      'mug bisqueware 10 → 1',
      'mug in the kiln 0 → 9',
      'glaze bucket glaze 2.5 kg → 2.05 kg',
    ]);
  });

  it('shows a bucket in the unit of the studio', () => {
    const studio = 'format: 1\nname: T\ncurrency: USD\nweight-unit: lb\n';
    const mixed = `${BASE.mixed ?? ''}m2:\n  date: 2026-01-20\n  recipe: glaze\n  base-weight: 1 lb\n`;
    expect(effect({ mixed }, { kind: 'mixed', id: 'm2' }, { studio })).toEqual([
      'spar 7 kg → 6.546 kg',
      'glaze bucket glaze 5.512 lb → 6.512 lb',
    ]);
  });

  it('of goods sent to a gallery: both places', () => {
    const consigned =
      'c1:\n  date: 2026-01-20\n  channel: gallery\n  sent: [{ product: mug, count: 6 }]\n';
    expect(effect({ consigned }, { kind: 'consigned', id: 'c1' })).toEqual([
      'mug in the studio 8 → 2',
      'mug at gallery 0 → 6',
    ]);
  });

  it('of a definition: nothing, or a new pool with stock in it', () => {
    const channels = `${BASE.channels ?? ''}shop:\n  name: S\n  kind: fair\n`;
    expect(effect({ channels }, { kind: 'channels', id: 'shop' })).toEqual([]);
  });

  it('ends where there is too much to tell', () => {
    const names = Array.from({ length: 20 }, (_, index) => `x${String(index)}`);
    const materials = `${BASE.materials ?? ''}${names.map((id) => `${id}:\n  name: X\n  kind: dry\n  unit: kg\n`).join('')}`;
    const lines = names.map((id) => `{ material: ${id}, quantity: 1 kg, cost: 1 }`).join(', ');
    const bought = `${BASE.bought ?? ''}b2:\n  date: 2026-01-20\n  supplier: P\n  lines: [${lines}]\n`;
    const said = effect({ bought }, { kind: 'bought', id: 'b2' }, { materials }) as string[];
    expect(said).toHaveLength(13);
    expect(said.at(-1)).toBe('and 9 more changes');
  });
});
