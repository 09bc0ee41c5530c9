/** Costs by component, each a whole number of minor units. */

/** What makes up the cost of ware; `material` is material that went elsewhere than into ware. */
export const COMPONENTS = [
  'clay',
  'glaze',
  'energy',
  'fuel',
  'wear',
  'supplies',
  'packing',
  'labour',
  'material',
] as const;

export type Component = (typeof COMPONENTS)[number];

export type Cost = Readonly<Record<Component, bigint>>;

/** A cost of which each component comes from a function. */
export function costOf(amount: (component: Component) => bigint): Cost {
  return Object.fromEntries(COMPONENTS.map((one) => [one, amount(one)])) as Cost;
}

export const FREE: Cost = costOf(() => 0n);

export function add(a: Cost, b: Cost): Cost {
  return costOf((one) => a[one] + b[one]);
}

export function less(a: Cost, b: Cost): Cost {
  return costOf((one) => a[one] - b[one]);
}

export function addAll(costs: readonly Cost[]): Cost {
  return costs.reduce(add, FREE);
}

export function total(cost: Cost): bigint {
  return COMPONENTS.reduce((sum, one) => sum + cost[one], 0n);
}
