/** What products say about eating from them, and which leach tests are on record. */
import type { Day, NamedBook, Product, Recipe } from '../book.ts';
import { everyVersion, inForce, placeInForce } from '../in-force.ts';
import { glazesOf } from './across.ts';
import type { Spot } from '../problem.ts';
import { once, spot } from './finding.ts';
import type { ReachedBook } from './rule.ts';

/** What claims and tests are read from. */
export const CLAIMED = {
  products: 'all',
  recipes: 'all',
  tests: 'all',
  pieces: { having: 'glazes' },
} as const;

/** A book as the rules on claims have it. */
export type ClaimBook = ReachedBook<typeof CLAIMED>;

/** Recipe id → the days of its leach tests: of the recipe, of a mix of it or of a lot with it. */
const leachTests: (book: ClaimBook) => ReadonlyMap<string, readonly Day[]> = once((book) => {
  const days = new Map<string, Day[]>();
  for (const test of book.tests.values()) {
    const recipes = test.kind === 'leach' ? recipesTested(book, test) : [];
    for (const recipe of recipes) days.set(recipe, [...(days.get(recipe) ?? []), test.date]);
  }
  return days;
});

/** Whether a leach test of a recipe is on record from the one day to the other, both counted. */
export function isTested(
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
export interface FoodWare {
  readonly product: Product;
  /** Where the claim stands. */
  readonly claim: Spot;
  readonly glazes: readonly Recipe[];
}

/** Every product that claims food on a day, with the recipes that were ever on it and on its lots. */
export function foodWare(book: ClaimBook, day: Day): readonly FoodWare[] {
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
const recipesOfLots = once((book: ClaimBook): ReadonlyMap<string, ReadonlySet<string>> => {
  const found = new Map<string, Set<string>>();
  for (const { product, glazes } of book.pieces.values()) {
    if (glazes === undefined) continue;
    const known = found.get(product) ?? new Set<string>();
    for (const { recipe } of glazes) known.add(recipe);
    found.set(product, known);
  }
  return found;
});
