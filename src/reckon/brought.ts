/** What records bring to a figure, each by itself. */
import { NO_MONEY, add, addUnder, less, opposite, type Money } from '../number/money.ts';

/** What records bring to an amount, by their ids; they add up to it. */
export type Brought = ReadonlyMap<string, Money>;

export type BroughtParts = readonly (readonly [id: string, amount: Money])[];

/** Adds up what the same records bring. */
export function broughtBy(parts: Iterable<readonly [id: string, amount: Money]>): Brought {
  const brought = new Map<string, Money>();
  for (const [id, amount] of parts) addUnder(brought, id, amount);
  return brought;
}

/** The ids of those that bring something, in the order of letters. */
export function bringing(brought: Brought = new Map()): string[] {
  return [...brought.keys()].filter((id) => brought.get(id) !== NO_MONEY).sort();
}

/**
 * What records bring to a figure of the sum of what they are: each what the figure grows by with it, so
 * that they add up to the figure of all.
 */
export function broughtInTurn<T>(
  parts: Iterable<readonly [id: string, part: T]>,
  figureUpTo: (part: T) => Money,
): Brought {
  let before = NO_MONEY;
  const grown: [string, Money][] = [];
  for (const [id, part] of parts) {
    const figure = figureUpTo(part);
    grown.push([id, less(figure, before)]);
    before = figure;
  }
  return broughtBy(grown);
}

/** What records bring to the sum of some figures less others. */
export function broughtTogether(plus: readonly Brought[], off: readonly Brought[]): Brought {
  return broughtBy([
    ...plus.flatMap((each) => [...each]),
    ...off.flatMap((each) => [...each].map(([id, amount]) => [id, opposite(amount)] as const)),
  ]);
}

/** The running sums of amounts, in their order. */
export function* runningSums(parts: Brought): Generator<readonly [id: string, sum: Money]> {
  let sum = NO_MONEY;
  for (const [id, amount] of parts) {
    sum = add(sum, amount);
    yield [id, sum];
  }
}
