/** A cost by component, and the shares of it that pieces bear. */
import {
  NO_MONEY,
  add,
  less,
  opposite,
  portionOf,
  shareOut,
  total,
  type Money,
} from '../number/money.ts';

/** What a cost is made of. Fuel is drawn from stock; energy is bought as it is used. */
export const COMPONENTS = [
  'clay',
  'glaze',
  'energy',
  'fuel',
  'wear',
  'supplies',
  'packing',
  'labour',
] as const;

export type Component = (typeof COMPONENTS)[number];

/** Components that were material in stock before: nothing of their value may get lost. */
export const MATERIAL_COMPONENTS: readonly Component[] = [
  'clay',
  'glaze',
  'fuel',
  'supplies',
  'packing',
];

/** Money by component, each rounded by itself; what isn't there is nothing. */
export type Cost = Readonly<Partial<Record<Component, Money>>>;

/** No cost at all. */
export const NO_COST: Cost = {};

/** The sum of two costs, component by component. */
export function addCosts(one: Cost, other: Cost): Cost {
  if (other === NO_COST) return one;
  if (one === NO_COST) return other;
  return bothCosts(one, other, add);
}

/** The first cost less the second, component by component. */
export function lessCosts(one: Cost, other: Cost): Cost {
  if (other === NO_COST) return one;
  return one === NO_COST ? negated(other) : bothCosts(one, other, less);
}

function bothCosts(one: Cost, other: Cost, both: (a: Money, b: Money) => Money): Cost {
  const result: Partial<Record<Component, Money>> = { ...one };
  for (const component of COMPONENTS) {
    const more = other[component];
    if (more !== undefined) result[component] = both(result[component] ?? NO_MONEY, more);
  }
  return result;
}

/** The same cost with the sign turned. */
export function negated(cost: Cost): Cost {
  return mapCost(cost, opposite);
}

/** The part of a cost that so many of all pieces bear; one rounding per component. */
export function costPortion(cost: Cost, part: number, whole: number): Cost {
  if (part === whole) return cost;
  const [partOf, wholeOf] = [BigInt(part), BigInt(whole)];
  return mapCost(cost, (amount) => portionOf(amount, partOf, wholeOf));
}

/** A cost shared by weights, component by component, by largest remainder. */
export function shareCost(cost: Cost, weights: readonly bigint[]): Cost[] {
  const shares: Partial<Record<Component, Money>>[] = weights.map(() => ({}));
  for (const component of COMPONENTS) {
    const amount = cost[component];
    if (amount === undefined) continue;
    shareOut(amount, weights).forEach((share, at) => {
      const own = shares[at];
      if (own) own[component] = share;
    });
  }
  return shares;
}

/** All components together. */
export function totalOf(cost: Cost): Money {
  return total(Object.values(cost));
}

/** The components that came out of stock. */
export function materialOf(cost: Cost): Money {
  return total(MATERIAL_COMPONENTS.map((component) => cost[component] ?? NO_MONEY));
}

function mapCost(cost: Cost, change: (amount: Money) => Money): Cost {
  if (cost === NO_COST) return cost;
  const changed: Partial<Record<Component, Money>> = {};
  for (const component of COMPONENTS) {
    const amount = cost[component];
    if (amount !== undefined) changed[component] = change(amount);
  }
  return changed;
}
