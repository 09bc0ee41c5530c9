/** What units measure and how large they are, written out again. */
import type { Quantity, Unit } from '../../src/number/unit.ts';
import { exact, over, times, type Fraction } from './fraction.ts';

type Measure = 'weight' | 'volume' | 'energy' | 'gas' | 'count';

/** Unit → what it measures and its size in g, mL, J, cubic metres of gas or pieces. */
const SIZES: Readonly<Record<Unit, readonly [Measure, string]>> = {
  g: ['weight', '1'],
  kg: ['weight', '1000'],
  t: ['weight', '1000000'],
  oz: ['weight', '28.349523125'],
  lb: ['weight', '453.59237'],
  ton: ['weight', '907184.74'],
  mL: ['volume', '1'],
  L: ['volume', '1000'],
  floz: ['volume', '29.5735295625'],
  pint: ['volume', '473.176473'],
  qt: ['volume', '946.352946'],
  gal: ['volume', '3785.411784'],
  'imp-pint': ['volume', '568.26125'],
  'imp-gal': ['volume', '4546.09'],
  ft3: ['volume', '28316.846592'],
  in3: ['volume', '16.387064'],
  kWh: ['energy', '3600000'],
  MJ: ['energy', '1000000'],
  Btu: ['energy', '1055.05585262'],
  therm: ['energy', '105505585.262'],
  'm3-gas': ['gas', '1'],
  ccf: ['gas', '2.8316846592'],
  each: ['count', '1'],
};

export function measureOf(unit: Unit): Measure {
  return SIZES[unit][0];
}

/** How much of its base unit (g, mL, J, m³ of gas, pieces) one of a unit is. */
export function sizeOf(unit: Unit): Fraction {
  return exact(SIZES[unit][1]);
}

/** A quantity in the base unit of what another unit measures; undefined where it doesn't fit. */
export function inBase(quantity: Quantity, like: Unit): Fraction | undefined {
  if (measureOf(quantity.unit) !== measureOf(like)) return undefined;
  return times(exact(quantity.value), sizeOf(quantity.unit));
}

/** So much of the base unit in a unit. */
export function inUnit(amount: Fraction, unit: Unit): Fraction {
  return over(amount, sizeOf(unit));
}
