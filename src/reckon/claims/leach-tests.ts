/** The leach tests of a glaze, and whether they are of the ware that a claim is made for. */
import type {
  Day,
  Lot,
  Named,
  NamedBook,
  Product,
  Recipe,
  RecipeVersion,
  Test,
  WareCategory,
} from '../../book.ts';
import { everyVersion, inForce } from '../../in-force.ts';
import { addTo } from '../../grouping.ts';
import { cachedFor } from '../../once.ts';
import { versionOn } from '../stock/recipe.ts';

/** Records that can be gone through. */
interface Gone<T> extends Named<T> {
  readonly values: () => Iterable<T>;
}

/** What claims are read from; of lots, those that have glazes of their own are enough. */
export type ClaimBook = NamedBook & {
  readonly products: Gone<Product>;
  readonly recipes: Gone<Recipe>;
  readonly tests: Gone<Test>;
  readonly pieces: Gone<Lot>;
};

/** Recipe id → its leach tests, the newest first: of the recipe, of a mix of it or of a lot with it. */
export const leachTestsOf: (book: ClaimBook) => ReadonlyMap<string, readonly Test[]> = cachedFor(
  (book) => {
    const found = new Map<string, Test[]>();
    for (const test of book.tests.values())
      for (const recipe of test.kind === 'leach' ? recipesIn(book, test) : [])
        addTo(found, recipe, test);
    for (const tests of found.values()) tests.sort((a, b) => (a.date < b.date ? 1 : -1));
    return found;
  },
);

/** The recipes that a test is of, each once. */
export function recipesIn(book: NamedBook, { recipe, mix, lot }: Test): readonly string[] {
  const ware = book.pieces.get(lot ?? '');
  const own = ware?.glazes ?? madeAs(book, ware)?.glazes ?? [];
  const all = [recipe, book.mixed.get(mix ?? '')?.recipe, ...own.map((glaze) => glaze.recipe)];
  return [...new Set(all.filter((id) => id !== undefined))];
}

function madeAs(book: NamedBook, lot: Lot | undefined): Product | undefined {
  return lot && inForce(book.products.get(lot.product), lot.date);
}

/** The recipes that were ever on a product, by itself or by its lots. */
export function glazesEverOn(book: ClaimBook, { id }: Product): readonly Recipe[] {
  const product = book.products.get(id);
  const own = (product ? everyVersion(product) : []).flatMap(({ glazes = [] }) => glazes);
  const ofLots = recipesOfLots(book).get(id) ?? [];
  const ids = new Set([...own.map(({ recipe }) => recipe), ...ofLots]);
  return [...ids].flatMap((recipe) => book.recipes.get(recipe) ?? []);
}

/** Product id → the recipes that its lots have in place of the product's. */
const recipesOfLots: (book: ClaimBook) => ReadonlyMap<string, ReadonlySet<string>> = cachedFor(
  (book) => {
    const found = new Map<string, Set<string>>();
    for (const { product, glazes = [] } of book.pieces.values())
      for (const { recipe } of glazes)
        found.set(product, (found.get(product) ?? new Set<string>()).add(recipe));
    return found;
  },
);

/** What a test may be of that the ware of a claim is not. */
export type Differing = 'version' | 'cone' | 'clay';

/** The ware that a claim is made for. */
export interface ClaimedWare {
  readonly product: Product;
  readonly recipe: Recipe;
  readonly version: RecipeVersion | undefined;
}

/** In what a test differs from the ware; what isn't on record of the test differs in nothing. */
export function differingIn(book: NamedBook, test: Test, ware: ClaimedWare): readonly Differing[] {
  const { product, recipe, version } = ware;
  const cone = test.cone ?? book.firings.get(test.firing ?? '')?.cone;
  const clay = clayTested(book, test);
  const own = product.clay?.material;
  return [
    ...(versionTested(book, test, recipe) === version ? [] : (['version'] as const)),
    ...(cone !== undefined && recipe.cone !== undefined && cone !== recipe.cone
      ? (['cone'] as const)
      : []),
    ...(clay !== undefined && own !== undefined && clay !== own ? (['clay'] as const) : []),
  ];
}

/** The version of a recipe that was tested. */
export function versionTested(
  book: NamedBook,
  test: Test,
  recipe: Recipe,
): RecipeVersion | undefined {
  return versionOn(recipe, test.versionOf ?? dayMixed(book, test, recipe));
}

/** The day of the mix that was tested, else that the ware was made on, else that of the test. */
function dayMixed(book: NamedBook, { lot, mix, firing, date }: Test, { id }: Recipe): Day {
  const ware = book.pieces.get(lot ?? '');
  const mixed = book.mixed.get(ware?.mixes?.[id] ?? mix ?? '');
  return mixed?.date ?? ware?.date ?? book.firings.get(firing ?? '')?.date ?? date;
}

/** The clay that was tested, where it is on record. */
export function clayTested(book: NamedBook, { lot, clay }: Test): string | undefined {
  const ware = book.pieces.get(lot ?? '');
  return clay ?? ware?.clay?.material ?? madeAs(book, ware)?.clay?.material;
}

const WARES: ReadonlySet<string> = new Set<WareCategory>([
  'flatware',
  'cup',
  'pitcher',
  'small-hollowware',
  'large-hollowware',
  'cooking',
  'storage',
]);

/** The sort of ware that was tested, where it is on record. */
export function wareTested(book: NamedBook, { lot, leach }: Test): WareCategory | undefined {
  const said = leach?.ware?.trim().toLowerCase() ?? '';
  return (
    madeAs(book, book.pieces.get(lot ?? ''))?.ware ??
    (WARES.has(said) ? (said as WareCategory) : undefined)
  );
}
