/** Quantities of stock as integers, exact to 24 decimals of the base unit: g, mL, J, m³ of gas, pieces. */
import { decimal, divide, integerOf, roundTo, textOf, type Decimal } from './decimal.ts';
import { UNITS, inBase, type Quantity, type Unit } from './unit.ts';

declare const baseUnits: unique symbol;

/**
 * How much there is of something, in the base of what it measures. Compare with `<`, `>` and `===`; add
 * with `sumOf` and `lessOf`. The compiler keeps it apart from money and from counts.
 */
export type Measure = bigint & { readonly [baseUnits]: 'quantity' };

export const NO_QUANTITY = 0n as Measure;

const PLACES = 24;
/** A quantity that is written again and again is one object, so it is turned into an integer once. */
const measures = new WeakMap<Quantity, Measure>();

/** A written quantity, so many times. */
export function measureOf(quantity: Quantity, count = 1): Measure {
  const one = measures.get(quantity) ?? keep(quantity);
  return count === 1 ? one : ((one * BigInt(count)) as Measure);
}

function keep(quantity: Quantity): Measure {
  const measure = measureIn(quantity.value, quantity.unit);
  measures.set(quantity, measure);
  return measure;
}

/** So many of a unit; beyond 24 decimals of the base unit rounded half up. */
export function measureIn(value: Decimal, unit: Unit): Measure {
  return integerOf(inBase(value, unit), PLACES) as Measure;
}

/** The same in a unit of what it measures, rounded half up to 12 decimals. */
export function inUnit(measure: Measure, unit: Unit): Decimal {
  const base = inBaseUnits(measure);
  const { factor } = UNITS[unit];
  return factor === '1' ? base : roundTo(divide(base, decimal(factor)), 12);
}

/** The same as a decimal of the base unit. */
export function inBaseUnits(measure: Measure): Decimal {
  return decimal(textOf(measure, PLACES));
}

/** The sum. */
export function sumOf(one: Measure, other: Measure): Measure {
  return (one + other) as Measure;
}

/** The first less the second. */
export function lessOf(one: Measure, other: Measure): Measure {
  return (one - other) as Measure;
}

/** The lesser of two. */
export function lesserOf(one: Measure, other: Measure): Measure {
  return one < other ? one : other;
}

/** The same with the other sign. */
export function oppositeOf(measure: Measure): Measure {
  return (0n - measure) as Measure;
}
