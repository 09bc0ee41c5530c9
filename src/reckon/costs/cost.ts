/** A cost by component, and the shares of it that pieces bear. */
import {
  type Money,
  NO_MONEY,
  add,
  less,
  opposite,
  portionOf,
  shareOut,
} from '../../number/money.ts';

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
const MATERIAL_COMPONENTS: readonly Component[] = ['clay', 'glaze', 'fuel', 'supplies', 'packing'];

/** Money by component, each rounded by itself; what isn't there is nothing. */
export type Cost = Parts<Money>;

type Parts<T> = Readonly<Partial<Record<Component, T | undefined>>>;

/** No cost at all. */
export const NO_COST: Cost = {};

type Both = (one: Money | undefined, other: Money | undefined) => Money | undefined;

/** The sum of two costs, component by component. */
export function addCosts(one: Cost, other: Cost): Cost {
  if (other === NO_COST) return one;
  return one === NO_COST ? other : bothCosts(one, other, plusOf);
}

/** The first cost less the second, component by component. */
function lessCosts(one: Cost, other: Cost): Cost {
  return other === NO_COST ? one : bothCosts(one, other, minusOf);
}

function plusOf(one: Money | undefined, other: Money | undefined): Money | undefined {
  if (one === undefined) return other;
  return other === undefined ? one : add(one, other);
}

function minusOf(one: Money | undefined, other: Money | undefined): Money | undefined {
  return other === undefined ? one : less(one ?? NO_MONEY, other);
}

/** Named one by one, as in `ofEach`: so all sums and shares have one shape, and adding them is quick. */
function bothCosts(one: Cost, other: Cost, both: Both): Cost {
  return {
    clay: both(one.clay, other.clay),
    glaze: both(one.glaze, other.glaze),
    energy: both(one.energy, other.energy),
    fuel: both(one.fuel, other.fuel),
    wear: both(one.wear, other.wear),
    supplies: both(one.supplies, other.supplies),
    packing: both(one.packing, other.packing),
    labour: both(one.labour, other.labour),
  };
}

/** The same cost with the sign turned. */
export function negated(cost: Cost): Cost {
  return ofEach(cost, opposite);
}

/** The part of a cost that so many of all pieces bear; one rounding per component. */
function costPortion(cost: Cost, part: number, whole: number): Cost {
  if (part === whole || cost === NO_COST) return cost;
  const partOf = BigInt(part);
  const wholeOf = BigInt(whole);
  return ofEach(cost, (amount) => portionOf(amount, partOf, wholeOf));
}

/** A cost shared by weights, component by component, by largest remainder. */
export function shareCost(cost: Cost, weights: readonly bigint[]): Cost[] {
  const shares = ofEach(cost, (amount) => shareOut(amount, weights));
  return weights.map((_, at) => ofEach(shares, (each) => each[at] ?? NO_MONEY));
}

/** What is made of each component that is there. */
function ofEach<A, B>(parts: Parts<A>, make: (part: A) => B): Parts<B> {
  return {
    clay: made(parts.clay, make),
    glaze: made(parts.glaze, make),
    energy: made(parts.energy, make),
    fuel: made(parts.fuel, make),
    wear: made(parts.wear, make),
    supplies: made(parts.supplies, make),
    packing: made(parts.packing, make),
    labour: made(parts.labour, make),
  };
}

function made<A, B>(part: A | undefined, make: (part: A) => B): B | undefined {
  return part === undefined ? undefined : make(part);
}

/** All components together. */
export function totalOf(cost: Cost): Money {
  return sumOfComponents(cost, COMPONENTS);
}

/** The components that came out of stock. */
export function materialOf(cost: Cost): Money {
  return sumOfComponents(cost, MATERIAL_COMPONENTS);
}

function sumOfComponents(cost: Cost, components: readonly Component[]): Money {
  let sum = NO_MONEY;
  for (const component of components) sum = add(sum, cost[component] ?? NO_MONEY);
  return sum;
}

/** So many pieces with their cost together. */
export interface Pieces {
  readonly count: number;
  readonly cost: Cost;
}

/** Pieces as they were when anything but a taking last changed them, and what was taken since. */
export interface Batch extends Pieces {
  gone: Pieces;
}

/** No pieces at all. */
export const NO_PIECES: Pieces = { count: 0, cost: NO_COST };

/** A batch of pieces, none of them taken. */
export function batchOf(count: number, cost: Cost): Batch {
  return { count, cost, gone: NO_PIECES };
}

/** How many pieces are left in a batch. */
export function leftIn({ count, gone }: Batch): number {
  return count - gone.count;
}

/** The pieces that are left, with what they cost. */
export function restOf(batch: Batch): Pieces {
  return { count: leftIn(batch), cost: lessCosts(batch.cost, batch.gone.cost) };
}

/**
 * Takes the next pieces off, at the most what is left. When d of n pieces are gone, cost × d ÷ n has
 * gone with them, rounded once for each component; a taking bears what that grows by.
 */
export function takeFrom(batch: Batch, wanted: number): Pieces {
  const count = Math.max(0, Math.min(wanted, leftIn(batch)));
  if (count === 0) return NO_PIECES;
  const before = batch.gone;
  const upTo = before.count + count;
  batch.gone = { count: upTo, cost: costPortion(batch.cost, upTo, batch.count) };
  return { count, cost: lessCosts(batch.gone.cost, before.cost) };
}

/** What is left of a batch together with more pieces. */
export function joined(batch: Batch, more: Pieces): Batch {
  const rest = restOf(batch);
  return batchOf(rest.count + more.count, addCosts(rest.cost, more.cost));
}

/** What so many pieces of a batch cost, whether it still has them or not: nothing for an empty one. */
export function costLike({ count, cost }: Pieces, wanted: number): Cost {
  return count === 0 ? NO_COST : costPortion(cost, wanted, count);
}
