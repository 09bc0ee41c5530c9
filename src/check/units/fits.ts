/** Whether a quantity measures what is wanted in its place, and the words for when it does not. */
import { UNITS, dimensionOf, type Dimension, type Quantity, type Unit } from '../../number/unit.ts';
import { listed, spot, withArticle, type Say, type Sited } from '../finding.ts';

/** A quantity in a record, and what it must measure. */
export interface Measured {
  readonly record: Sited;
  readonly path: readonly (string | number)[];
  readonly quantity: Quantity | undefined;
}

/** Says so when a quantity of a material or clay is not in a unit like the one it is kept in. */
export function mustFitStock(
  { record, path, quantity }: Measured,
  stock: { readonly id: string; readonly unit: Unit } | undefined,
  say: Say,
): void {
  if (quantity === undefined || stock === undefined) return;
  const wanted = dimensionOf(stock.unit);
  const given = dimensionOf(quantity.unit);
  if (given === wanted) return;
  say({
    at: spot(record, ...path),
    message: `${quantity.text} is ${called(given)}, but ${stock.id} is ${keptIn(stock.unit)}`,
    hint: wanted === 'count' ? 'write how many' : `write it in ${unitsOf([wanted])}`,
  });
}

/** A dimension in a sentence: `a weight`, `an energy`. */
export function called(dimension: Dimension): string {
  return dimension === 'gas' ? 'a volume of gas' : withArticle(dimension);
}

/** The units of some dimensions: `g, kg, t, oz, lb or ton`. */
export function unitsOf(dimensions: readonly Dimension[]): string {
  const units = Object.entries(UNITS)
    .filter(([, { dimension }]) => dimensions.includes(dimension))
    .map(([unit]) => unit);
  return listed(units, 'or');
}

/** How something is kept that has this stock unit: `kept in kg, a weight`, `counted`. */
export function keptIn(unit: Unit): string {
  return unit === 'each' ? 'counted' : `kept in ${unit}, ${called(dimensionOf(unit))}`;
}
