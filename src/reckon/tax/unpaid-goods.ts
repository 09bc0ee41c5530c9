/** Materials that were used or sold before they were paid for: on some cash bases they are not deducted yet. */
import { factsDuring } from '../../among.ts';
import type { Book, Day } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import {
  NO_QUANTITY,
  lessOf,
  lesserOf,
  oppositeOf,
  sumOf,
  type Measure,
} from '../../number/measure.ts';
import {
  NO_MONEY,
  less,
  lesser,
  opposite,
  portionOf,
  total,
  type Money,
} from '../../number/money.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { flow } from '../flow.ts';
import { unpaidBy } from '../sales/paid.ts';
import { standingValue } from '../stock/where.ts';
import type { Movement, MovementReason } from '../stock/stock.ts';

/** What was used unpaid by the end of a day, with the purchases that it is of. */
export interface UsedUnpaid {
  readonly amount: Money;
  readonly brought: Brought;
}

const NOTHING_UNPAID: UsedUnpaid = { amount: NO_MONEY, brought: new Map() };

/** Part of a purchase that was drawn. */
interface DrawnPart {
  /** The purchase. */
  readonly by: string;
  readonly value: Money;
  /** The movement that drew it. */
  readonly to: Movement;
}

/**
 * The value of the unpaid purchases that is neither in stock nor in ware at the end of a day. Which of
 * them was used goes by first bought, first used, material by material; of what went into ware the last
 * that went in is what still stands.
 */
export function usedUnpaid(book: Book, day: Day): UsedUnpaid {
  const unpaid = new Map(unpaidBy(book.bought, day).map(({ id, date }) => [id, date]));
  const from = [...unpaid.values()].sort()[0];
  if (from === undefined) return NOTHING_UNPAID;
  const { stock, ware } = flow(book, day);
  const moved = [...factsDuring(stock.movements, { from, to: day })].filter(
    (movement) => movement.day >= from && movement.day <= day && book.materials.has(movement.pool),
  );
  const pools = grouped(moved, ({ pool }) => pool);
  const drawn = [...pools].flatMap(([id, movements]) =>
    drawnOf(movements, stock.pools.get(id)?.pool.onHand ?? NO_QUANTITY),
  );
  const standingAt = standingValue({ stock, ware });
  const inWare = less(total(Object.values(standingAt)), standingAt.materials);
  const standing = standingShares(moved, inWare);
  const used = drawn
    .filter(({ by }) => unpaid.has(by))
    .map(({ by, value, to }) => [by, less(value, standing(to, value))] as const);
  return { amount: total(used.map(([, value]) => value)), brought: broughtBy(used) };
}

/** What came in at once, and how much of it is left. */
interface Arrival {
  readonly by: string;
  readonly quantity: Measure;
  readonly value: Money;
  left: Measure;
}

/** Every draw on a material part by part, by what it was drawn from: first in, first out. */
function drawnOf(movements: readonly Movement[], onHand: Measure): DrawnPart[] {
  const before = movements.reduce((left, { quantity }) => lessOf(left, quantity), onHand);
  const arrivals: Arrival[] = [{ by: '', quantity: before, value: NO_MONEY, left: before }];
  return movements.flatMap((movement) => {
    const { by, quantity, value } = movement;
    if (quantity < NO_QUANTITY) return drawFirst(arrivals, movement);
    arrivals.push({ by, quantity, value, left: quantity });
    return [];
  });
}

function drawFirst(arrivals: readonly Arrival[], to: Movement): DrawnPart[] {
  let wanted = oppositeOf(to.quantity);
  return arrivals.flatMap((arrival) => {
    const { by, quantity, value } = arrival;
    const taken = lesserOf(arrival.left, wanted);
    if (taken <= NO_QUANTITY) return [];
    const gone = lessOf(quantity, arrival.left);
    const worth = (part: Measure): Money => portionOf(value, part, quantity);
    arrival.left = lessOf(arrival.left, taken);
    wanted = lessOf(wanted, taken);
    return [{ by, to, value: less(worth(sumOf(gone, taken)), worth(gone)) }];
  });
}

/** What these draw goes into ware; all else is used at once. */
const INTO_WARE: ReadonlySet<MovementReason> = new Set(['into-mix', 'clay', 'supplies', 'fuel']);

/** How much of a value that a movement drew stands in ware of so much value: what was drawn last stands. */
function standingShares(
  movements: readonly Movement[],
  inWare: Money,
): (to: Movement, value: Money) => Money {
  const standing = new Map<Movement, Money>();
  let left = inWare;
  for (const movement of movements.filter(({ reason }) => INTO_WARE.has(reason)).reverse()) {
    const stands = lesser(left, opposite(movement.value));
    standing.set(movement, stands);
    left = less(left, stands);
  }
  return (to, value) => {
    const stands = standing.get(to) ?? NO_MONEY;
    const whole = opposite(to.value);
    return stands === whole ? value : portionOf(value, stands, whole);
  };
}
