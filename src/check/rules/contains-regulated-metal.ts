/** Metals in a glaze that may leach from the ware into what people eat. */
import type { Day, Material, Recipe } from '../../book.ts';
import { versionOn } from '../../reckon/recipe.ts';
import { CLAIMED, foodWare, isTested, type ClaimBook, type FoodWare } from '../claims.ts';
import { listed, type RuleFinding, spot } from '../finding.ts';
import { onDay, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

/**
 * Lead and cadmium are limited by law in ware for food (FDA Compliance Policy Guides 545.450 and
 * 545.400; EU directive 84/500/EEC). The others are those that potters are usually told to have
 * tested (common practice).
 */
const METALS = [
  'lead',
  'cadmium',
  'barium',
  'manganese',
  'lithium',
  'cobalt',
  'chromium',
  'nickel',
  'copper',
  'vanadium',
];

export const containsRegulatedMetal: Rule = {
  name: 'contains-regulated-metal',
  severity: 'warning',
  about:
    'A glaze of a product for food contains a metal that may leach, and its present version has no leach test.',
  looks: [
    onDay(CLAIMED, (book, { day, unsound }) => {
      if (mayLack(unsound, 'tests')) return [];
      return foodWare(book, day).flatMap((ware) => {
        const sources = ware.glazes.flatMap((recipe) => sourcesIn(book, recipe, day));
        return sources.length === 0 ? [] : [finding(ware, sources)];
      });
    }),
  ],
};

/** A material in a glaze, and the metals in it. */
interface Source {
  readonly recipe: Recipe;
  readonly material: Material;
  readonly metals: readonly string[];
}

/** The sources of metal in the version in force, unless it has been tested. */
function sourcesIn(book: ClaimBook, recipe: Recipe, day: Day): readonly Source[] {
  const version = versionOn(recipe, day);
  if (version === undefined || isTested(book, recipe, { from: version.from, to: day })) return [];
  const ids = new Set([...version.base, ...(version.additions ?? [])].map((line) => line.material));
  return [...ids]
    .flatMap((id) => book.materials.get(id) ?? [])
    .map((material) => ({ recipe, material, metals: metalsIn(material) }))
    .filter(({ metals }) => metals.length > 0);
}

function metalsIn({ contains }: Material): readonly string[] {
  return METALS.filter((metal) => contains?.includes(metal));
}

function finding({ product, claim }: FoodWare, sources: readonly Source[]): RuleFinding {
  const metals = METALS.filter((metal) => sources.some((source) => source.metals.includes(metal)));
  const recipes = new Set(sources.map(({ recipe }) => recipe.id));
  return {
    at: claim,
    message: `${product.id} is said to be for food, and there is ${listed(metals)} in ${listed([...recipes])}`,
    hint: 'only a leach test on the fired ware tells how much comes out: add one of the version in force, or take the claim out',
    related: sources.map(({ recipe, material, metals: found }) => ({
      at: spot(material, 'contains'),
      message: `${listed(found)} in ${material.id}, which is in ${recipe.id}`,
    })),
  };
}
