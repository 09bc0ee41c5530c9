import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { fairsBefore, soldAtFairs } from '../../src/reckon/sales/fair-before.ts';
import { bringTable } from '../../src/report/making/bring.ts';
import { bookFrom } from '../helpers/book.ts';

const FILES = {
  products: 'mug: { name: Mug }\nbowl: { name: Bowl, discontinued: 2026-06-01 }',
  recipes: `
green: { name: Green, kind: glaze, versions: [{ from: 2025-01-01, base: [{ material: silica, parts: 1 }] }] }
rust: { name: Rust, kind: glaze, versions: [{ from: 2025-01-01, base: [{ material: silica, parts: 1 }] }] }
`,
  channels: 'market: { name: Market, kind: fair }\nhall: { name: Hall, kind: fair }',
  pieces: `
p1: { date: 2026-01-01, product: mug, made: 20, glazes: [{ recipe: green, each: 1 g }] }
p2: { date: 2026-01-01, product: mug, made: 9, glazes: [{ recipe: rust, each: 1 g }, { recipe: green, each: 1 g }] }
p3: { date: 2026-01-01, product: bowl, made: 4, gone: [{ date: 2026-03-08, count: 1, how: broken, fair: k2 }] }
`,
  firings: `
f1: { date: 2026-01-02, kiln: k, kind: bisque, load: [{ lot: p1, in: 20, first: 20 }, { lot: p2, in: 9, first: 9 }, { lot: p3, in: 4, first: 4 }] }
f2: { date: 2026-01-03, kiln: k, kind: glaze, load: [{ lot: p1, in: 20, first: 20 }, { lot: p2, in: 9, first: 6, second: 3 }, { lot: p3, in: 4, first: 4 }] }
`,
  fairs: `
k0: { date: 2026-01-10, name: Hall, channel: hall }
k1: { date: 2026-02-07, last: 2026-02-08, name: February, channel: market, hours: 10 }
k2: { date: 2026-03-07, last: 2026-03-08, name: March, channel: market, hours: 8, take: [{ product: bowl, count: 2 }, { product: mug, glaze: green, count: 9 }] }
k3: { date: 2026-05-02, name: May, channel: market, take: [{ product: mug, glaze: rust, count: 5 }, { product: mug, count: 2 }, { product: bowl, grade: second, count: 1 }] }
k4: { date: 2026-09-05, name: September, channel: market, hours: 18 }
`,
  sales: `
s1: { date: 2026-02-07, channel: market, lines: [{ product: mug, lot: p2, count: 2, price: 10 }, { product: mug, lot: p1, count: 5, price: 10 }] }
s2: { date: 2026-02-08, channel: market, lines: [{ product: mug, lot: p2, count: 4, price: 10 }, { for: bag, count: 1, price: 1 }] }
s3: { date: 2026-02-08, channel: market, lines: [{ product: mug, lot: p1, count: 1, price: 10, returned: yes }] }
s4: { date: 2026-03-07, channel: market, lines: [{ product: bowl, count: 1, price: 10 }, { product: mug, glaze: green, grade: second, count: 1, price: 5 }] }
s5: { date: 2026-03-08, channel: market, lines: [{ product: mug, lot: p1, count: 6, price: 10 }] }
s6: { date: 2026-04-01, channel: market, lines: [{ product: mug, lot: p1, count: 2, price: 10 }] }
`,
};

const BOOK = bookFrom(FILES);
const FLOWS = flow(BOOK, '2026-04-15');

function told(fair: string) {
  const fairs = fairsBefore(BOOK, FLOWS, BOOK.fairs.get(fair)!);
  return soldAtFairs(BOOK, FLOWS, fairs).map(({ product, glaze, grade, at }) => [
    [product, glaze, grade].join(' '),
    ...at.map(({ fair: { id }, count, ranOut }) =>
      [id, count, ...(ranOut ? [ranOut.day, `${ranOut.line}/${ranOut.of}`] : [])].join(' '),
    ),
  ]);
}

describe('what a fair sold before', () => {
  it('is by the fairs of its channel that were over, the newest first', () => {
    const ids = (fair: string) =>
      fairsBefore(BOOK, FLOWS, BOOK.fairs.get(fair)!).map(({ id }) => id);
    expect(ids('k3')).toEqual(['k2', 'k1']);
    expect(ids('k4')).toEqual(['k2', 'k1']);
    expect(ids('k1')).toEqual([]);
  });

  it('is by product, glaze and grade, less what came back, with what ran out', () => {
    expect(told('k3')).toEqual([
      // One of two bowls broke there.
      ['bowl  first', 'k2 1 2026-03-07 1/3'],
      // Nine were on the list of March; none was listed in February, and the studio had some left.
      ['mug green first', 'k2 6', 'k1 4'],
      // What a line took of seconds is known by its lot; seconds weren't on the list.
      ['mug rust + green first', 'k1 6 2026-02-08 3/5'],
      ['mug rust + green second', 'k2 1'],
    ]);
  });
});

describe('what to bring to a fair', () => {
  const rows = (fair: string) =>
    bringTable(BOOK, FLOWS, BOOK.fairs.get(fair)!).rows.map((row) => [
      [row['product'], row['glaze'], row['grade'] ?? 'first'].join(' '),
      row['bring'],
      row['ready'],
      row['take'],
    ]);

  it('is the most that went in an hour at one of them, over its own hours', () => {
    // 6 in 8 hours are 13.5 in 18; 6 in 10 hours are 10.8; no more bowls are made.
    expect(rows('k4')).toEqual([
      ['bowl  first', 2, 2, undefined],
      ['mug green first', 14, 8, undefined],
      ['mug rust + green first', 11, 0, undefined],
      ['mug rust + green second', 2, 2, undefined],
    ]);
  });

  it('has the list beside it, where a line means one sort of ware, and else by itself', () => {
    expect(rows('k3')).toEqual([
      ['bowl  first', 1, 2, undefined],
      ['bowl any second', 0, 0, 1],
      ['mug any first', 0, 8, 2],
      ['mug green first', 7, 8, undefined],
      ['mug rust + green first', 5, 0, 5],
      ['mug rust + green second', 1, 2, undefined],
    ]);
  });

  it('has the list alone where nothing was sold there yet', () => {
    const hall = bringTable(BOOK, FLOWS, BOOK.fairs.get('k0')!);
    expect(hall.rows).toEqual([]);
    expect(hall.notes).toEqual(['No earlier fair through its channel is on record.']);
  });

  it('is the same whatever the order of the files', () => {
    const turned = Object.fromEntries(
      Object.entries(FILES).map(([kind, text]) => [
        kind,
        text.trim().split('\n').reverse().join('\n'),
      ]),
    );
    const other = bookFrom(turned);
    const table = bringTable(other, flow(other, '2026-04-15'), other.fairs.get('k3')!);
    expect(table.rows).toEqual(bringTable(BOOK, FLOWS, BOOK.fairs.get('k3')!).rows);
  });
});
