import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Grade } from '../../src/book.ts';
import { flow } from '../../src/reckon/flow.ts';
import { ordersInHand } from '../../src/reckon/sales/order-ware.ts';
import { orderStandings } from '../../src/reckon/sales/orders.ts';
import { shareAtHand, type WareWanted } from '../../src/reckon/ware/at-hand.ts';
import { bookFrom } from '../helpers/book.ts';
import { holds } from '../helpers/law.ts';
import { told } from '../helpers/minor.ts';
import { cases } from '../helpers/tier.ts';

const KINDS = {
  products: 'mug: { name: Mug }\nbowl: { name: Bowl }',
  recipes: `
green: { name: Green, kind: glaze, versions: [{ from: 2025-01-01, base: [{ material: silica, parts: 1 }] }] }
rust: { name: Rust, kind: glaze, versions: [{ from: 2025-01-01, base: [{ material: silica, parts: 1 }] }] }
`,
  channels: 'door: { name: Door, kind: direct }',
};

const BOOK = bookFrom({
  ...KINDS,
  pieces: `
p1: { date: 2026-01-05, product: mug, made: 10, glazes: [{ recipe: green, each: 1 g }] }
p2: { date: 2026-01-06, product: mug, made: 8, glazes: [{ recipe: rust, each: 1 g }] }
p3: { date: 2026-02-20, product: mug, made: 9, glazes: [{ recipe: rust, each: 1 g }] }
`,
  counted: `
c1: { date: 2026-01-01, pieces: [{ product: bowl, count: 3, grade: second }] }
`,
  firings: `
f1: { date: 2026-01-10, kiln: k, kind: bisque, load: [{ lot: p1, in: 10, first: 10 }, { lot: p2, in: 8, first: 8 }] }
f2: { date: 2026-01-20, kiln: k, kind: glaze, load: [{ lot: p1, in: 10, first: 9, second: 1 }, { lot: p2, in: 8, first: 8 }] }
`,
  orders: `
late: { date: 2026-01-01, buyer: A, lines: [{ product: mug, count: 4 }] }
first: { date: 2026-01-02, buyer: B, due: 2026-03-01, lines: [{ product: mug, glaze: rust, count: 12, price: 20 }, { product: mug, count: 3, price: 10.50 }, { for: jug, count: 1, price: 90 }] }
gone: { date: 2026-01-02, buyer: C, cancelled: 2026-01-03, lines: [{ product: mug, count: 50 }] }
settled: { date: 2026-01-02, buyer: D, done: 2026-02-01, lines: [{ product: mug, count: 50 }] }
`,
  advances: `
a1: { date: 2026-01-02, for: deposit, amount: 60, for-order: first, refunded: [{ date: 2026-01-20, amount: 10 }, { date: 2026-09-09, amount: 5 }] }
a2: { date: 2026-01-02, for: deposit, amount: 7 }
`,
  sales: `
s1: { date: 2026-02-01, channel: door, lines: [{ product: mug, glaze: rust, count: 2, price: 20, for-order: first }, { product: mug, count: 1, price: 20 }] }
s2: { date: 2026-02-02, channel: door, lines: [{ product: mug, lot: p1, count: 5, price: 20, for-order: first }] }
s3: { date: 2026-02-03, channel: door, lines: [{ product: mug, glaze: rust, count: 1, price: 20, for-order: first, returned: yes }] }
s4: { date: 2026-02-04, channel: door, lines: [{ product: bowl, count: 2, price: 20, for-order: first }] }
`,
});

const DAY = '2026-03-02';

function standing(id: string, day = DAY) {
  return orderStandings(BOOK, day).find(({ order }) => order.id === id);
}

describe('an order', () => {
  it('is delivered line by line: by glaze, by the lot, and less what came back', () => {
    expect(standing('first')?.lines.map(({ delivered, left }) => [delivered, left])).toEqual([
      [1, 11],
      [3, 0],
      [1, 0],
    ]);
  });

  it('has no line for what was delivered beyond it, and what was ordered in words is any ware', () => {
    const beyond = standing('first')?.beyond.map(({ sale, count }) => [sale.id, count]);
    // Five mugs of another glaze for three of any glaze and a jug; then no bowl has room.
    expect(beyond).toEqual([
      ['s2', 2],
      ['s4', 1],
    ]);
  });

  it('is open until it is delivered, done or cancelled, by the day', () => {
    const states = (day: string) =>
      orderStandings(BOOK, day).map(({ order, state }) => `${order.id} ${state}`);
    expect(states(DAY)).toEqual(['first open', 'late open', 'gone cancelled', 'settled done']);
    expect(states('2026-01-02')).toEqual(['first open', 'late open', 'gone open', 'settled open']);
    expect(states('2026-01-01')).toEqual(['late open']);
  });

  it('has its money: what was agreed, and what was paid beforehand less what was paid back by the day', () => {
    const [first] = ordersInHand(BOOK, flow(BOOK, DAY).ware, orderStandings(BOOK, DAY));
    expect([first?.agreed, first?.deposit].map((amount) => amount && told(amount))).toEqual([
      '361.50',
      '50.00',
    ]);
  });

  it('takes what is ready and under way before the one that is due later', () => {
    const all = ordersInHand(BOOK, flow(BOOK, DAY).ware, orderStandings(BOOK, DAY));
    const met = all.flatMap(({ order, lines }) =>
      lines.flatMap((line) => (line.met ? [{ id: order.id, ...line.met }] : [])),
    );
    // Rust: 8 fired, 2 sold, 1 back; 9 thrown. Green: 10 fired, 1 of them a second, 5 sold and 1 more.
    expect(met).toEqual([
      { id: 'first', ready: 7, underWay: 4, toMake: 0 },
      { id: 'late', ready: 3, underWay: 1, toMake: 0 },
    ]);
  });
});

describe('what is at hand', () => {
  const { ware } = flow(BOOK, DAY);
  const GRADES: readonly Grade[] = ['first', 'second'];
  const wanted: fc.Arbitrary<WareWanted> = fc.record({
    product: fc.constantFrom('mug', 'bowl', 'nothing'),
    glaze: fc.constantFrom('green', 'rust', undefined),
    grade: fc.constantFrom(...GRADES),
    count: fc.integer({ min: 1, max: 15 }),
  });

  it('is given out once, and never more than somebody wants', () => {
    holds(
      fc.property(fc.array(wanted, { maxLength: 8 }), (asked) => {
        const met = shareAtHand(ware, asked);
        met.forEach(({ ready, underWay, toMake }, at) => {
          expect(Math.min(ready, underWay, toMake)).toBeGreaterThanOrEqual(0);
          expect(ready + underWay + toMake).toBe(asked[at]?.count);
        });
        const mugs = met.filter((_, at) => asked[at]?.product === 'mug');
        expect(mugs.reduce((sum, { underWay }) => sum + underWay, 0)).toBeLessThanOrEqual(9);
        const firsts = met.filter((_, at) => asked[at]?.grade === 'first');
        expect(firsts.reduce((sum, { ready }) => sum + ready, 0)).toBeLessThanOrEqual(11);
      }),
      cases(100),
    );
  });

  it('leaves a glaze that somebody names to them', () => {
    const mug = { product: 'mug', grade: 'first', count: 3 } as const;
    const [any, rust] = shareAtHand(ware, [mug, { ...mug, glaze: 'rust', count: 7 }]);
    expect([any?.ready, rust?.ready]).toEqual([3, 7]);
  });
});
