/** Which stage a load takes its ware from, where a product has more than one firing of a kind. */
import { expect, it } from 'vitest';
import { leftIn } from '../../src/reckon/costs/cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import { bookFrom } from '../helpers/book.ts';

function firing(id: string, day: string, rest: string): string {
  return `${id}: { date: ${day}, kiln: kiln, ${rest} }\n`;
}

/** Of 20 cups that are glazed twice 12 have had the first glaze: 8 wait for it, 12 for the second. */
const BEGUN =
  firing('f1', '2025-01-10', 'kind: bisque, load: [{ lot: p1, in: 20, first: 20 }]') +
  firing('f2', '2025-01-11', 'kind: glaze, load: [{ lot: p1, in: 12, first: 12 }]');

function afterGlazing(pieces: number): ReturnType<typeof flow> {
  const load = `kind: glaze, load: [{ lot: p1, in: ${String(pieces)}, first: ${String(pieces)} }]`;
  const book = bookFrom({
    products: 'cup: { name: Cup, price: 20, fired: [bisque, glaze, glaze] }',
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    pieces: 'p1: { date: 2025-01-02, product: cup, made: 20 }',
    firings: BEGUN + firing('f3', '2025-01-12', load),
  });
  return flow(book, '2025-12-31');
}

it.each([
  [7, [0, 1, 19, 0]],
  [8, [0, 0, 20, 0]],
  // Not enough for the first glaze.
  [9, [0, 8, 3, 9]],
  [12, [0, 8, 0, 12]],
])('%i pieces are of the first stage that has enough', (pieces, standing) => {
  const { ware, shortfalls } = afterGlazing(pieces);
  const lot = ware.lots.get('p1') ?? expect.fail('no lot');
  expect([...lot.stages.map(leftIn), leftIn(lot.shelf)]).toEqual(standing);
  expect(shortfalls).toEqual([]);
});

it('more than any stage has are of the first that has some', () => {
  const { shortfalls } = afterGlazing(13);
  expect(shortfalls.map(({ wanted, had }) => [wanted.toFixed(), had.toFixed()])).toEqual([
    ['13', '8'],
  ]);
});
