import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { becauseOf } from '../../src/check/shortage-words.ts';
import { costLike, leftIn, restOf, totalOf } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import { accountCost, soldLines } from '../helpers/accounts.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { leak } from '../helpers/leak.ts';
import { measured, told } from '../helpers/minor.ts';

const LAST_DAY = '2025-12-31';

/** A studio where one cup takes 1 lb of clay at 1.00, and each firing costs 12.00 in cones. */
function studioWith(more: Files): Book {
  return bookFrom({
    materials: `
clay: { name: Clay, kind: clay, unit: lb }
cones: { name: Cones, kind: cone, unit: each }
box: { name: Box, kind: packing, unit: each }
`,
    bought: `
b1:
  date: 2025-01-01
  supplier: Pit
  lines:
    - { material: clay, quantity: 500 lb, cost: 500 }
    - { material: cones, quantity: 100, cost: 1200 }
    - { material: box, quantity: 100, cost: 50 }
`,
    products: `
cup: { name: Cup, clay: { material: clay, each: 1 lb }, price: 20, packing: [{ material: box, each: 1 }] }
`,
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    channels: `
shop: { name: Shop, kind: direct }
gallery: { name: Gallery, kind: consignment, commission: 40% }
`,
    pieces: 'p1: { date: 2025-01-02, product: cup, made: 20 }',
    ...more,
  });
}

function firing(id: string, day: string, rest: string): string {
  return `${id}: { date: ${day}, kiln: kiln, supplies: [{ material: cones, quantity: 1 }], ${rest} }\n`;
}

const BISQUE = firing(
  'f1',
  '2025-01-10',
  'kind: bisque, load: [{ lot: p1, in: 20, first: 18, lost: 2 }]',
);
const GLAZE = firing(
  'f2',
  '2025-01-20',
  'kind: glaze, load: [{ lot: p1, in: 18, first: 14, second: 2, lost: 2 }]',
);

describe('lots through their firings', () => {
  it('losses are borne by the survivors, firsts and seconds alike', () => {
    const { ware } = flow(studioWith({ firings: BISQUE + GLAZE }), LAST_DAY);
    const lot = ware.lots.get('p1');
    // 20 of clay + 12 + 12, over the 16 that came through.
    expect(lot && told(totalOf(costLike(lot.shelf, 1)))).toBe('2.75');
    expect(lot?.stages.map(leftIn)).toEqual([0, 0]);
    expect(lot && leftIn(lot.shelf)).toBe(16);
    expect([...(lot?.places ?? [])]).toEqual([
      ['first ', 14],
      ['second ', 2],
    ]);
  });

  it('a load that nobody survives is lost with all its cost', () => {
    const firings = firing(
      'f1',
      '2025-01-10',
      'kind: bisque, load: [{ lot: p1, in: 20, lost: 20 }]',
    );
    const { ware } = flow(studioWith({ firings }), LAST_DAY);
    expect(told(totalOf(accountCost(ware.facts, 'lost')))).toBe('32.00');
  });

  it('a line without an outcome is still in the kiln, with its share of the firing', () => {
    const firings = firing('f1', '2025-01-10', 'kind: bisque, load: [{ lot: p1, in: 5 }]');
    const lot = flow(studioWith({ firings }), LAST_DAY).ware.lots.get('p1');
    expect(lot?.stages.map(leftIn)).toEqual([15, 0]);
    expect(lot?.inKiln.map((pile) => [pile.count, told(totalOf(pile.cost))])).toEqual([
      [5, '17.00'],
    ]);
  });

  it('a refire takes seconds and puts them back with their new grade', () => {
    const refire = firing(
      'f3',
      '2025-01-30',
      'kind: glaze, load: [{ lot: p1, in: 2, first: 1, lost: 1, refire: yes }]',
    );
    const { ware, shortfalls } = flow(studioWith({ firings: BISQUE + GLAZE + refire }), LAST_DAY);
    expect(shortfalls).toEqual([]);
    expect([...(ware.lots.get('p1')?.places ?? [])]).toEqual([
      ['first ', 15],
      ['second ', 0],
    ]);
  });

  it('more loaded than there is says how the book comes to what there is', () => {
    const firings =
      BISQUE + firing('f2', '2025-01-20', 'kind: glaze, load: [{ lot: p1, in: 19, first: 19 }]');
    const book = studioWith({ firings });
    const [short] = flow(book, LAST_DAY).shortfalls;
    expect(short?.kind).toBe('stage');
    expect(short && becauseOf(book, short)).toBe(
      '18 out of bisque 2025-01-10 = 18 bisqueware, 19 loaded',
    );
  });

  it('greenware in a glaze firing is out of turn', () => {
    const firings = firing(
      'f1',
      '2025-01-10',
      'kind: glaze, load: [{ lot: p1, in: 20, first: 20 }]',
    );
    const book = studioWith({ firings });
    const [short] = flow(book, LAST_DAY).shortfalls;
    expect(short?.kind).toBe('out-of-turn');
    expect(short && becauseOf(book, short)).toBe(
      'lot p1 is greenware, and its product is fired bisque, then glaze',
    );
  });

  it('what is lost outside firings is borne by what is left', () => {
    const pieces =
      'p1: { date: 2025-01-02, product: cup, made: 20, lost: [{ date: 2025-01-05, count: 4, why: dropped }] }';
    const firings = firing(
      'f1',
      '2025-01-10',
      'kind: bisque, load: [{ lot: p1, in: 16, first: 16 }]',
    );
    const lot = flow(studioWith({ pieces, firings }), LAST_DAY).ware.lots.get('p1');
    const [, bisqueware] = lot?.stages.map(restOf) ?? [];
    expect(bisqueware?.count).toBe(16);
    expect(bisqueware && told(totalOf(bisqueware.cost))).toBe('32.00');
  });

  it('a loss takes what stands at the earliest stage, and then of the next', () => {
    const pieces =
      'p1: { date: 2025-01-02, product: cup, made: 20, lost: [{ date: 2025-01-15, count: 6, why: dropped }] }';
    const firings = firing(
      'f1',
      '2025-01-10',
      'kind: bisque, load: [{ lot: p1, in: 16, first: 16 }]',
    );
    const { ware, shortfalls } = flow(studioWith({ pieces, firings }), LAST_DAY);
    expect(ware.lots.get('p1')?.stages.map(leftIn)).toEqual([0, 14]);
    // Four cups of clay are lost; the fourteen bear their own sixteen of clay and the firing.
    expect(told(totalOf(accountCost(ware.facts, 'lost')))).toBe('4.00');
    const [, bisqueware] = ware.lots.get('p1')?.stages.map(restOf) ?? [];
    expect(bisqueware && told(totalOf(bisqueware.cost))).toBe('28.00');
    expect(shortfalls).toEqual([]);
  });

  it('a loss of more than stands is short, with the sum; finished ware does not stand for it', () => {
    const pieces =
      'p1: { date: 2025-01-02, product: cup, made: 20, lost: [{ date: 2025-01-05, count: 25, why: dropped }, { date: 2025-02-01, count: 1, why: dropped }] }';
    const book = studioWith({ pieces });
    const { shortfalls } = flow(book, LAST_DAY);
    expect(shortfalls).toMatchObject([{ kind: 'stage', what: 'p1' }, { kind: 'stage' }]);
    expect(shortfalls.map((each) => becauseOf(book, each))).toEqual([
      '20 made = 20 greenware, 25 lost',
      '20 made − 20 lost 2025-01-05 = 0 greenware, 1 lost',
    ]);
    expect(shortfalls.map(({ at }) => at.path)).toEqual([
      ['p1', 'lost', 0, 'count'],
      ['p1', 'lost', 1, 'count'],
    ]);
    expect(shortfalls.map(({ wanted, had }) => `${wanted.toFixed()} of ${had.toFixed()}`)).toEqual([
      '25 of 20',
      '1 of 0',
    ]);
  });
});

describe('finished ware', () => {
  const lots = {
    pieces: `
p1: { date: 2025-01-02, product: cup, made: 20 }
p2: { date: 2025-01-02, product: cup, made: 10 }
`,
    firings:
      BISQUE +
      GLAZE +
      firing('f3', '2025-02-10', 'kind: bisque, load: [{ lot: p2, in: 10, first: 10 }]') +
      firing('f4', '2025-02-20', 'kind: glaze, load: [{ lot: p2, in: 10, first: 10 }]'),
  };

  function sell(lines: string, more: Files = {}) {
    const sales = `s1: { date: 2025-03-01, channel: shop, lines: [${lines}] }`;
    return flow(studioWith({ ...lots, sales, ...more }), LAST_DAY);
  }

  it('first finished, first sold, with its packing', () => {
    const [line] = soldLines(sell('{ product: cup, count: 16, price: 20 }').ware).get('s1') ?? [];
    expect(line?.from).toEqual([
      { lot: 'p1', grade: 'first', count: 14 },
      { lot: 'p2', grade: 'first', count: 2 },
    ]);
    // 14 × 2.75 + 2 × 3.40 + 16 boxes at .50
    expect(line && told(totalOf(line.cost))).toBe('53.30');
  });

  it('a named lot and a named grade are kept to', () => {
    const lines =
      '{ product: cup, lot: p2, count: 1, price: 20 }, { product: cup, grade: second, count: 1, price: 9 }';
    const sold = soldLines(sell(lines).ware).get('s1');
    expect(sold?.flatMap((line) => line.from)).toEqual([
      { lot: 'p2', grade: 'first', count: 1 },
      { lot: 'p1', grade: 'second', count: 1 },
    ]);
  });

  it('sold more than finished: the rest costs what the latest lot did, and is marked', () => {
    const { ware, shortfalls } = sell('{ product: cup, count: 25, price: 20 }');
    const [line] = soldLines(ware).get('s1') ?? [];
    expect(line?.estimated).toBe(true);
    // 14 × 2.75 + 10 × 3.40 + 1 × 3.40 guessed + 25 boxes at .50
    expect(line && told(totalOf(line.cost))).toBe('88.40');
    expect(shortfalls.map(({ kind }) => kind)).toEqual(['finished']);
  });

  it('a return puts the piece back at the cost that it left with', () => {
    const { ware } = sell(
      '{ product: cup, lot: p1, count: 2, price: 20 }, { product: cup, lot: p1, count: 1, price: 20, returned: yes }',
    );
    const lot = ware.lots.get('p1');
    expect(lot && leftIn(lot.shelf)).toBe(15);
    const [sold, back] = soldLines(ware).get('s1') ?? [];
    expect(sold && told(totalOf(sold.cost))).toBe('6.50');
    expect(back && told(totalOf(back.cost))).toBe('-2.75');
  });

  it('a gallery sells what it was sent and no more', () => {
    const consigned =
      'c1: { date: 2025-02-25, channel: gallery, sent: [{ product: cup, count: 3 }], missing: [{ product: cup, count: 1 }] }';
    const sales =
      's1: { date: 2025-03-01, channel: gallery, lines: [{ product: cup, count: 3, price: 20 }] }';
    const { ware, shortfalls } = flow(studioWith({ ...lots, consigned, sales }), LAST_DAY);
    expect(shortfalls.map(({ kind, had }) => [kind, had.toString()])).toEqual([['consigned', '2']]);
    expect(told(totalOf(accountCost(ware.facts, 'lost')))).toBe('2.75');
  });

  it('what was counted stands, and the difference has an account of its own', () => {
    const counted =
      'k1: { date: 2025-03-31, pieces: [{ product: cup, grade: first, count: 22 }, { product: cup, grade: second, count: 3 }] }';
    const flows = flow(studioWith({ ...lots, counted }), LAST_DAY);
    const piles = [...flows.ware.lots.values()].map((lot) => leftIn(lot.shelf));
    expect(piles).toEqual([15, 10]);
    expect(told(leak(materialValue(flows)))).toBe('0.00');
    // Two firsts less and one second more, all of the first lot.
    expect(told(totalOf(accountCost(flows.ware.facts, 'differences')))).toBe('2.75');
  });

  it('ware that was there before the book is counted in without cost', () => {
    const counted = 'k1: { date: 2025-01-01, pieces: [{ product: cup, count: 4 }] }';
    const sales =
      's1: { date: 2025-01-05, channel: shop, lines: [{ product: cup, count: 3, price: 20 }] }';
    const { ware, shortfalls } = flow(studioWith({ counted, sales }), LAST_DAY);
    expect(shortfalls).toEqual([]);
    const [line] = soldLines(ware).get('s1') ?? [];
    expect(line?.from).toHaveLength(1);
    expect(line?.cost.clay).toBeUndefined();
  });
});

describe('glaze', () => {
  it('is drawn once, also where a product is glaze-fired twice and some of it breaks before', () => {
    const book = studioWith({
      recipes:
        'clear: { name: Clear, kind: glaze, versions: [{ from: 2025-01-01, base: [{ material: clay, parts: 1 }] }] }',
      products:
        'cup: { name: Cup, fired: [bisque, glaze, glaze], glazes: [{ recipe: clear, each: 10 g }] }',
      mixed: 'm1: { date: 2025-01-01, recipe: clear, base-weight: 300 g }',
      firings:
        BISQUE +
        firing('f2', '2025-01-20', 'kind: glaze, load: [{ lot: p1, in: 18, first: 17, lost: 1 }]') +
        firing('f3', '2025-01-25', 'kind: glaze, load: [{ lot: p1, in: 17, first: 17 }]'),
    });
    const moved = [...flow(book, LAST_DAY).stock.movements];
    const drawn = moved.filter(({ reason }) => reason === 'glaze');
    expect(drawn.map(({ by, quantity }) => [by, measured(quantity)])).toEqual([['f2', '-180']]);
  });

  it('stays on ware that comes back, whatever the latest lot has on it', () => {
    const sales = `
s1: { date: 2025-02-01, channel: shop, lines: [{ product: cup, glaze: sea, count: 1, price: 20, returned: yes }] }
s2: { date: 2025-02-02, channel: shop, lines: [{ product: cup, glaze: sea, count: 1, price: 20 }] }
`;
    expect(flow(studioWith({ firings: BISQUE + GLAZE, sales }), LAST_DAY).shortfalls).toEqual([]);
  });
});
