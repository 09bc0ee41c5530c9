/** All that ware and what goes with it has cost, added up where it went in and where it is now. */
import type { Book } from '../../../src/book.ts';
import { ZERO, decimal, divide } from '../../../src/number/decimal.ts';
import { NO_MONEY, less, opposite, total, type Money } from '../../../src/number/money.ts';
import { booked } from '../../../src/reckon/booked.ts';
import {
  COMPONENTS,
  type Component,
  type Cost,
  NO_COST,
  addCosts,
  restOf,
} from '../../../src/reckon/costs/cost.ts';
import { minutesOfLot } from '../../../src/reckon/ware/lot-making.ts';
import type { Account } from '../../../src/reckon/ware/ware.ts';
import type { Flows } from '../../../src/reckon/flows.ts';
import { accountCost, borneBy } from '../../helpers/accounts.ts';
import { labourRateOn } from '../../second-reckoning/on-day.ts';

/** Costs of every component that making, firing and packing put in, up to the flows' day. */
export function putIn(book: Book, flows: Flows): Cost {
  const { stock, ware } = flows;
  const costs = [...ware.firings.values()];
  const drawn = (why: string): Money =>
    opposite(
      total([...stock.movements].flatMap(({ reason, value }) => (reason === why ? value : []))),
    );
  return {
    clay: drawn('clay'),
    glaze: drawn('glaze'),
    energy: total(costs.map((cost) => cost.energyCost ?? NO_MONEY)),
    fuel: total(costs.map((cost) => cost.fuelCost)),
    wear: total(costs.map((cost) => cost.wearCost)),
    supplies: total(costs.map((cost) => cost.suppliesCost)),
    packing: drawn('packing'),
    labour: total([...costs.map((cost) => cost.labourCost), ...makingLabours(book, flows)]),
  };
}

/**
 * The same that one lot's making and its load lines put in; packing is no lot's, and a firing before
 * it was made is none of its own.
 */
export function putInByLot(book: Book, flows: Flows, lot: string): Cost {
  const clay = [...flows.stock.movements].filter(
    ({ by, reason }) => by === lot && reason === 'clay',
  );
  const making = {
    clay: opposite(total(clay.map(({ value }) => value))),
    labour: total(makingLabours(book, flows, lot)),
  };
  const made = book.pieces.get(lot)?.date ?? '';
  const later = [...flows.ware.firings.values()].filter(({ firing }) => firing.date >= made);
  const fired = later.flatMap(({ firing, shares }) => {
    const borne = borneBy(flows.ware.facts, firing.id);
    return firing.load.flatMap((line, index) => {
      const glaze = borne[index]?.glaze ?? NO_MONEY;
      return line.lot === lot ? [{ ...shares[index], glaze }] : [];
    });
  });
  return [making, ...fired].reduce<Cost>(addCosts, NO_COST);
}

/** What stands in stages, in kilns and on shelves, and what went to the accounts. */
export function standingAndGone({ ware }: Flows, accounts: readonly Account[]): Cost {
  const standing = [...ware.lots.values()].flatMap(({ stages, inKiln, shelf }) => [
    ...stages.map((batch) => restOf(batch).cost),
    ...inKiln.map(({ cost }) => cost),
    restOf(shelf).cost,
  ]);
  const gone = accounts.map((account) => accountCost(ware.facts, account));
  return [...standing, ...gone].reduce(addCosts, NO_COST);
}

/** Component → how much more went in than is anywhere; only where the two differ. */
export function costLeaks(put: Cost, found: Cost): Partial<Record<Component, Money>> {
  const leaks = COMPONENTS.map((component) => {
    const leak = less(put[component] ?? NO_MONEY, found[component] ?? NO_MONEY);
    return [component, leak] as const;
  });
  return Object.fromEntries(leaks.filter(([, leak]) => leak !== NO_MONEY));
}

function makingLabours(book: Book, { ware }: Flows, only?: string): Money[] {
  const lots = [...book.pieces.values()].filter(
    ({ id }) => ware.lots.has(id) && (only === undefined || id === only),
  );
  return lots.map((lot) => {
    const minutes = minutesOfLot({ book }, lot) ?? ZERO;
    const rate = labourRateOn(book, lot.date) ?? ZERO;
    return booked(book, divide(minutes.times(rate), decimal(60)));
  });
}
