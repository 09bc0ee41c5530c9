/** Glaze slop: how much dry material and water are in so much of it, by its specific gravity. */
import { ONE, divide, portion, type Decimal } from './decimal.ts';

/** Specific gravity of the slop, and density of the dry material in it in g/mL. */
export interface SlopDensity {
  readonly gravity: Decimal;
  readonly solids: Decimal;
}

/** What slop is made of. */
export interface Slop {
  /** Grams. */
  readonly dry: Decimal;
  /** Grams, or millilitres. */
  readonly water: Decimal;
  /** Millilitres. */
  readonly volume: Decimal;
}

/**
 * What is in so many millilitres, for a gravity above 1 and below that of the solids.
 * Brongniart's formula: dry weight = (weight of the slop − that of as much water) × G ÷ (G − 1).
 */
export function slopOfVolume(volume: Decimal, { gravity, solids }: SlopDensity): Slop {
  const dry = portion(volume.times(gravity.minus(ONE)), solids, solids.minus(ONE));
  return { dry, water: volume.times(gravity).minus(dry), volume };
}

/** The slop that so many grams of dry material make: Brongniart's formula, solved for the water. */
export function slopOfDry(dry: Decimal, { gravity, solids }: SlopDensity): Slop {
  const volume = divide(dry.times(solids.minus(ONE)), solids.times(gravity.minus(ONE)));
  return { dry, water: volume.times(gravity).minus(dry), volume };
}
