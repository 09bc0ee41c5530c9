/** A pile of pieces (rules 1, 10, 11): the running share of each component's cost by count. */
import { FREE, add, costOf, less, type Cost } from './costs.ts';
import { count as countOf, shareOf } from './fraction.ts';

/** What there was when something other than a draw last changed it, and how many are gone since. */
export interface Pile {
  readonly count: number;
  readonly cost: Cost;
  readonly taken: number;
}

export const EMPTY: Pile = { count: 0, cost: FREE, taken: 0 };

export function leftIn({ count, taken }: Pile): number {
  return count - taken;
}

/** What so many pieces of the base have taken with them. */
function goneWith({ count, cost }: Pile, taken: number): Cost {
  if (taken === 0) return FREE;
  return costOf((one) => shareOf(cost[one], countOf(taken), countOf(count)));
}

export function costLeft(pile: Pile): Cost {
  return less(pile.cost, goneWith(pile, pile.taken));
}

/** The pile without so many, and what went with them. */
export function take(pile: Pile, count: number): { readonly pile: Pile; readonly cost: Cost } {
  const taken = pile.taken + count;
  const cost = less(goneWith(pile, taken), goneWith(pile, pile.taken));
  return { pile: { ...pile, taken }, cost };
}

/** The pile with so many more. */
export function join(pile: Pile, count: number, cost: Cost): Pile {
  return { count: leftIn(pile) + count, cost: add(costLeft(pile), cost), taken: 0 };
}

/** What is left bears what the lost ones cost; with the last one all is lost. */
export function lose(pile: Pile, count: number): { readonly pile: Pile; readonly lost: Cost } {
  const left = leftIn(pile) - count;
  if (left <= 0) return { pile: EMPTY, lost: costLeft(pile) };
  return { pile: { count: left, cost: costLeft(pile), taken: 0 }, lost: FREE };
}

/** What so many pieces would cost at what the pile's base came to a piece. */
export function costLike({ count, cost }: Pile, pieces: number): Cost {
  if (count === 0) return FREE;
  return costOf((one) => shareOf(cost[one], countOf(pieces), countOf(count)));
}
