/** What a mix draws: the recipe's version in force and the weight of each material in it. */
import type { Day, Mixed, Recipe, RecipeVersion } from '../book.ts';
import { ZERO, portions, roundTo, sum, type Decimal } from '../number/decimal.ts';
import type { Unit } from '../number/unit.ts';

/** A weight of one material. */
export interface Weighed {
  readonly material: string;
  readonly weight: Decimal;
}

/** A mix weighed out: every weight in the unit that the record states. */
export interface WeighedMix {
  readonly unit: Unit;
  /** Dry weight with additions. */
  readonly total: Decimal;
  readonly parts: readonly Weighed[];
}

/** The version that stands on that day: the last one that started on it or before. */
export function versionOn(recipe: Recipe, day: Day): RecipeVersion | undefined {
  const started = recipe.versions.filter((version) => version.from <= day);
  return started.reduce<RecipeVersion | undefined>(
    (latest, version) => (latest && latest.from > version.from ? latest : version),
    undefined,
  );
}

/**
 * Weight of each material. The base's parts are normalised to 100; additions come on top of the base as
 * percent of it (common practice of glaze recipes). Undefined where the record states no weight or the
 * base is empty.
 */
export function weighOut(mixed: Mixed, version: RecipeVersion): WeighedMix | undefined {
  const stated = mixed.baseWeight ?? mixed.totalWeight;
  const baseParts = sum(version.base.map((line) => line.parts));
  if (!stated || baseParts.isZero()) return undefined;
  const parts = mixed.baseWeight
    ? weighOnBase(stated.value, version)
    : weighInTotal(stated.value, version, baseParts);
  return { unit: stated.unit, total: sum(parts.map((part) => part.weight)), parts };
}

function weighOnBase(base: Decimal, version: RecipeVersion): Weighed[] {
  const weights = portions(
    base,
    version.base.map((line) => line.parts),
  );
  return [
    ...version.base.map((line, index) => ({
      material: line.material,
      weight: weights[index] ?? ZERO,
    })),
    ...(version.additions ?? []).map((line) => ({
      material: line.material,
      weight: roundTo(base.times(line.percent), 24),
    })),
  ];
}

function weighInTotal(total: Decimal, version: RecipeVersion, baseParts: Decimal): Weighed[] {
  const lines = [
    ...version.base.map((line) => ({ material: line.material, share: line.parts })),
    ...(version.additions ?? []).map((line) => ({
      material: line.material,
      share: line.percent.times(baseParts),
    })),
  ];
  const weights = portions(
    total,
    lines.map((line) => line.share),
  );
  return lines.map((line, index) => ({ material: line.material, weight: weights[index] ?? ZERO }));
}
