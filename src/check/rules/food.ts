/** A claim that people may eat from a pot rests on a leach test of the fired ware. */
import type { Day, Material, Product, Recipe } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import type { Spot } from '../../problem.ts';
import { leachEvidence, type ClaimEvidence } from '../../reckon/claims/claims.ts';
import { glazesEverOn, leachTestsOf } from '../../reckon/claims/leach-tests.ts';
import { limitsOf } from '../../reckon/claims/limits.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import { keySpot, listed, spot, type RuleFinding } from '../finding.ts';
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
type ClaimedBook = ReachedBook<typeof CLAIMED>;

/** A product that people are told they may eat from, and the glazes on it. */
interface FoodWare {
  readonly product: Product;
  /** Where the claim stands. */
  readonly claim: Spot;
  readonly glazes: readonly Recipe[];
}

/** Every product that claims food on a day, with the recipes that were ever on it and on its lots. */
function foodWare(book: ClaimedBook, day: Day): readonly FoodWare[] {
  return [...book.products.values()].flatMap((product) => {
    const at = inForce(product, day).care?.indexOf('food') ?? -1;
    if (at === -1) return [];
    const claim = spot(product, ...placeInForce(product, 'care', day), at);
    return [{ product: inForce(product, day), claim, glazes: glazesEverOn(book, product) }];
  });
}

/** What the leach tests of a glaze on ware for food come to. */
function evidenceOf(
  book: ClaimedBook,
  product: Product,
  of: { recipe: Recipe; day: Day },
): ClaimEvidence {
  const { recipe, day } = of;
  return leachEvidence(book, { product, recipe, version: versionOn(recipe, day) }, day);
}

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

function isUntested(book: ClaimedBook, recipe: Recipe, day: string): boolean {
  return !leachTestsOf(book)
    .get(recipe.id)
    ?.some(({ date }) => date <= day);
}

function ofProducts(book: ClaimedBook, day: string): readonly RuleFinding[] {
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

function ofRecipes(book: ClaimedBook, day: string): readonly RuleFinding[] {
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
    'A glaze of a product for food contains a metal that may leach, and no leach test of its present version, cone and clay is on record.',
  looks: [
    onDay(CLAIMED, (book, { day, unsound }) => {
      if (mayLack(unsound, 'tests')) return [];
      return foodWare(book, day).flatMap((ware) => {
        const sources = ware.glazes
          .filter((recipe) => !isOfWare(evidenceOf(book, ware.product, { recipe, day })))
          .flatMap((recipe) => sourcesIn(book, recipe, day));
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

/** Whether a test is of the ware as it is made now. */
function isOfWare({ outcome }: ClaimEvidence): boolean {
  return outcome !== 'none' && outcome !== 'of-another';
}

/** The sources of metal in the version in force. */
function sourcesIn(book: ClaimedBook, recipe: Recipe, day: Day): readonly MetalSource[] {
  const version = versionOn(recipe, day);
  if (version === undefined) return [];
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

const foodClaimOverLimit: Rule = {
  name: 'food-claim-over-limit',
  severity: 'warning',
  about: 'A product is said to be for food, and a leach test of a glaze on it is over the limit.',
  looks: [
    onDay(CLAIMED, (book, { day, unsound }) => {
      if (mayLack(unsound, 'tests')) return [];
      return foodWare(book, day).flatMap((ware) =>
        ware.glazes.flatMap((recipe) => {
          const evidence = evidenceOf(book, ware.product, { recipe, day });
          return evidence.isFailed ? failed(book, ware, { recipe, evidence }) : [];
        }),
      );
    }),
  ],
};

function failed(
  { studio }: ClaimedBook,
  { product, claim }: FoodWare,
  { recipe, evidence }: { readonly recipe: Recipe; readonly evidence: ClaimEvidence },
): readonly RuleFinding[] {
  const { test, outcome } = evidence;
  if (!test) return [];
  const came =
    outcome === 'over' ? `over the limit (${limitsOf(studio)?.title ?? ''})` : 'judged no';
  return [
    {
      at: claim,
      message: `${product.id} is said to be for food, and leach test ${test.id} of ${recipe.id} is ${came}`,
      hint: `take food out; which pots have the glaze, and who has them, says saggar trace ${test.id}`,
      related: [{ at: keySpot(test), message: 'the test' }],
    },
  ];
}

/** The rules on ware for food. */
export const FOOD_RULES: readonly Rule[] = [
  foodClaimWithoutTest,
  containsRegulatedMetal,
  foodClaimOverLimit,
];
