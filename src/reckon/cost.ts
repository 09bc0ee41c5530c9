/** A cost by component, and a pile of pieces that carries one. */
import { ZERO, decimal, portion, sum, type Decimal } from '../number/decimal.ts';

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

/** Money by component; what isn't there is zero. */
export type Cost = Readonly<Partial<Record<Component, Decimal>>>;

/** No cost at all. */
export const NO_COST: Cost = {};

/** The sum of two costs, component by component. */
export function addCosts(one: Cost, other: Cost): Cost {
  if (other === NO_COST) return one;
  if (one === NO_COST) return other;
  const added: Partial<Record<Component, Decimal>> = { ...one };
  for (const component of COMPONENTS) {
    const more = other[component];
    if (more) added[component] = (added[component] ?? ZERO).plus(more);
  }
  return added;
}

/** The first cost less the second, component by component. */
export function lessCosts(one: Cost, other: Cost): Cost {
  return addCosts(one, negated(other));
}

/** The same cost with the sign turned. */
export function negated(cost: Cost): Cost {
  return mapCost(cost, (amount) => amount.neg());
}

/** The part of a cost that so many of all pieces bear; one rounding per component. */
export function costPortion(cost: Cost, part: number, whole: number): Cost {
  if (part === whole) return cost;
  const partOf = decimal(part);
  const wholeOf = decimal(whole);
  return mapCost(cost, (amount) => portion(amount, partOf, wholeOf));
}

/** All components together, in money. */
export function totalOf(cost: Cost): Decimal {
  return sum(Object.values(cost));
}

/** The components that came out of stock, in money. */
export function materialOf(cost: Cost): Decimal {
  return sum(MATERIAL_COMPONENTS.map((component) => cost[component] ?? ZERO));
}

function mapCost(cost: Cost, change: (amount: Decimal) => Decimal): Cost {
  const changed: Partial<Record<Component, Decimal>> = {};
  for (const component of COMPONENTS) {
    const amount = cost[component];
    if (amount) changed[component] = change(amount);
  }
  return changed;
}
