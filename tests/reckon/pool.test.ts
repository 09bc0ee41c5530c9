import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { sumOf, type Measure } from '../../src/number/measure.ts';
import { NO_MONEY, add, less, opposite, type Money } from '../../src/number/money.ts';
import {
  costAt,
  countTo,
  emptyPool,
  putIn,
  takeOut,
  valueOf,
  type Pool,
  type Valuing,
} from '../../src/reckon/stock/pool.ts';
import { holds } from '../helpers/law.ts';
import { measure, measured, money, told } from '../helpers/minor.ts';

const VALUINGS: readonly Valuing[] = ['average', 'first-in'];

/** Hundredths of the base unit. */
function hundredths(whole: number): Measure {
  return measure(decimal(whole).times(decimal('0.01')).toString());
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
function apply(pool: Pool, each: Step): Money {
  const quantity = hundredths(each.quantity);
  if (each.do === 'take') return opposite(takeOut(pool, quantity).value);
  if (each.do !== 'put') return countTo(pool, quantity).value;
  const value = BigInt(each.value) as Money;
  return less(value, putIn(pool, quantity, value));
}

/** A pool that these came into, one after the other. */
function poolOf(
  valuing: Valuing,
  ...came: readonly (readonly [quantity: string | number, value: string])[]
): Pool {
  const pool = emptyPool(valuing);
  for (const [quantity, value] of came) putIn(pool, measure(quantity), money(value));
  return pool;
}

/** What draws of so much cost, one after the other. */
function costs(pool: Pool, ...quantities: readonly (string | number)[]): string[] {
  return quantities.map((quantity) => told(takeOut(pool, measure(quantity)).value));
}

function left(pool: Pool): string {
  return `${measured(pool.onHand)} worth ${told(valueOf(pool))}`;
}

/** What so much costs by the pool's unit cost. */
function unit(pool: Pool, quantity = 1): string {
  return told(costAt(pool.cameLast, measure(quantity)));
}

describe('a pool', () => {
  it.each(VALUINGS)('%s: value in − value out is the value left, to the cent', (valuing) => {
    holds(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const pool = emptyPool(valuing);
        let balance = NO_MONEY;
        for (const each of steps) balance = add(balance, apply(pool, each));
        expect(valueOf(pool)).toBe(balance);
      }),
    );
  });

  it.each(VALUINGS)('%s: a stocktake leaves exactly what was counted', (valuing) => {
    holds(
      fc.property(fc.array(step, { maxLength: 20 }), fc.nat(90_000), (steps, counted) => {
        const pool = emptyPool(valuing);
        for (const each of steps) apply(pool, each);
        const before = pool.onHand;
        const difference = countTo(pool, hundredths(counted));
        expect(pool.onHand).toBe(hundredths(counted));
        expect(sumOf(before, difference.quantity)).toBe(hundredths(counted));
      }),
    );
  });

  it('average: draws at the mean of all that is there', () => {
    const pool = poolOf('average', [10, '10.00'], [30, '70.00']);
    expect([costs(pool, 5), unit(pool)]).toEqual([['10.00'], '2.00']);
  });

  it('first-in: draws the oldest layer first and splits the next', () => {
    const pool = poolOf('first-in', [10, '10.00'], [30, '90.00']);
    expect([costs(pool, 12), unit(pool)]).toEqual([['16.00'], '3.00']);
  });

  it('goods without cost make the rest cheaper', () => {
    expect(unit(poolOf('average', [10, '20.00'], [10, '0.00']))).toBe('1.00');
  });
});

describe('what is drawn bit by bit', () => {
  it.each(VALUINGS)(
    '%s: costs what a running share grows by, and all of it in the end',
    (valuing) => {
      const labels = poolOf(valuing, [1000, '3.00']);
      // .003 each: .30 .60 .90 1.20 1.50 1.80 2.10 2.40 2.70 3.00 cents have gone after each.
      const first = costs(labels, ...Array.from({ length: 10 }, () => 1));
      expect(first).toEqual(
        ['0', '1', '0', '0', '1', '0', '0', '0', '1', '0'].map((c) => `0.0${c}`),
      );
      expect([costs(labels, 990), left(labels)]).toEqual([['2.97'], '0 worth 0.00']);
    },
  );

  it('average: begins anew with what came in', () => {
    const pool = poolOf('average', [3, '1.00']);
    expect(costs(pool, 1)).toEqual(['0.33']);
    putIn(pool, measure(3), money('1.00'));
    // 5 worth 1.67: 33.4, 66.8, 100.2 …
    expect(unit(pool, 5)).toBe('1.67');
    expect(costs(pool, 1, 1, 1, 2)).toEqual(['0.33', '0.34', '0.33', '0.67']);
    expect(left(pool)).toBe('0 worth 0.00');
  });

  it('first-in: runs layer by layer', () => {
    const pool = poolOf('first-in', [3, '1.00'], [3, '2.00']);
    // 66.67; the 33 that are left and 66.67; the 133 that are left.
    expect(costs(pool, 2, 2, 2)).toEqual(['0.67', '1.00', '1.33']);
  });

  it('leaves the unit cost alone', () => {
    const pool = poolOf('average', [3, '1.00']);
    takeOut(pool, measure(2));
    expect(pool.cameLast).toMatchObject({ value: 100n, quantity: measure(3) });
  });

  it.each(VALUINGS)('%s: takes all where a trace would be left or lacking', (valuing) => {
    const less = poolOf(valuing, [200, '4.00']);
    const third = '66.666666666667';
    // 133.33, 266.67, and the third, that lacks a trace, takes what is left.
    expect(costs(less, third, third, third)).toEqual(['1.33', '1.34', '1.33']);
    expect(left(less)).toBe('0 worth 0.00');
    const more = poolOf(valuing, [1, '4.00']);
    const drawn = takeOut(more, measure('0.9999995'));
    expect([measured(drawn.quantity), told(drawn.value), left(more)]).toEqual([
      '1',
      '4.00',
      '0 worth 0.00',
    ]);
  });

  it('keeps a millionth, which is no trace', () => {
    const pool = poolOf('average', [1, '4.00']);
    expect(costs(pool, '0.999999')).toEqual(['4.00']);
    expect(left(pool)).toBe('0.000001 worth 0.00');
    const short = takeOut(poolOf('average', [1, '4.00']), measure('1.000001'));
    expect(measured(short.short)).toBe('0.000001');
  });
});

describe('more than there is', () => {
  it.each(VALUINGS)('%s: carries the unit cost of what was drawn last', (valuing) => {
    const pool = poolOf(valuing, [4, '8.00']);
    const drawn = takeOut(pool, measure(6));
    expect([told(drawn.value), measured(drawn.short)]).toEqual(['12.00', '2']);
    expect(left(pool)).toBe('-2 worth -4.00');
  });

  it.each(VALUINGS)('%s: costs what all that is beyond grows by', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    // The three; then 33.33, 66.67 and 100 beyond.
    expect(costs(pool, 3, 1, 1, 1)).toEqual(['1.00', '0.33', '0.34', '0.33']);
    expect(left(pool)).toBe('-3 worth -1.00');
  });

  it.each(VALUINGS)('%s: is nothing where nothing came in before', (valuing) => {
    const pool = emptyPool(valuing);
    expect([costs(pool, 3), left(pool)]).toEqual([['0.00'], '-3 worth 0.00']);
  });

  it.each(VALUINGS)('%s: is settled by what comes in next, at what that cost', (valuing) => {
    const pool = poolOf(valuing, [4, '8.00']);
    takeOut(pool, measure(6));
    // Two of the five cover the shortage: thought to be 4.00, now 6.00.
    expect(told(putIn(pool, measure(5), money('15.00')))).toBe('2.00');
    expect(left(pool)).toBe('3 worth 9.00');
    expect(unit(pool)).toBe('3.00');
  });

  it.each(VALUINGS)(
    '%s: leaves the arrival like a draw, and the rest goes on from there',
    (valuing) => {
      const pool = poolOf(valuing, [3, '1.00']);
      takeOut(pool, measure(6));
      // 3 of 5 fill the gap: 6.00 × 3 ÷ 7 = 2.57 less the 1.00 that they were costed at.
      expect(told(putIn(pool, measure(7), money('6.00')))).toBe('1.57');
      expect([left(pool), unit(pool, 7)]).toEqual(['4 worth 3.43', '6.00']);
      // 3.43, 4.29, 5.14 and 6.00 have gone after each.
      expect(costs(pool, 1, 1, 1, 1)).toEqual(['0.86', '0.86', '0.85', '0.86']);
    },
  );

  it.each(VALUINGS)('%s: comes back share by share where several arrivals fill it', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    takeOut(pool, measure(6));
    // Two of three come back of 1.00: 67; then the rest, 33.
    expect(told(putIn(pool, measure(2), money('0.90')))).toBe('0.23');
    expect(left(pool)).toBe('-1 worth -0.33');
    expect(told(putIn(pool, measure(1), money('0.50')))).toBe('0.17');
    expect(left(pool)).toBe('0 worth 0.00');
  });

  it.each(VALUINGS)('%s: is counted anew since something last came in', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    takeOut(pool, measure(4));
    // 33 of the gap are settled; two more are drawn at .45 from there: 45, 90.
    putIn(pool, measure(2), money('0.90'));
    expect(costs(pool, 1, 1, 1)).toEqual(['0.45', '0.45', '0.45']);
    expect(left(pool)).toBe('-2 worth -0.90');
  });
});

describe('a stocktake', () => {
  it.each(VALUINGS)('%s: draws what is lacking', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    const { quantity, value } = countTo(pool, measure(1));
    expect([measured(quantity), told(value), left(pool)]).toEqual(['-2', '-0.67', '1 worth 0.33']);
  });

  it('average: brings in what is found at the unit cost, and leaves that as it was', () => {
    const pool = poolOf('average', [10, '10.00'], [10, '30.00']);
    takeOut(pool, measure(5));
    // 2.00 each; five more than the fifteen.
    expect(told(countTo(pool, measure(20)).value)).toBe('10.00');
    expect([left(pool), unit(pool)]).toEqual(['20 worth 40.00', '2.00']);
  });

  it('first-in: takes what is found for the newest layer, at what came in last', () => {
    const pool = poolOf('first-in', [10, '10.00'], [10, '30.00']);
    expect(told(countTo(pool, measure(25)).value)).toBe('15.00');
    expect(unit(pool)).toBe('3.00');
    // The layers of 1.00, of 3.00 and what was found, then beyond at that unit cost.
    expect(costs(pool, 10, 10, 5, 1)).toEqual(['10.00', '30.00', '15.00', '3.00']);
  });

  it.each(VALUINGS)('%s: forgets what was drawn beyond the stock, with its cost', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    takeOut(pool, measure(6));
    // The gap of 1.00 goes, and 6 come in at 33.33 each.
    const { quantity, value } = countTo(pool, measure(6));
    expect([measured(quantity), told(value), left(pool)]).toEqual(['9', '3.00', '6 worth 2.00']);
  });

  it.each(VALUINGS)('%s: of nothing only closes the gap', (valuing) => {
    const pool = poolOf(valuing, [3, '1.00']);
    takeOut(pool, measure(6));
    const { quantity, value } = countTo(pool, measure(0));
    expect([measured(quantity), told(value), left(pool)]).toEqual(['3', '1.00', '0 worth 0.00']);
  });
});
