/** What a mix draws: the recipe's version in force and the weight of each material in it. */
import type { Day, Mixed, Recipe, RecipeVersion } from '../../book.ts';
import { ONE, ZERO, divide, portion, roundTo, sum, type Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, measureIn, sumOf, type Measure } from '../../number/measure.ts';
import { inBase } from '../../number/unit.ts';

/** A weight of one material. */
interface Weighed {
  readonly material: string;
  readonly weight: Measure;
}

/** A mix weighed out. */
export interface WeighedMix {
  /** Dry weight with additions. */
  readonly total: Measure;
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
 * percent of it (common practice of glaze recipes). A share that doesn't end is rounded half up to 12
 * decimals of a gram, and the last material takes the rest. Undefined where the record states no weight
 * or the base is empty.
 */
export function weighOut(mixed: Mixed, version: RecipeVersion): WeighedMix | undefined {
  const stated = mixed.baseWeight ?? mixed.totalWeight;
  const parts = sum(version.base.map((line) => line.parts));
  if (!stated || parts.isZero()) return undefined;
  const weight = inBase(stated.value, stated.unit);
  const base = mixed.baseWeight ? weight : baseIn(weight, version);
  const shares = [
    ...sharesOf(base, version.base, (line) => line.parts),
    ...additionsTo(base, weight, { mixed, version }),
  ];
  const weighed = shares.map(([material, share]): Weighed => ({
    material,
    weight: measureIn(share, 'g'),
  }));
  const total = weighed.reduce((all, each) => sumOf(all, each.weight), NO_QUANTITY);
  return { total, parts: weighed };
}

/** The base in a total weight: total ÷ (1 + additions). */
function baseIn(weight: Decimal, { additions = [] }: RecipeVersion): Decimal {
  const percent = sum(additions.map((line) => line.percent));
  return percent.isZero() ? weight : roundTo(divide(weight, ONE.plus(percent)), WEIGHT_PLACES);
}

type WeightShare = readonly [material: string, weight: Decimal];

/** In percent of the base; of a total weight, what the base leaves. */
function additionsTo(
  base: Decimal,
  weight: Decimal,
  { mixed, version: { additions = [] } }: { mixed: Mixed; version: RecipeVersion },
): WeightShare[] {
  if (mixed.totalWeight) return sharesOf(weight.minus(base), additions, (line) => line.percent);
  return additions.map(({ material, percent }) => [material, base.times(percent)]);
}

const WEIGHT_PLACES = 12;

/** weight × part ÷ sum of the parts, rounded; the last takes what is left. */
function sharesOf<T extends { readonly material: string }>(
  weight: Decimal,
  lines: readonly T[],
  partOf: (line: T) => Decimal,
): WeightShare[] {
  const whole = sum(lines.map(partOf));
  let rest = weight;
  return lines.map((line, at) => {
    const isLast = at === lines.length - 1;
    const share = isLast ? rest : partly(weight, partOf(line), whole);
    rest = rest.minus(share);
    return [line.material, share];
  });
}

function partly(weight: Decimal, part: Decimal, whole: Decimal): Decimal {
  return whole.isZero() ? ZERO : roundTo(portion(weight, part, whole), WEIGHT_PLACES);
}
