/** What goes onto the scales for a mix: weights in order, the running total, what stays in stock, what it costs. */
import type { Book, Mixed, Recipe, RecipeVersion } from '../../book.ts';
import { decimal, divide, ONE, type Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, inBaseUnits, lessOf, sumOf, type Measure } from '../../number/measure.ts';
import type { Money } from '../../number/money.ts';
import { rounded } from '../booked.ts';
import { stockCost } from '../costs/usual-steps.ts';
import type { Flows } from '../flows.ts';
import { weighOut, type WeighedMix } from './recipe.ts';

/** Density of the dry material of an ordinary glaze, where its recipe states none (common practice). */
export const USUAL_SOLIDS = decimal('2.65');

/** Density of a recipe's dry material, in g/mL. */
export function solidsOf({ densityOfSolids }: Recipe): Decimal {
  return densityOfSolids ?? USUAL_SOLIDS;
}

/** How much is to be weighed out: the weight of the base, or of all with its additions. */
export type MixWeight = Pick<Mixed, 'baseWeight'> | Pick<Mixed, 'totalWeight'>;

/** One material on the sheet. */
export interface LineToWeigh {
  readonly material: string;
  readonly part: 'base' | 'addition';
  readonly weight: Measure;
  /** On the scales once this is in. */
  readonly running: Measure;
  /** In stock after it; below zero where there is too little. Undefined where none is stocked by weight. */
  readonly left: Measure | undefined;
  readonly cost: Money;
}

/** The sheet of a version; undefined where its base is empty. */
export function weighSheet(
  book: Book,
  flows: Flows,
  { version, weight }: { readonly version: RecipeVersion; readonly weight: MixWeight },
): readonly LineToWeigh[] | undefined {
  const mix = weighedMix(version, weight);
  let running = NO_QUANTITY;
  return mix?.parts.map((each, at) => {
    running = sumOf(running, each.weight);
    const { material } = each;
    const value = inBaseUnits(each.weight);
    const quantity = { value, unit: 'g', text: `${value.toFixed()} g` } as const;
    const cost = rounded(book, stockCost(book, flows, { what: material, quantity }));
    const part = at < version.base.length ? 'base' : 'addition';
    return { material, part, weight: each.weight, running, left: leftAfter(flows, each), cost };
  });
}

/** Weights by the version, as a mix of it would draw them. */
export function weighedMix(version: RecipeVersion, weight: MixWeight): WeighedMix | undefined {
  return weighOut({ id: '', file: '', date: version.from, recipe: '', ...weight }, version);
}

function leftAfter(
  { stock }: Flows,
  { material, weight }: { material: string; weight: Measure },
): Measure | undefined {
  const pool = stock.pools.get(material)?.pool;
  return pool && lessOf(pool.onHand, weight);
}

/** One mix of a line blend. */
export interface BlendStep {
  /** Share of the other recipe, as a fraction of 1. */
  readonly share: Decimal;
  /** Material → grams. */
  readonly weights: ReadonlyMap<string, Decimal>;
}

/**
 * A line blend: equal steps from one recipe to the other, both ends among them, each of the same weight.
 * Undefined where one of the bases is empty.
 */
export function lineBlend(
  { one, other }: Readonly<Record<'one' | 'other', RecipeVersion>>,
  weight: MixWeight,
  steps: number,
): readonly BlendStep[] | undefined {
  const [from, to] = [weighedMix(one, weight), weighedMix(other, weight)];
  if (!from || !to) return undefined;
  return Array.from({ length: steps }, (_, at) => {
    const share = divide(decimal(at), decimal(steps - 1));
    const weights = new Map<string, Decimal>();
    addShare(weights, from, ONE.minus(share));
    addShare(weights, to, share);
    return { share, weights };
  });
}

function addShare(weights: Map<string, Decimal>, { parts }: WeighedMix, share: Decimal): void {
  for (const { material, weight } of parts) {
    const known = weights.get(material);
    const more = inBaseUnits(weight).times(share);
    weights.set(material, known ? known.plus(more) : more);
  }
}
