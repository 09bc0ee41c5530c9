import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { NO_MONEY } from '../../src/number/money.ts';
import { countsFlow, flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { leftIn } from '../../src/reckon/costs/cost.ts';
import { measured } from '../helpers/minor.ts';
import { valueOf } from '../../src/reckon/stock/pool.ts';
import { checkFiles } from '../helpers/check-files.ts';
import { randomStudio } from '../helpers/random-studio.ts';
import { holds } from '../helpers/law.ts';

/** All that a flow says beside money. */
function countsOf({ stock, ware, shortfalls }: Flows) {
  return {
    shortfalls: shortfalls.map((short) => ({
      ...short,
      wanted: short.wanted.toString(),
      had: short.had.toString(),
    })),
    quantities: [...stock.pools].map(([id, { pool }]) => [id, measured(pool.onHand)]),
    lots: [...ware.lots].map(([id, lot]) => [
      id,
      lot.finishedOn,
      lot.stages.map(leftIn),
      leftIn(lot.shelf),
      [...lot.places],
    ]),
  };
}

describe('a flow without money', () => {
  it('finds the same quantities, counts and shortages as the full one', () => {
    holds(
      fc.property(randomStudio({ days: 120, breaks: 'some' }), ({ files, asOf }) => {
        const bookOf = (): Book => checkFiles(files, asOf).book;
        const counts = countsFlow(bookOf(), asOf);
        const book = bookOf();
        expect(counts.stock.isValued).toBe(false);
        expect(counts.stock.movements).toEqual([]);
        expect(countsOf(counts)).toEqual(countsOf(flow(book, asOf)));
        const values = [...counts.stock.pools.values()].map(({ pool }) => valueOf(pool));
        expect(values.every((value) => value === NO_MONEY)).toBe(true);
      }),
      15,
    );
  });

  it('is not run where the full one is known', () => {
    const book = checkFiles(
      { 'studio.yaml': 'format: 1\nname: S\ncurrency: USD\n' },
      '2025-01-01',
    ).book;
    const full = flow(book, '2025-01-01');
    expect(countsFlow(book, '2025-01-01')).toBe(full);
  });
});
