import { describe, expect, it } from 'vitest';
import { becauseOf } from '../../src/check/shortage-words.ts';
import { decimal } from '../../src/number/decimal.ts';
import { measureIn } from '../../src/number/measure.ts';
import type { Money } from '../../src/number/money.ts';
import type { Unit } from '../../src/number/unit.ts';
import { drawTogether, type DrawPart } from '../../src/reckon/stock/draw-together.ts';
import { openStore, receive, type Store } from '../../src/reckon/stock/stock.ts';
import { bookFrom } from '../helpers/book.ts';
import { measured, money, told } from '../helpers/minor.ts';

const HEAD = {
  day: '2026-01-02',
  reason: 'packing' as const,
  by: 's1',
  at: (line = 0) => ({ file: 'sales.yaml', path: ['s1', line] }),
};

type Wish = Omit<DrawPart, 'line'>;

/** Draws what each line of a record wishes for. */
function draws(store: Store, lines: readonly (readonly Wish[])[]): Money[] {
  const parts = lines.flatMap((wishes, line) => wishes.map((wish) => ({ ...wish, line })));
  return drawTogether(store, { ...HEAD, lines: lines.length }, parts);
}

function part(pool: string, quantity: number, unit: Unit = 'each'): Wish {
  return { pool, quantity: measureIn(decimal(quantity), unit), unit };
}

/** Six boxes for 1.00 and a kilogram of paper for 0.50. */
function storeOfPacking(): Store {
  const book = bookFrom({
    materials: `
box: { name: Box, kind: packing, unit: each }
paper: { name: Paper, kind: packing, unit: kg }
`,
  });
  const store = openStore(book, true);
  const bought = { ...HEAD, reason: 'bought' as const, by: 'b1' };
  receive(store, { ...bought, ...part('box', 6) }, money('1.00'));
  receive(store, { ...bought, ...part('paper', 1, 'kg') }, money('0.50'));
  return store;
}

function drawn(store: Store): string[] {
  return store.movements
    .filter(({ reason }) => reason === 'packing')
    .map(({ pool, quantity, value }) => `${pool} ${measured(quantity)} ${told(value)}`);
}

describe('the lines of one record', () => {
  it('draw a pool once, and share what that costs by quantity', () => {
    const store = storeOfPacking();
    const costs = draws(store, [[part('box', 1)], [part('box', 1)], [], [part('box', 1)]]);
    // Half of the boxes are .50: 16.67 each, the odd cents to the first. One by one: 17, 16, 17.
    expect(costs).toEqual([17n, 17n, 0n, 16n]);
    expect(drawn(store)).toEqual(['box -3 -0.50']);
  });

  it('add up what they take of several pools, and of one pool twice', () => {
    const store = storeOfPacking();
    const costs = draws(store, [
      [part('box', 1), part('paper', 100, 'g'), part('box', 1)],
      [part('paper', 300, 'g')],
    ]);
    // 2 of 6 boxes are .33; 400 g of paper .20, of which a quarter is .05.
    expect(costs).toEqual([38n, 15n]);
    expect(drawn(store)).toEqual(['box -2 -0.33', 'paper -400 -0.20']);
  });

  it('draw nothing of what is measured in another way, or is not there', () => {
    const store = storeOfPacking();
    const costs = draws(store, [[part('box', 5, 'kg'), part('ribbon', 1)]]);
    expect(costs).toEqual([0n]);
    expect(drawn(store)).toEqual([]);
  });

  it('are short once, for all of them together', () => {
    const store = storeOfPacking();
    const costs = draws(store, [[part('box', 4)], [part('box', 4)]]);
    // 1.00, and two more at .1667 each: 1.33, shared evenly.
    expect(costs).toEqual([67n, 66n]);
    expect(store.shortfalls.map((each) => becauseOf(store.book, each))).toEqual([
      '6 each on hand, 8 each needed',
    ]);
  });

  it('are short where the first of them asks for it', () => {
    const store = storeOfPacking();
    draws(store, [[part('box', 1)], [part('paper', 1, 'kg'), part('box', 9)]]);
    draws(store, [[], [part('paper', 2, 'kg'), part('box', 1)]]);
    expect(store.shortfalls.map(({ what, at }) => `${what} ${at.path.join(' ')}`)).toEqual([
      'box s1 0',
      'paper s1 1',
      'box s1 1',
    ]);
  });
});
