/** A claim that people may eat from a pot rests on a leach test of the fired ware. */
import type { Day, Material, NamedBook, Product, Recipe } from '../../book.ts';
import { everyVersion, inForce, placeInForce } from '../../in-force.ts';
import { cachedFor } from '../../once.ts';
import type { Spot } from '../../problem.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import { glazesOf } from '../across.ts';
import { listed, spot, type RuleFinding } from '../finding.ts';
import { onDay, type ReachedBook, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

/** What claims and tests are read from. */
const CLAIMED = {
  products: 'all',
  recipes: 'all',
  tests: 'all',
  pieces: { having: 'glazes' },
} as const;

/** A book as the rules on claims have it. */
type ClaimBook = ReachedBook<typeof CLAIMED>;

/** Recipe id → the days of its leach tests: of the recipe, of a mix of it or of a lot with it. */
const leachTests: (book: ClaimBook) => ReadonlyMap<string, readonly Day[]> = cachedFor((book) => {
  const days = new Map<string, Day[]>();
  for (const test of book.tests.values()) {
    const recipes = test.kind === 'leach' ? recipesTested(book, test) : [];
    for (const recipe of recipes) days.set(recipe, [...(days.get(recipe) ?? []), test.date]);
  }
  return days;
});

/** Whether a leach test of a recipe is on record from the one day to the other, both counted. */
function isTested(
  book: ClaimBook,
  recipe: Recipe,
  { from, to }: { readonly from: Day; readonly to: Day },
): boolean {
  const days = leachTests(book).get(recipe.id) ?? [];
  return days.some((day) => from <= day && day <= to);
}

function recipesTested(
  book: NamedBook,
  { recipe, mix, lot }: { recipe?: string; mix?: string; lot?: string },
): readonly string[] {
  const mixed = book.mixed.get(mix ?? '');
  const ware = book.pieces.get(lot ?? '');
  const onWare = ware === undefined ? [] : glazesOf(book, ware).map((glaze) => glaze.recipe);
  return [recipe, mixed?.recipe, ...onWare].filter((id) => id !== undefined);
}

/** A product that people are told they may eat from, and the glazes on it. */
interface FoodWare {
  readonly product: Product;
  /** Where the claim stands. */
  readonly claim: Spot;
  readonly glazes: readonly Recipe[];
}

/** Every product that claims food on a day, with the recipes that were ever on it and on its lots. */
function foodWare(book: ClaimBook, day: Day): readonly FoodWare[] {
  const ofLots = recipesOfLots(book);
  return [...book.products.values()].flatMap((product) => {
    const at = inForce(product, day).care?.indexOf('food') ?? -1;
    if (at === -1) return [];
    const own = everyVersion(product).flatMap(({ glazes = [] }) => glazes);
    const ids = new Set([...own.map(({ recipe }) => recipe), ...(ofLots.get(product.id) ?? [])]);
    const glazes = [...ids].flatMap((id) => book.recipes.get(id) ?? []);
    return [{ product, claim: spot(product, ...placeInForce(product, 'care', day), at), glazes }];
  });
}

/** Product id → the recipes that its lots have in place of the product's. */
const recipesOfLots = cachedFor((book: ClaimBook): ReadonlyMap<string, ReadonlySet<string>> => {
  const found = new Map<string, Set<string>>();
  for (const { product, glazes } of book.pieces.values()) {
    if (glazes === undefined) continue;
    const known = found.get(product) ?? new Set<string>();
    for (const { recipe } of glazes) known.add(recipe);
    found.set(product, known);
  }
  return found;
});

const HINT =
  'have the fired ware tested for leaching and add the test, or take food out; rules differ by country';

const foodClaimWithoutTest: Rule = {
  name: 'food-claim-without-test',
  severity: 'warning',
  about: 'A product or recipe is said to be for food, and no leach test of the glaze is on record.',
  looks: [
    onDay(CLAIMED, (book, { day, unsound }) =>
      mayLack(unsound, 'tests') ? [] : [...ofProducts(book, day), ...ofRecipes(book, day)],
    ),
  ],
};

function isUntested(book: ClaimBook, recipe: Recipe, day: string): boolean {
  return !isTested(book, recipe, { from: '', to: day });
}

function ofProducts(book: ClaimBook, day: string): readonly RuleFinding[] {
  return foodWare(book, day).flatMap(({ product, claim, glazes }) => {
    const untested = glazes.filter((recipe) => isUntested(book, recipe, day));
    if (untested.length === 0) return [];
    const names = listed(untested.map((recipe) => recipe.id));
    return [
      {
        at: claim,
        message: `${product.id} is said to be for food, and no leach test of ${names} is on record`,
        hint: HINT,
      },
    ];
  });
}

function ofRecipes(book: ClaimBook, day: string): readonly RuleFinding[] {
  const onProducts = new Set(foodWare(book, day).flatMap(({ glazes }) => glazes));
  return [...book.recipes.values()]
    .filter((recipe) => recipe.forFood === 'yes' && !onProducts.has(recipe))
    .filter((recipe) => isUntested(book, recipe, day))
    .map((recipe) => ({
      at: spot(recipe, 'for-food'),
      message: `${recipe.id} is said to be for food, and no leach test of it is on record`,
      hint: HINT,
    }));
}

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

const containsRegulatedMetal: Rule = {
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
interface MetalSource {
  readonly recipe: Recipe;
  readonly material: Material;
  readonly metals: readonly string[];
}

/** The sources of metal in the version in force, unless it has been tested. */
function sourcesIn(book: ClaimBook, recipe: Recipe, day: Day): readonly MetalSource[] {
  const version = versionOn(recipe, day);
  if (version === undefined || isTested(book, recipe, { from: version.from, to: day })) return [];
  const ids = new Set([...version.base, ...(version.additions ?? [])].map((line) => line.material));
  return [...ids]
    .flatMap((id) => book.materials.get(id) ?? [])
    .map((material) => ({
      recipe,
      material,
      metals: METALS.filter((metal) => material.contains?.includes(metal)),
    }))
    .filter(({ metals }) => metals.length > 0);
}

function finding({ product, claim }: FoodWare, sources: readonly MetalSource[]): RuleFinding {
  const metals = METALS.filter((metal) => sources.some((source) => source.metals.includes(metal)));
  const recipes = new Set(sources.map(({ recipe }) => recipe.id));
  return {
    at: claim,
    message: `${product.id} is said to be for food, and there is ${listed(metals)} in ${listed([...recipes])}`,
    hint: 'only a leach test on the fired ware tells how much comes out: add one of the version in force, or take food out',
    related: sources.map(({ recipe, material, metals: found }) => ({
      at: spot(material, 'contains'),
      message: `${listed(found)} in ${material.id}, which is in ${recipe.id}`,
    })),
  };
}

/** The rules on ware for food. */
export const FOOD_RULES: readonly Rule[] = [foodClaimWithoutTest, containsRegulatedMetal];
