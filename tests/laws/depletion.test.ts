/** What is on hand, and what it is worth, is what the movements of its history add up to. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysBetween } from '../../src/number/date.ts';
import { ZERO } from '../../src/number/decimal.ts';
import { total } from '../../src/number/money.ts';
import { NO_QUANTITY, inUnit, oppositeOf, sumOf, type Measure } from '../../src/number/measure.ts';
import { depletion } from '../../src/reckon/stock/depletion.ts';
import { flow } from '../../src/reckon/flow.ts';
import { valueOf } from '../../src/reckon/stock/pool.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const VALUINGS = ['average', 'first-in'] as const;

function sumUp(quantities: readonly Measure[]): Measure {
  return quantities.reduce(sumOf, NO_QUANTITY);
}

describe('stock', () => {
  it('is what its movements add up to, in quantity and value', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some' }),
      fc.option(fc.nat(), { nil: undefined }),
      fc.record({
        when: part,
        valuing: fc.constantFrom(...VALUINGS),
        window: fc.integer({ min: 1, max: 200 }),
      }),
      async (plan, seed, { when, valuing, window }) => {
        const { book: read } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
        const book = { ...read, studio: { ...read.studio, stockValue: valuing } };
        const day = dayIn(plan, when);
        const { stock } = flow(book, day);
        const moves = (id: string) => [...stock.movements].filter(({ pool }) => pool === id);
        for (const { id, pool } of stock.pools.values()) {
          expect(pool.onHand).toBe(sumUp(moves(id).map(({ quantity }) => quantity)));
          expect(valueOf(pool)).toBe(total(moves(id).map(({ value }) => value)));
        }
        const outlooks = depletion(book, stock, window);
        expect(outlooks.map(({ id }) => id).sort()).toEqual([...book.materials.keys()].sort());
        for (const { id, unit, onHand, value, used, usedPerDay, ...outlook } of outlooks) {
          const history = moves(id);
          const moved = inUnit(sumUp(history.map(({ quantity }) => quantity)), unit);
          expect(onHand.toFixed()).toBe(moved.toFixed());
          expect(value).toBe(total(history.map((move) => move.value)));
          const out = history.filter(
            ({ day: on, reason, quantity }) =>
              daysBetween(on, day) < window && reason !== 'counted' && quantity < NO_QUANTITY,
          );
          const gone = inUnit(sumUp(out.map(({ quantity }) => oppositeOf(quantity))), unit);
          expect(used.toFixed()).toBe(gone.toFixed());
          expect(usedPerDay.gte(ZERO)).toBe(true);
          expect(used.gte(usedPerDay)).toBe(true);
          expect(usedPerDay.isZero()).toBe(outlook.runsOut === undefined);
          expect((outlook.runsOut ?? day) >= day).toBe(true);
          expect(outlook.state === 'out').toBe(!onHand.gt(ZERO));
        }
      },
    );
    await holds(property, 5);
  });
});
