/** Finished ware by hand: rules 10, 12 and 14 to 17. */
import { describe, expect, it } from 'vitest';
import type { Files } from '../helpers/book.ts';
import type { SecondReckoning } from './result.ts';
import { again, once, some } from './small-studio.ts';

const ALL_GOOD = once('f1', '01-05', '{ lot: p1, in: 7, first: 7 }');

describe('finished ware', () => {
  const sale = (id: string, rest: string): string => `${id}: { date: 2026-02-01, ${rest} }\n`;
  const sold = (files: Files): SecondReckoning => again({ firings: ALL_GOOD, ...files });

  it('leaves by the running share, component by component', () => {
    const sales = ['s1', 's2', 's3'].map((id) =>
      sale(id, 'channel: door, lines: [{ product: cup, count: 2, price: 30 }]'),
    );
    const { sales: found, lots } = sold({ sales: sales.join('') });
    // Labour 1633: 466.57, 933.14, 1399.71; boxes at 2.5 c: two are .05.
    const costs = ['s1', 's2', 's3'].map((id) => some(found.get(id)?.lines[0]?.cost));
    expect(costs).toEqual([
      { clay: 20, labour: 467, packing: 5 },
      { clay: 20, labour: 466, packing: 5 },
      { clay: 20, labour: 467, packing: 5 },
    ]);
    expect(some(lots.get('p1')!.finished.cost)).toEqual({ clay: 10, labour: 233 });
  });

  it('is one pile wherever it stands; a place holds its share by count', () => {
    const { lots, went } = sold({
      firings: once('f1', '01-05', '{ lot: p1, in: 7, first: 5, second: 2 }'),
      consigned:
        'c1: { date: 2026-01-20, channel: nook, sent: [{ product: cup, count: 2 }] }\nc2: { date: 2026-01-21, channel: attic, sent: [{ product: cup, grade: second, count: 1 }] }',
    });
    // 1633 by 3, 1, 1, 2: 699.86, 233.29, 233.29, 466.57.
    const held = lots.get('p1')!.holdings;
    expect(held.map(({ grade, place, count }) => `${grade} ${place} ${count}`)).toEqual([
      'first  3',
      'second  1',
      'second attic 1',
      'first nook 2',
    ]);
    expect(held.map(({ cost }) => Number(cost.labour))).toEqual([700, 233, 233, 467]);
    expect(went).toEqual([]);
  });

  it('goes pile by pile as it was finished, and in a lot firsts before seconds', () => {
    const pieces = (gone: string): string =>
      `p1: { date: 2026-01-02, product: cup, made: 2${gone} }\np2: { date: 2026-01-02, product: cup, made: 3, minutes: 9 }\n`;
    const { sales, went } = sold({
      pieces: pieces(', gone: [{ date: 2026-01-10, count: 2, how: gift }]'),
      firings:
        once('f1', '01-05', '{ lot: p2, in: 3, first: 2, second: 1 }') +
        once('f2', '01-06', '{ lot: p1, in: 2, first: 1, second: 1 }'),
      sales: sale('s1', 'channel: door, lines: [{ product: cup, count: 2, price: 9 }]'),
      counted: 'c1: { date: 2026-02-02, pieces: [{ product: cup, count: 0 }] }',
    });
    expect(some(sales.get('s1')!.lines[0]!.cost)).toEqual({ clay: 20, labour: 200, packing: 5 });
    expect(went.map(({ account, what, cost }) => [account, what, some(cost)])).toEqual([
      ['given', 'p1', { clay: 10, labour: 234 }],
      ['given', 'p1', { clay: 10, labour: 233 }],
      ['sold', 'box', { packing: 5 }],
      ['sold', 'p2', { clay: 20, labour: 200 }],
      ['differences', 'p2', { clay: 10, labour: 100 }],
    ]);
  });

  it('a lot’s turn is by its first finish, whatever comes out of it later', () => {
    const { went } = sold({
      pieces:
        'p1: { date: 2026-01-02, product: cup, made: 2 }\np2: { date: 2026-01-02, product: cup, made: 1 }\n',
      firings:
        once('f1', '01-05', '{ lot: p1, in: 1, first: 1 }') +
        once('f2', '01-06', '{ lot: p2, in: 1, first: 1 }') +
        once('f3', '01-07', '{ lot: p1, in: 1, first: 1 }'),
      sales: sale('s1', 'channel: door, lines: [{ product: cup, count: 1, price: 9 }]'),
    });
    expect(went.map(({ what }) => what)).toEqual(['box', 'p1']);
  });

  it('sold beyond what was finished costs like the load that came out last, outside the flow', () => {
    const { sales, lots, shortfalls } = sold({
      pieces:
        'p1: { date: 2026-01-02, product: cup, made: 2 }\np2: { date: 2026-01-02, product: cup, made: 3, minutes: 0.5 }\n',
      firings:
        once('f1', '01-05', '{ lot: p1, in: 2, first: 2 }') +
        once('f2', '01-06', '{ lot: p2, in: 3, first: 2, lost: 1 }'),
      sales: sale('s1', 'channel: door, lines: [{ product: cup, count: 7, price: 9 }]'),
    });
    const [line] = sales.get('s1')!.lines;
    // 30 of clay and 17 of labour over two, three times: 45 and R(25.5).
    expect(some(line!.beyond)).toEqual({ clay: 45, labour: 26 });
    // Boxes at 2.5 c: seven are 17.5.
    expect(some(line!.cost)).toEqual({ clay: 50, labour: 484, packing: 18 });
    expect(line!.estimated).toBe(true);
    expect(lots.get('p2')!.finished.count).toBe(0);
    expect(shortfalls).toEqual([{ of: 'cup', record: 's1' }]);
  });

  it('what was sold last comes back first, at what it cost, by the running share of what was sold', () => {
    const back = (id: string, count: number): string =>
      sale(
        id,
        `channel: nook, lines: [{ product: cup, grade: second, count: ${count}, price: 9, returned: yes }]`,
      );
    const { sales, lots } = sold({
      pieces:
        'p1: { date: 2026-01-02, product: cup, made: 3 }\np2: { date: 2026-01-02, product: cup, made: 3, minutes: 5 }\n',
      firings:
        once('f1', '01-05', '{ lot: p1, in: 3, first: 3 }') +
        once('f2', '01-06', '{ lot: p2, in: 3, first: 3 }'),
      sales:
        sale('s1', 'channel: door, lines: [{ product: cup, count: 1, price: 9 }]') +
        sale('s2', 'channel: door, lines: [{ product: cup, count: 5, price: 9 }]') +
        ['s3', 's4', 's5'].map((id) => back(id, 1)).join('') +
        back('s6', 3) +
        back('s7', 1),
    });
    const costs = ['s3', 's4', 's5', 's6', 's7'].map((id) => some(sales.get(id)!.lines[0]!.cost));
    expect(costs).toEqual([
      // Of p2: 167 of labour over three.
      { clay: 10, labour: 56 },
      { clay: 10, labour: 55 },
      { clay: 10, labour: 56 },
      // Two of p1 of s2, 700 − 233; one of s1, 233.
      { clay: 30, labour: 700 },
      // Never sold: like the load that came out last.
      { clay: 10, labour: 56 },
    ]);
    const estimated = ['s6', 's7'].map((id) => sales.get(id)!.lines[0]!.estimated);
    expect(estimated).toEqual([false, true]);
    const held = [...lots.values()].flatMap(({ holdings }) => holdings);
    expect(held.map(({ grade, place, count }) => [grade, place, count])).toEqual([
      ['second', 'nook', 3],
      ['second', 'nook', 4],
    ]);
  });

  it('found pieces join the lot finished last that has such there, at what its pile came in with', () => {
    const { went, lots } = sold({
      pieces:
        'p1: { date: 2026-01-02, product: cup, made: 7, gone: [{ date: 2026-01-10, count: 6, how: broken }] }\np2: { date: 2026-01-02, product: cup, made: 3 }\n',
      firings: ALL_GOOD + once('f2', '01-06', '{ lot: p2, in: 3, second: 3 }'),
      counted:
        'c1: { date: 2026-02-02, pieces: [{ product: cup, grade: first, count: 3 }, { product: jug, count: 2 }] }',
    });
    // 1633 × 2 ÷ 7
    expect(went.slice(-2).map(({ account, what, cost }) => [account, what, some(cost)])).toEqual([
      ['differences', 'p1', { clay: -20, labour: -467 }],
      ['differences', 'c1/1', {}],
    ]);
    expect(lots.get('p1')!.finished).toMatchObject({ count: 3, cost: { labour: 700n } });
    expect(lots.get('c1/1')!.finished.count).toBe(2);
  });
});

describe('the order of a day', () => {
  it('brings in before it takes, fires before it sells, counts last', () => {
    const { shortfalls, went } = again({
      pieces:
        'p1: { date: 2026-01-01, product: cup, made: 7, lost: [{ date: 2026-01-01, count: 1, why: dropped }], gone: [{ date: 2026-01-01, count: 1, how: kept }, { date: 2026-01-01, count: 1, how: broken, channel: nook }] }',
      firings: once('f1', '01-01', '{ lot: p1, in: 6, first: 6 }'),
      consigned: 'c1: { date: 2026-01-01, channel: nook, sent: [{ product: cup, count: 5 }] }',
      sales:
        's1: { date: 2026-01-01, channel: nook, lines: [{ product: cup, count: 4, price: 9 }] }',
      used: 'u1: { date: 2026-01-01, material: clay, quantity: 1 lb, for: waste }',
      counted: 'a1: { date: 2026-01-01, pieces: [{ product: cup, place: nook, count: 0 }] }',
    });
    expect(shortfalls).toEqual([]);
    expect(went.map(({ account }) => account)).toEqual([
      'lost',
      'used',
      'kept',
      'lost',
      'sold',
      'sold',
    ]);
  });
});
