/** Pieces that were found, with their glaze, are the same after a month that is known. */
import { expect, it } from 'vitest';
import { flow, goOnFrom } from '../../src/reckon/flow.ts';
import { monthsOfThisRun } from '../../src/reckon/months/before.ts';
import { bookFrom } from '../helpers/book.ts';
import { plainFlows } from '../helpers/plain-flows.ts';

it('found pieces go on', () => {
  const book = bookFrom({
    products: 'mug: { name: Mug, price: 20 }\n',
    recipes: 'blue: { name: Blue, kind: glaze, versions: [] }\n',
    counted:
      'c1: { date: 2026-03-08, pieces: [{ product: mug, glaze: blue, grade: first, count: 3 }] }\n',
    sales:
      's1: { date: 2026-04-02, channel: door, lines: [{ product: mug, glaze: blue, count: 1, price: 20 }] }\n',
  });
  const going = { ...book };
  goOnFrom(going, monthsOfThisRun());
  for (const day of ['2026-03-31', '2026-04-30'])
    expect(plainFlows(flow(going, day))).toEqual(plainFlows(flow({ ...book }, day)));
  expect(flow(going, '2026-04-30').ware.lots.get('c1/0')?.shelf.gone.count).toBe(1);
});
