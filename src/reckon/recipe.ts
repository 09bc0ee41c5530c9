/** What a mix draws: the recipe's version in force and the weight of each material in it. */
import type { Day, Mixed, Recipe, RecipeVersion } from '../book.ts';
import { ONE, ZERO, divide, portion, roundTo, sum, type Decimal } from '../number/decimal.ts';
import { inBase } from '../number/unit.ts';

/** A weight of one material. */
export interface Weighed {
  readonly material: string;
  readonly weight: Decimal;
}

/** A mix weighed out: every weight in grams. */
export interface WeighedMix {
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
  const weighed = [
    ...weighBase(base, version),
    ...weighAdditions(base, weight, { mixed, version }),
  ];
  return { total: sum(weighed.map((part) => part.weight)), parts: weighed };
}

/** The base in a total weight: total ÷ (1 + additions). */
function baseIn(weight: Decimal, { additions = [] }: RecipeVersion): Decimal {
  const percent = sum(additions.map((line) => line.percent));
  return percent.isZero() ? weight : roundTo(divide(weight, ONE.plus(percent)), PLACES);
}

function weighBase(base: Decimal, { base: lines }: RecipeVersion): Weighed[] {
  return shared(base, lines, (line) => line.parts);
}

/** In percent of the base; of a total weight, what the base leaves. */
function weighAdditions(
  base: Decimal,
  weight: Decimal,
  { mixed, version: { additions = [] } }: { mixed: Mixed; version: RecipeVersion },
): Weighed[] {
  if (mixed.totalWeight) return shared(weight.minus(base), additions, (line) => line.percent);
  return additions.map(({ material, percent }) => ({ material, weight: base.times(percent) }));
}

const PLACES = 12;

/** weight × part ÷ sum of the parts, rounded; the last takes what is left. */
function shared<T extends { readonly material: string }>(
  weight: Decimal,
  lines: readonly T[],
  partOf: (line: T) => Decimal,
): Weighed[] {
  const whole = sum(lines.map(partOf));
  let rest = weight;
  return lines.map((line, at) => {
    const isLast = at === lines.length - 1;
    const share = isLast ? rest : partly(weight, partOf(line), whole);
    rest = rest.minus(share);
    return { material: line.material, weight: share };
  });
}

function partly(weight: Decimal, part: Decimal, whole: Decimal): Decimal {
  return whole.isZero() ? ZERO : roundTo(portion(weight, part, whole), PLACES);
}
