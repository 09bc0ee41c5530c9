import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Money } from '../../src/number/money.ts';
import {
  type Batch,
  COMPONENTS,
  type Cost,
  NO_COST,
  addCosts,
  batchOf,
  costLike,
  joined,
  leftIn,
  restOf,
  takeFrom,
  totalOf,
} from '../../src/reckon/costs/cost.ts';
import { money } from '../helpers/minor.ts';
import { holds } from '../helpers/law.ts';

function threeCups(): Batch {
  return batchOf(3, { clay: money('1.00'), energy: money('0.50') });
}

describe('a batch of pieces', () => {
  it('gives each taking what the running share grows by, component by component', () => {
    const batch = threeCups();
    // 33.33 and 16.67; 66.67 and 33.33; all of it.
    expect(takeFrom(batch, 1)).toEqual({ count: 1, cost: { clay: 33n, energy: 17n } });
    expect(takeFrom(batch, 1)).toEqual({ count: 1, cost: { clay: 34n, energy: 16n } });
    expect(restOf(batch)).toEqual({ count: 1, cost: { clay: 33n, energy: 17n } });
  });

  it('gives no more than are left, and nothing of an empty one', () => {
    const batch = threeCups();
    expect(takeFrom(batch, 5)).toEqual({ count: 3, cost: { clay: 100n, energy: 50n } });
    expect(takeFrom(batch, 1)).toEqual({ count: 0, cost: NO_COST });
    expect([leftIn(batch), totalOf(restOf(batch).cost)]).toEqual([0, 0n]);
  });

  it('begins anew when pieces join what is left', () => {
    const batch = threeCups();
    takeFrom(batch, 1);
    const more = joined(batch, { count: 1, cost: { clay: money('0.10'), labour: money('0.20') } });
    // 67 + 10, 33 and 20 over three.
    expect(restOf(more)).toEqual({ count: 3, cost: { clay: 77n, energy: 33n, labour: 20n } });
    expect(takeFrom(more, 1).cost).toEqual({ clay: 26n, energy: 11n, labour: 7n });
  });

  it('tells what so many would cost as it last came in, whatever was taken since', () => {
    const batch = threeCups();
    takeFrom(batch, 3);
    expect(costLike(batch, 2)).toEqual({ clay: 67n, energy: 33n });
    expect(costLike(batchOf(0, NO_COST), 2)).toEqual(NO_COST);
  });

  const cents = fc.bigInt({ min: 0n, max: 100_000n }).map((units) => units as Money);

  it('never loses a cent on the way', () => {
    const takings = fc.array(fc.nat(6), { maxLength: 12 });
    holds(
      fc.property(fc.integer({ min: 1, max: 30 }), cents, cents, takings, (...given) => {
        const [count, clay, wear, wanted] = given;
        const batch = batchOf(count, { clay, wear });
        const taken = wanted.map((each) => takeFrom(batch, each).cost);
        const all = [...taken, restOf(batch).cost].reduce<Cost>(addCosts, NO_COST);
        expect(COMPONENTS.map((each) => all[each] ?? 0n)).toEqual(
          COMPONENTS.map((each) => (each === 'clay' ? clay : each === 'wear' ? wear : 0n)),
        );
      }),
    );
  });
});
