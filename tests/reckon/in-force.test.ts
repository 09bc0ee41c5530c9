/** Definitions that change from a day on: each event is reckoned by what was in force on its day. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { everyVersion, inForce, placeInForce } from '../../src/in-force.ts';
import { flow } from '../../src/reckon/flow.ts';
import { productCosts } from '../../src/reckon/costs/product-cost.ts';
import { decimal } from '../../src/number/decimal.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  studio: `
format: 1
name: Test studio
currency: USD
labour-rate: 24
changes:
  - { from: 2026-05-01, labour-rate: 30 }
`,
  materials:
    'clay: { name: Clay, kind: clay, unit: kg }\nbox: { name: Box, kind: packing, unit: each }\n',
  bought:
    'b1: { date: 2026-01-02, supplier: X, lines: [{ material: clay, quantity: 100 kg, cost: 100 }, { material: box, quantity: 100, cost: 50 }] }\n',
  products: `
mug:
  name: Mug
  clay: { material: clay, each: 500 g }
  fired: [once]
  minutes: 10
  price: 20
  packing: [{ material: box, each: 1 }]
  changes:
    - { from: 2026-06-01, without: [packing] }
    - { from: 2026-05-01, clay: { material: clay, each: 400 g }, price: 22 }
`,
  channels: `
gallery:
  name: Gallery
  kind: consignment
  commission: 40%
  changes: [{ from: 2026-05-01, commission: 45% }]
door: { name: Door, kind: direct }
`,
  pieces: `
p1: { date: 2026-04-30, product: mug, made: 10 }
p2: { date: 2026-05-01, product: mug, made: 10 }
`,
  sales: `
s1: { date: 2026-04-30, channel: gallery, lines: [{ product: mug, count: 1, price: 20 }] }
s2: { date: 2026-05-01, channel: gallery, lines: [{ product: mug, count: 1, price: 20 }] }
s3: { date: 2026-05-31, channel: door, lines: [{ product: mug, count: 1, price: 20 }] }
s4: { date: 2026-06-01, channel: door, lines: [{ product: mug, count: 1, price: 20 }] }
`,
});

function made(book: Book): unknown {
  const { facts } = flow(book, '2026-06-30').ware;
  return [...facts].filter(({ reason }) => reason === 'made').map(({ by, cost }) => [by, cost]);
}

describe('a definition that changes from a day on', () => {
  it('gives a lot the clay and the rate of the day that it was made', () => {
    // p1: 10 × 500 g at 1.00 a kg = 5.00; 10 × 10 min × 24 ÷ 60 = 40.00.
    // p2: 10 × 400 g = 4.00; 10 × 10 min × 30 ÷ 60 = 50.00.
    expect(made(BOOK)).toMatchObject([
      ['p1', { clay: 500n, labour: 4000n }],
      ['p2', { clay: 400n, labour: 5000n }],
    ]);
  });

  it('gives a sale the commission of its day', () => {
    const kept = ['s1', 's2'].map((id) => saleMoney(BOOK, BOOK.sales.get(id)!).commission);
    expect(kept).toEqual([800n, 900n]);
  });

  it('packs a sale as was done on its day', () => {
    const packed = [...flow(BOOK, '2026-06-30').stock.movements].filter(
      ({ reason }) => reason === 'packing',
    );
    // A box is 0.50; from June on none is used.
    expect(packed.map(({ by, value }) => [by, value])).toEqual([
      ['s1', -50n],
      ['s2', -50n],
      ['s3', -50n],
    ]);
  });

  it.each([
    ['2026-04-30', '20', '40%'],
    ['2026-05-01', '22', '45%'],
  ])('prices by what is in force on %s', (day, price, share) => {
    const span = { from: '2026-01-01', to: day };
    const { products } = productCosts(BOOK, flow(BOOK, day), { span, by: 'space' });
    const [mug] = products;
    expect(mug?.product.price?.toString()).toBe(price);
    const gallery = mug?.prices.find(({ kind }) => kind === 'consignment');
    expect(gallery?.channel.commission?.times(decimal(100)).toString()).toBe(share.slice(0, -1));
    // The least whole cents of which what the gallery leaves covers the cost: cost ÷ (1 − share), rounded up.
    const cost = mug!.cost.total.toNumber() * 100;
    const exact = cost / (1 - Number(share.slice(0, -1)) / 100);
    expect(Math.abs(Number(gallery?.floor) - exact)).toBeLessThan(2);
  });

  it('is found in any order of its changes, and says where a field stands', () => {
    const mug = BOOK.products.get('mug')!;
    expect(inForce(mug, '2026-06-30').packing).toBeUndefined();
    expect(inForce(mug, '2026-06-30').price?.toString()).toBe('22');
    expect(inForce(mug, '2026-04-30')).toBe(mug);
    expect(everyVersion(mug).map((one) => one.packing?.length)).toEqual([1, 1, undefined]);
    expect(placeInForce(mug, 'clay', '2026-06-30')).toEqual(['changes', 1, 'clay']);
    expect(placeInForce(mug, 'clay', '2026-04-30')).toEqual(['clay']);
  });
});
