import { describe, expect, it } from 'vitest';
import { beginsAfter, isEmpty, recordedOn } from '../../src/reckon/day.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const BOOK = bookFrom({
  bought:
    'b1: { date: 2026-03-08, supplier: S, freight: 5, lines: [{ material: m, quantity: 1 kg, cost: 20 }] }',
  reclaimed: 'r1: { date: 2026-03-08, material: m, quantity: 1 kg }',
  mixed: 'm1: { date: 2026-03-08, recipe: g, base-weight: 1 kg }',
  pieces: `
p1: { date: 2026-03-08, product: mug, made: 12 }
p2: { date: 2026-03-08, product: mug, made: 6 }
p3:
  date: 2026-03-01
  product: mug
  made: 9
  lost: [{ date: 2026-03-08, count: 2, why: cracked }, { date: 2026-03-09, count: 1, why: cracked }]
  gone: [{ date: 2026-03-08, count: 1, how: gift }]
`,
  firings: `
f1: { date: 2026-03-08, kiln: k, kind: bisque, load: [{ lot: p3, in: 7 }, { outside: A, in: 3 }] }
f2: { date: 2026-03-08, kiln: k, kind: test, load: [] }
`,
  used: 'u1: { date: 2026-03-08, material: m, quantity: 1 kg }',
  counted: 'c1: { date: 2026-03-08 }',
  channels: 'door: { name: Door, kind: direct }',
  sales: `
s1: { date: 2026-03-08, channel: door, tax: 1, lines: [{ product: mug, count: 1, price: 30 }] }
s2: { date: 2026-03-08, channel: door, paid: no, lines: [{ product: mug, count: 1, price: 8 }] }
s3: { date: 2026-02-20, channel: door, paid: 2026-03-08, lines: [{ product: mug, count: 1, price: 25 }] }
s4: { date: 2026-03-08, channel: door, paid: 2026-03-08, lines: [{ product: mug, count: 1, price: 1 }] }
`,
  consigned:
    'g1: { date: 2026-03-08, channel: door, sent: [{ product: mug, count: 4 }], back: [{ product: mug, count: 1 }] }',
  spent: `
e1: { date: 2026-03-08, to: A, for: booth, amount: 60 }
e2: { date: 2026-03-08, to: A, for: booth, amount: -10 }
`,
  tests: 't1: { date: 2026-03-08, kind: tile }',
});

describe('what was put down on a day', () => {
  it('is counted kind by kind, with pieces and money', () => {
    const said = recordedOn(BOOK, '2026-03-08').map(({ kind, firing, count, pieces, amount }) =>
      [kind, firing, count, pieces, told(amount)].filter((part) => part !== undefined).join(' '),
    );
    expect(said).toEqual([
      'bought 1 25.00',
      'reclaimed 1',
      'mixed 1',
      'pieces 2 18',
      'firings bisque 1 10',
      'firings test 1 0',
      'used 1',
      'counted 1',
      'sales 3 40.00',
      'consigned 1 5',
      'spent 2 50.00',
      'tests 1',
      'lost 2',
      'gone 1',
      'paid 1 25.00',
    ]);
  });

  it('is nothing on a day of nothing', () => {
    expect(recordedOn(BOOK, '2026-03-07')).toEqual([]);
  });

  it('begins with the first event', () => {
    expect(beginsAfter(BOOK, '2026-02-19')).toBe('2026-02-20');
    expect(beginsAfter(BOOK, '2026-02-20')).toBeUndefined();
    expect(beginsAfter(BOOK, '2029-01-01')).toBeUndefined();
    expect(isEmpty(BOOK)).toBe(false);
    const unused = bookFrom({ materials: 'm: { name: M, kind: dry, unit: kg }' });
    expect([isEmpty(unused), beginsAfter(unused, '2026-02-20')]).toEqual([true, undefined]);
  });
});
