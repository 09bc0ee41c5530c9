/** All that ware and what goes with it has cost, added up where it went in and where it is now. */
import type { Book } from '../../../src/book.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../../../src/number/decimal.ts';
import { costOfSlice, restOf } from '../../../src/reckon/batch.ts';
import {
  COMPONENTS,
  NO_COST,
  addCosts,
  type Component,
  type Cost,
} from '../../../src/reckon/cost.ts';
import { firingShares } from '../../../src/reckon/firing-cost.ts';
import type { Flows } from '../../../src/reckon/flow.ts';
import { minutesOfLot } from '../../../src/reckon/lot-making.ts';
import { accountCost, type Account } from '../../../src/reckon/ware.ts';

/** Costs of every component that making, firing and packing put in, up to the flows' day. */
export function putIn(book: Book, flows: Flows): Cost {
  const { stock, ware } = flows;
  const costs = [...ware.firings.values()];
  const packing = stock.movements.filter(({ reason }) => reason === 'packing');
  return {
    clay: sum(stock.clay.values()),
    glaze: sum([...stock.glaze.values()].flat()),
    energy: sum(costs.map((cost) => cost.energyCost ?? ZERO)),
    fuel: sum(costs.map((cost) => cost.fuelCost)),
    wear: sum(costs.map((cost) => cost.wearCost)),
    supplies: sum(costs.map((cost) => cost.suppliesCost)),
    packing: sum(packing.map(({ value }) => value.neg())),
    labour: sum([...costs.map((cost) => cost.labourCost), ...makingLabours(book, flows)]),
  };
}

/**
 * The same that one lot's making and its load lines put in; packing is no lot's, and a firing before
 * it was made is none of its own.
 */
export function putInByLot(book: Book, flows: Flows, lot: string): Cost {
  const making = {
    clay: flows.stock.clay.get(lot) ?? ZERO,
    labour: sum(makingLabours(book, flows, lot)),
  };
  const made = book.pieces.get(lot)?.date ?? '';
  const later = [...flows.ware.firings.values()].filter(({ firing }) => firing.date >= made);
  const fired = later.flatMap((cost) => {
    const shares = firingShares(book, cost);
    const glaze = flows.stock.glaze.get(cost.firing.id) ?? [];
    return cost.firing.load.flatMap((line, index) =>
      line.lot === lot ? [{ ...shares[index], glaze: glaze[index] ?? ZERO }] : [],
    );
  });
  return [making, ...fired].reduce<Cost>(addCosts, NO_COST);
}

/** What stands in stages, in kilns and on shelves, and what went to the accounts. */
export function standingAndGone({ ware }: Flows, accounts: readonly Account[]): Cost {
  const standing = [...ware.lots.values()].flatMap(({ stages, inKiln, shelf }) => [
    ...stages.map(({ cost }) => cost),
    ...inKiln.map(({ cost }) => cost),
    costOfSlice(restOf(shelf)),
  ]);
  const gone = accounts.map((account) => accountCost(ware.accounts[account]));
  return [...standing, ...gone].reduce(addCosts, NO_COST);
}

/** Component → how much more went in than is anywhere, as text; only where the two differ. */
export function costLeaks(put: Cost, found: Cost): Partial<Record<Component, string>> {
  const leaks = COMPONENTS.map((component) => {
    const leak = (put[component] ?? ZERO).minus(found[component] ?? ZERO);
    return [component, leak.toFixed()] as const;
  });
  return Object.fromEntries(leaks.filter(([, leak]) => leak !== '0'));
}

function makingLabours(book: Book, { ware }: Flows, only?: string): Decimal[] {
  const rate = book.studio.labourRate ?? ZERO;
  const lots = [...book.pieces.values()].filter(
    ({ id }) => ware.lots.has(id) && (only === undefined || id === only),
  );
  return lots.map((lot) => divide((minutesOfLot({ book }, lot) ?? ZERO).times(rate), decimal(60)));
}
