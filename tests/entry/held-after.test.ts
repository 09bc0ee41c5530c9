/** What is held after a sale, at the edge of what there is. */
import { describe, expect, it } from 'vitest';
import type { Holdings } from '../../src/entry/held.ts';
import { heldAfter } from '../../src/entry/held-after.ts';
import { bookFrom } from '../helpers/book.ts';
import { measure } from '../helpers/minor.ts';

const BOOK = {
  materials:
    'straw: { name: Straw, kind: packing, unit: lb }\ntape: { name: Tape, kind: packing, unit: each }',
  products: `mug: { name: Mug, packing: [{ material: tape, each: 2 }, { material: straw, each: 4 oz }] }
bowl: { name: Bowl, packing: [{ material: straw, each: 50 g }] }
vase: { name: Vase, packing: [{ material: straw, each: 453.5923695 g }] }
jar: { name: Jar, packing: [{ material: tape, each: 1 lb }] }
plate: { name: Plate }`,
};
/** A quantity of the base unit as holdings keep it. */
function digits(quantity: string): string {
  return String(measure(quantity));
}

const NOTHING: Holdings = { stock: [], pieces: [] };
const HELD: Holdings = {
  stock: [
    ['straw', 'lb', digits('453.59237')],
    ['tape', 'each', digits('7')],
  ],
  pieces: [
    ['mug in the studio', 4],
    ['mug seconds in the studio', 1],
    ['mug at gallery', 5],
    ['plate in the studio', 2],
    ['bowl in the studio', 2],
    ['vase in the studio', 1],
    ['jar in the studio', 1],
  ],
};

function after(lines: string, uncounted = NOTHING): ReturnType<typeof heldAfter> {
  const book = bookFrom({
    ...BOOK,
    sales: `s1: { date: 2026-01-10, channel: door, lines: [${lines}] }`,
  });
  const sale = book.sales.get('s1');
  if (!sale) throw new Error('no sale');
  return heldAfter({ held: HELD, uncounted }, book, sale);
}

function line(what: string): string {
  return `{ product: ${what}, price: 1 }`;
}

describe('what is held after a sale', () => {
  it('is less by its pieces and their packing, in the base unit', () => {
    expect(after(line('mug, count: 3'))?.held).toEqual({
      stock: [
        // Twelve ounces less, each of 28.349523125 g.
        ['straw', 'lb', digits('113.3980925')],
        ['tape', 'each', digits('1')],
      ],
      pieces: [['mug in the studio', 1], ...HELD.pieces.slice(1)],
    });
  });

  it('can be nothing', () => {
    const all = after([line('plate, count: 1'), line('plate, count: 1')].join());
    expect(all?.held.pieces).toContainEqual(['plate in the studio', 0]);
  });

  it.each([
    ['pieces', line('plate, count: 3')],
    ['pieces, on two lines', [line('plate, count: 1'), line('plate, count: 2')].join()],
    ['seconds', line('mug, grade: second, count: 2')],
    ['pieces of which the book knows nothing', line('jug, count: 1')],
    ['packing', line('mug, count: 4')],
  ])('is not said where there are too few %s', (_, lines) => {
    expect(after(lines)).toBeUndefined();
  });

  it('is not said where a trace would be left, which goes with the rest', () => {
    expect(after(line('bowl, count: 1'))?.held.stock[0]).toEqual([
      'straw',
      'lb',
      digits('403.59237'),
    ]);
    expect(after(line('vase, count: 1'))).toBeUndefined();
  });

  it('is not said where packing is measured in another way than it is kept', () => {
    expect(after(line('jar, count: 1'))).toBeUndefined();
  });
});

describe('before a stocktake of the same day', () => {
  const uncounted: Holdings = {
    stock: [['tape', 'each', digits('12')]],
    pieces: [
      ['plate in the studio', 4],
      ['bowl in the studio', 0],
    ],
  };

  it('what it counts stays as it is counted', () => {
    const left = after([line('plate, count: 3'), line('mug, count: 1')].join(), uncounted);
    expect(left?.held).toEqual({
      stock: [['straw', 'lb', digits('340.1942775')], HELD.stock[1]],
      pieces: [['mug in the studio', 3], ...HELD.pieces.slice(1)],
    });
    expect(left?.uncounted).toEqual({
      stock: [['tape', 'each', digits('10')]],
      pieces: [['plate in the studio', 1], uncounted.pieces[1]],
    });
  });

  it('there may be more than it counts, and less', () => {
    const few: Holdings = { stock: [['tape', 'each', digits('1')]], pieces: [] };
    expect(after(line('mug, count: 1'), few)).toBeUndefined();
    expect(after(line('plate, count: 3'), uncounted)).toBeDefined();
  });

  it('is not said where none would be left for it to count', () => {
    expect(after(line('plate, count: 4'), uncounted)).toBeUndefined();
    expect(after(line('bowl, count: 1'), uncounted)).toBeUndefined();
  });
});
