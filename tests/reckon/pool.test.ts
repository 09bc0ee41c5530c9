import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ZERO, decimal, type Decimal } from '../../src/number/decimal.ts';
import {
  countTo,
  emptyPool,
  putIn,
  quantityOf,
  takeOut,
  unitCostOf,
  valueOf,
  type Pool,
  type Valuing,
} from '../../src/reckon/pool.ts';

const VALUINGS: readonly Valuing[] = ['average', 'first-in'];

/** Hundredths as a decimal. */
function hundredths(whole: number): Decimal {
  return decimal(whole).times(decimal('0.01'));
}

type Step =
  | { readonly do: 'put'; readonly quantity: number; readonly value: number }
  | { readonly do: 'take' | 'count'; readonly quantity: number };

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constant('put' as const),
    quantity: fc.integer({ min: 1, max: 90_000 }),
    value: fc.integer({ min: 0, max: 50_000 }),
  }),
  fc.record({
    do: fc.constantFrom('take' as const, 'count' as const),
    quantity: fc.integer({ min: 0, max: 60_000 }),
  }),
);

/** Does one step and returns the value that came in less the value that went out. */
function apply(pool: Pool, each: Step): Decimal {
  const quantity = hundredths(each.quantity);
  if (each.do === 'take') return takeOut(pool, quantity).value.neg();
  if (each.do !== 'put') return countTo(pool, quantity).value;
  const value = hundredths(each.value);
  return value.minus(putIn(pool, quantity, value));
}

describe('a pool', () => {
  it.each(VALUINGS)('%s: value in − value out is the value left, to the last digit', (valuing) => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const pool = emptyPool(valuing);
        let balance = ZERO;
        for (const each of steps) balance = balance.plus(apply(pool, each));
        expect(valueOf(pool).eq(balance)).toBe(true);
      }),
    );
  });

  it.each(VALUINGS)('%s: a stocktake leaves exactly what was counted', (valuing) => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 20 }), fc.nat(90_000), (steps, counted) => {
        const pool = emptyPool(valuing);
        for (const each of steps) apply(pool, each);
        const before = quantityOf(pool);
        const difference = countTo(pool, hundredths(counted));
        expect(quantityOf(pool).eq(hundredths(counted))).toBe(true);
        expect(before.plus(difference.quantity).eq(hundredths(counted))).toBe(true);
      }),
    );
  });

  it('average: draws at the mean of all that is there', () => {
    const pool = emptyPool('average');
    putIn(pool, decimal(10), decimal(10));
    putIn(pool, decimal(30), decimal(70));
    expect(takeOut(pool, decimal(5)).value.toString()).toBe('10');
    expect(unitCostOf(pool).toString()).toBe('2');
  });

  it('first-in: draws the oldest layer first and splits the next', () => {
    const pool = emptyPool('first-in');
    putIn(pool, decimal(10), decimal(10));
    putIn(pool, decimal(30), decimal(90));
    expect(takeOut(pool, decimal(12)).value.toString()).toBe('16');
    expect(unitCostOf(pool).toString()).toBe('3');
  });

  it.each(VALUINGS)('%s: what is drawn beyond the stock carries the last unit cost', (valuing) => {
    const pool = emptyPool(valuing);
    putIn(pool, decimal(4), decimal(8));
    const drawn = takeOut(pool, decimal(6));
    expect(drawn.value.toString()).toBe('12');
    expect(drawn.short.toString()).toBe('2');
    expect(quantityOf(pool).toString()).toBe('-2');
    expect(valueOf(pool).toString()).toBe('-4');
  });

  it.each(VALUINGS)('%s: the next goods settle a shortage at what they cost', (valuing) => {
    const pool = emptyPool(valuing);
    putIn(pool, decimal(4), decimal(8));
    takeOut(pool, decimal(6));
    // Two of the five cover the shortage: thought to be 4, now 6.
    expect(putIn(pool, decimal(5), decimal(15)).toString()).toBe('2');
    expect(quantityOf(pool).toString()).toBe('3');
    expect(valueOf(pool).toString()).toBe('9');
  });

  it('goods without cost make the rest cheaper', () => {
    const pool = emptyPool('average');
    putIn(pool, decimal(10), decimal(20));
    putIn(pool, decimal(10), ZERO);
    expect(unitCostOf(pool).toString()).toBe('1');
  });
});
