/** What each line of a purchase really cost: its share of freight, tax and discount with it. */
import type { Bought, BoughtLine } from '../book.ts';
import { ZERO, portions, shownParts, sum, type Decimal } from '../number/decimal.ts';
import { convert } from '../number/unit.ts';

/**
 * Landed cost of each line in money: line cost + its share of freight + tax − discount. Tax and
 * discount are shared by cost, freight by cost or by weight; every share is in whole minor units, and
 * the lines add up to the invoice. Freight by weight falls back to cost where a line has no weight.
 */
export function landedCosts(bought: Bought, minorDigits: number): Decimal[] {
  const costs = bought.lines.map((line) => line.cost);
  if (!bought.freight && !bought.tax && !bought.discount) return costs;
  const freight = apportion(bought.freight ?? ZERO, freightWeights(bought), minorDigits);
  const rest = (bought.tax ?? ZERO).minus(bought.discount ?? ZERO);
  const others = apportion(rest, costs, minorDigits);
  return costs.map((cost, index) => sum([cost, freight[index] ?? ZERO, others[index] ?? ZERO]));
}

/** Splits a sum of money by weights into whole minor units that add up to it (largest remainder). */
export function apportion(
  total: Decimal,
  weights: readonly Decimal[],
  minorDigits: number,
): Decimal[] {
  return shownParts(portions(total, weights), minorDigits);
}

function freightWeights(bought: Bought): readonly Decimal[] {
  const costs = bought.lines.map((line) => line.cost);
  if (bought.shareFreightBy !== 'weight') return costs;
  const grams = bought.lines.map(gramsOf);
  return grams.every((weight) => weight !== undefined) ? grams : costs;
}

function gramsOf(line: BoughtLine): Decimal | undefined {
  return convert(line.quantity.value, line.quantity.unit, 'g');
}
