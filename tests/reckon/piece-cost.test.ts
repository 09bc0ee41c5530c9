import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ZERO, decimal, sum, type Decimal } from '../../src/number/decimal.ts';
import {
  costOfPiece,
  withDearer,
  withMoreLosses,
  type PieceCost,
  type Step,
} from '../../src/reckon/costs/piece-cost.ts';
import { holds } from '../helpers/law.ts';

/** A step that takes work is one with minutes. */
function step(
  [wentIn, lost, minutes = 0]: readonly [number, number, number?],
  costs: Record<string, string>,
): Step {
  const money = Object.entries(costs).map(([part, cost]) => [part, decimal(cost)] as const);
  return {
    in: decimal(wentIn),
    lost: decimal(lost),
    costs: Object.fromEntries(money),
    minutes: decimal(minutes),
  };
}

function texts(cost: PieceCost | undefined): Record<string, string> {
  const { parts, ...rest } = cost ?? expect.fail('no cost');
  const all = { ...parts, ...rest } as Record<string, Decimal | undefined>;
  return Object.fromEntries(
    Object.entries(all).flatMap(([key, value]) => (value ? [[key, value.toFixed()]] : [])),
  );
}

describe('costOfPiece', () => {
  it('is what each step takes of one piece, where none is lost', () => {
    const steps = [
      step([10, 0, 150], { clay: '8', labour: '60' }),
      step([10, 0], { energy: '5', wear: '1.5' }),
      step([10, 0, 10], { glaze: '3', energy: '7', overhead: '20', labour: '4' }),
    ];
    expect(texts(costOfPiece(steps, decimal('0.75')))).toEqual({
      clay: '0.8',
      glaze: '0.3',
      energy: '1.2',
      wear: '0.15',
      supplies: '0',
      packing: '0.75',
      labour: '6.4',
      overhead: '2',
      uplift: '0',
      total: '11.6',
      minutes: '16',
    });
  });

  it('lets the good ones bear the lost: of 10 at 8.00 five come out, and of those four', () => {
    // 80 of clay ÷ 4 good = 20; 5 of 10 lost in the bisque, whose 10.00 ÷ 4 = 2.50; 1 of 5 lost in
    // the glaze firing, whose 6.00 ÷ 4 = 1.50. A piece itself takes 8.00 + 1.00 + 1.20 = 10.20.
    const steps = [
      step([10, 0], { clay: '80' }),
      step([10, 5], { energy: '10' }),
      step([5, 1], { energy: '6' }),
    ];
    const { parts, uplift, total } = costOfPiece(steps, ZERO) ?? expect.fail('no cost');
    expect([parts.clay, parts.energy, uplift, total].map(String)).toEqual([
      '8',
      '2.2',
      '13.8',
      '24',
    ]);
  });

  it('counts the work on lost pieces in labour and minutes, and none of the packing twice', () => {
    const steps = [step([10, 5, 100], { labour: '40' })];
    const { labour, minutes, parts, total } = costOfPiece(steps, decimal('1')) ?? expect.fail();
    expect([parts.labour, labour, minutes, parts.packing, total].map(String)).toEqual([
      '4',
      '8',
      '20',
      '1',
      '9',
    ]);
  });

  it('is nothing where a step lets nothing through', () => {
    expect(costOfPiece([step([3, 3], { clay: '3' })], ZERO)).toBeUndefined();
  });

  it('leaves the minutes open where a step does not know them', () => {
    const open = { ...step([4, 0], { clay: '4' }), minutes: undefined };
    expect(costOfPiece([open], ZERO)?.minutes).toBeUndefined();
  });
});

describe('a tenth more', () => {
  const steps = [step([100, 20], { clay: '80', energy: '40' })];

  it('of losses: 20 of 100 become 22, so 120.00 ÷ 78', () => {
    expect(costOfPiece(withMoreLosses(steps), ZERO)?.total.toFixed(6)).toBe('1.538462');
  });

  it('of one price moves that part and the uplift on it: 88 + 40 over 80', () => {
    expect(costOfPiece(withDearer(steps, 'clay'), ZERO)?.total.toString()).toBe('1.6');
    expect(costOfPiece(withDearer(steps, 'energy'), ZERO)?.total.toString()).toBe('1.55');
    expect(costOfPiece(withDearer(steps, 'glaze'), ZERO)?.total.toString()).toBe('1.5');
  });
});

const money = fc.nat({ max: 1_000_000 }).map((cents) => decimal(cents).times(decimal('0.01')));

/** Steps whose pieces go on: what came out of one goes into the next. */
const ways = fc
  .tuple(
    fc.integer({ min: 1, max: 500 }),
    fc.array(fc.tuple(fc.nat({ max: 99 }), money, money, money), { minLength: 1, maxLength: 4 }),
  )
  .map(([made, each]) => {
    let there = made;
    const steps = each.map(([percent, clay, energy, labour]): Step => {
      const wentIn = there;
      const lost = Math.floor((wentIn * percent) / 100);
      there = wentIn - lost;
      const costs = { clay, energy, labour };
      return { in: decimal(wentIn), lost: decimal(lost), costs, minutes: labour };
    });
    return { steps, good: there };
  });

describe('laws of a piece and its losses', () => {
  it('parts and uplift add up to the total, to eleven decimals', () => {
    holds(
      fc.property(ways, money, ({ steps }, packing) => {
        const { parts, uplift, total } = costOfPiece(steps, packing) ?? expect.fail('no cost');
        const off = sum([...Object.values(parts), uplift])
          .minus(total)
          .abs();
        // Ten figures, each rounded to 12 decimals.
        expect(off.lte(decimal('0.000000000005'))).toBe(true);
      }),
    );
  });

  it('the good ones bear all that was spent, to eight decimals', () => {
    holds(
      fc.property(ways, ({ steps, good }) => {
        const spent = sum(steps.flatMap(({ costs }) => Object.values(costs)));
        const { total } = costOfPiece(steps, ZERO) ?? expect.fail('no cost');
        expect(total.times(decimal(good)).toFixed(8)).toBe(spent.toFixed(8));
      }),
    );
  });

  it('a tenth more losses never lower the cost, and change nothing where none are', () => {
    holds(
      fc.property(ways, ({ steps }) => {
        const now = costOfPiece(steps, ZERO)?.total ?? expect.fail('no cost');
        const then = costOfPiece(withMoreLosses(steps), ZERO)?.total;
        if (then) expect(then.gte(now)).toBe(true);
        const lossless = steps.map((each) => ({ ...each, lost: ZERO }));
        expect(costOfPiece(lossless, ZERO)?.uplift.toFixed()).toBe('0');
        expect(costOfPiece(withMoreLosses(lossless), ZERO)).toEqual(costOfPiece(lossless, ZERO));
      }),
    );
  });
});
