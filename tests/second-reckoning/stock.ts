/** What is bought, reclaimed, mixed, used and counted (rules 3, 6, 7, 8). */
import type { Book, Bought, BoughtLine, Counted, Mixed, Reclaimed, Used } from '../../src/book.ts';
import { byCodeUnits } from './days.ts';
import {
  NOTHING,
  exact,
  fraction,
  minus,
  over,
  plus,
  sumOf,
  times,
  toPlaces,
  type Fraction,
} from './fraction.ts';
import { moneyIn } from './money.ts';
import type { LandedLine } from './result.ts';
import { largestRemainder } from './shares.ts';
import {
  asMaterial,
  bringIn,
  causeOf,
  countPool,
  drawFrom,
  fitting,
  goTo,
  type State,
} from './state.ts';
import { inBase, measureOf } from './units.ts';

/** Each line is a layer of its own, in their order, at its landed cost. */
export function buy(state: State, bought: Bought): void {
  const landed = landedLines(state.book, bought);
  state.landed.set(bought.id, landed);
  bought.lines.forEach(({ material, quantity }, at) => {
    const fits = fitting(state, material, quantity);
    const value = landed[at]?.landed ?? 0n;
    const cause = causeOf(bought, 'bought');
    if (fits) bringIn(state, material, { ...cause, quantity: fits, value });
  });
}

/** Freight, tax and discount, each shared over the lines. */
export function landedLines(book: Book, bought: Bought): LandedLine[] {
  const costs = bought.lines.map(({ cost }) => moneyIn(book, cost));
  const byCost = costs.map((cost) => fraction(cost));
  const byWeight = bought.lines.map(weightOf);
  const freights = largestRemainder(
    moneyIn(book, bought.freight),
    bought.shareFreightBy === 'weight' ? byWeight : byCost,
  );
  const taxes = largestRemainder(moneyIn(book, bought.tax), byCost);
  const discounts = largestRemainder(moneyIn(book, bought.discount), byCost);
  return costs.map((cost, at) => {
    const { freight, tax, discount } = {
      freight: freights[at] ?? 0n,
      tax: taxes[at] ?? 0n,
      discount: discounts[at] ?? 0n,
    };
    return { freight, tax, discount, landed: cost + freight + tax - discount };
  });
}

/** The weight that the line says, else its quantity; a line without one bears nothing. */
function weightOf({ quantity, weight }: BoughtLine): Fraction {
  return inBase(weight ?? quantity, 'g') ?? NOTHING;
}

export function reclaim(state: State, reclaimed: Reclaimed): void {
  const { material } = reclaimed;
  const quantity = fitting(state, material, reclaimed.quantity);
  if (quantity)
    bringIn(state, material, { ...causeOf(reclaimed, 'reclaimed'), quantity, value: 0n });
}

export interface Part {
  readonly material: string;
  readonly quantity: Fraction;
}

/** A mix draws each material once; its bucket takes in what they cost together. */
export function mix(state: State, mixed: Mixed): void {
  const batch = batchOf(state.book, mixed);
  if (!batch) return;
  const cause = causeOf(mixed, 'mixed');
  const fits = batch.parts.filter(({ material }) => isWeighed(state, material));
  const costs = together(fits).map(({ material, quantity }) =>
    drawFrom(state, material, { ...cause, quantity }),
  );
  const value = costs.reduce((sum, cost) => sum + cost, 0n);
  const wet = mixed.yields && inBase(mixed.yields, 'g');
  const quantity = wet ?? batch.weight;
  bringIn(state, mixed.recipe, { ...causeOf(mixed, 'mixed-in'), quantity, value });
}

function isWeighed({ pools }: State, material: string): boolean {
  const unit = pools.get(material)?.unit;
  return unit !== undefined && measureOf(unit) === 'weight';
}

/** Parts of one material put together, in the order in which each comes first. */
export function together(parts: readonly Part[]): Part[] {
  const sums = new Map<string, Fraction>();
  for (const { material, quantity } of parts)
    sums.set(material, plus(sums.get(material) ?? NOTHING, quantity));
  return [...sums].map(([material, quantity]) => ({ material, quantity }));
}

/** The places to which a share of a batch is rounded, in g. */
const PLACES = 12;

interface Batch {
  readonly weight: Fraction;
  readonly parts: readonly Part[];
}

/** What goes into a mix by the recipe's version of its day; undefined where there is none. */
export function batchOf(book: Book, mixed: Mixed): Batch | undefined {
  const versions = [...(book.recipes.get(mixed.recipe)?.versions ?? [])];
  const begun = versions.filter(({ from }) => from <= mixed.date);
  const version = begun.sort((a, b) => byCodeUnits(a.from, b.from)).at(-1);
  const given = mixed.baseWeight ?? mixed.totalWeight;
  const weight = given && inBase(given, 'g');
  if (!version || !weight) return undefined;
  const isTotal = mixed.baseWeight === undefined;
  const percents = (version.additions ?? []).map(({ percent }) => exact(percent));
  const base = isTotal ? baseIn(weight, sumOf(percents)) : weight;
  const added = percents.map((percent) => times(base, percent));
  const additions = isTotal ? shared(minus(weight, base), percents) : added;
  const bases = shared(
    base,
    version.base.map(({ parts }) => exact(parts)),
  );
  const materials = [...version.base, ...(version.additions ?? [])];
  const quantities = [...bases, ...additions];
  const parts = materials.map(({ material }, at) => ({
    material,
    quantity: quantities[at] ?? NOTHING,
  }));
  return { weight: sumOf(quantities), parts };
}

/** total ÷ (1 + additions); the total itself where there are none. */
function baseIn(weight: Fraction, additions: Fraction): Fraction {
  return additions.top === 0n
    ? weight
    : toPlaces(over(weight, plus(additions, fraction(1n))), PLACES);
}

/** Each its share, rounded; the last takes the rest. */
function shared(amount: Fraction, weights: readonly Fraction[]): Fraction[] {
  const all = sumOf(weights);
  if (all.top === 0n) return weights.map(() => NOTHING);
  const shares = weights
    .slice(0, -1)
    .map((weight) => toPlaces(over(times(amount, weight), all), PLACES));
  return [...shares, minus(amount, sumOf(shares))];
}

/** Material that left otherwise than into ware. */
export function use(state: State, used: Used): void {
  const quantity = fitting(state, used.material, used.quantity);
  if (!quantity) return;
  const value = drawFrom(state, used.material, { ...causeOf(used, 'used'), quantity });
  const { date: day, id: record } = used;
  goTo(state, 'used', { day, record, what: used.for ?? 'studio', cost: asMaterial(value) });
}

/** The materials of a stocktake. */
export function countMaterials(state: State, counted: Counted): void {
  for (const { material, quantity, cost } of counted.materials ?? []) {
    const fits = cost === undefined ? fitting(state, material, quantity) : undefined;
    if (fits) countPool(state, material, { ...causeOf(counted, 'counted'), quantity: fits });
  }
}
