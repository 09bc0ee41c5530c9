/** The material value that a run notes on its way is that of a run to that very day. */
import { expect, it } from 'vitest';
import { filedDays } from '../../src/reckon/filed-days.ts';
import { flow } from '../../src/reckon/flow.ts';
import { materialValue, notedValue } from '../../src/reckon/where.ts';
import { bookFrom } from '../helpers/book.ts';

const FILES = {
  materials: 'm: { name: M, kind: clay, unit: kg }',
  products: 'mug: { name: Mug, clay: { material: m, each: 1 kg }, fired: [once] }',
  bought:
    'b1: { date: 2025-12-20, supplier: S, lines: [{ material: m, quantity: 10 kg, cost: 20 }] }\n' +
    'b2: { date: 2026-02-20, supplier: S, lines: [{ material: m, quantity: 10 kg, cost: 31 }] }\n' +
    'b3: { date: 2026-03-31, supplier: S, lines: [{ material: m, quantity: 3 kg, cost: 7 }] }\n' +
    'b4: { date: 2026-04-01, supplier: S, lines: [{ material: m, quantity: 3 kg, cost: 9 }] }',
  pieces:
    'p1: { date: 2026-01-05, product: mug, made: 3 }\np2: { date: 2026-03-31, product: mug, made: 4 }\n' +
    'p3: { date: 2026-05-05, product: mug, made: 2 }',
  filed:
    "d1: { date: 2026-04-12, period: 2026-Q1, sheet: plain, lines: { '20': 0 } }\n" +
    "d2: { date: 2026-05-01, period: 2026-Q2, sheet: plain, lines: { '20': 0 } }",
};

it('looks at the eve and the end of each period that was over when it was filed', () => {
  expect(filedDays(bookFrom(FILES), '2026-06-30')).toEqual(['2025-12-31', '2026-03-31']);
  expect(filedDays(bookFrom(FILES), '2026-04-11')).toEqual([]);
});

it('notes on those days what a run of its own comes to', () => {
  const book = bookFrom(FILES);
  flow(book, '2026-06-30');
  const plain = { ...FILES, filed: '' };
  for (const day of ['2025-12-31', '2026-03-31'])
    expect(notedValue(book, day)).toEqual(materialValue(flow(bookFrom(plain), day)));
  // 20 bought by the eve; 58 by the end of March, of which nothing has left.
  expect(notedValue(book, '2025-12-31')?.bought).toBe(2000n);
  expect(notedValue(book, '2026-03-31')?.bought).toBe(5800n);
  expect(notedValue(book, '2026-03-30')).toBeUndefined();
});
