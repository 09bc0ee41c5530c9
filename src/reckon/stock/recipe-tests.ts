/** The tests on record of each recipe, and of which version of it they are. */
import type { Book, Day, Recipe, RecipeVersion, Test } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { byDate } from '../../text-order.ts';
import type { Flows } from '../flows.ts';
import { glazingOf } from '../ware/stages.ts';
import { versionOn } from './recipe.ts';

/** A test, and the version of the recipe that was in force when what it tested was mixed or glazed. */
export interface RecipeTest {
  readonly test: Test;
  readonly version: RecipeVersion | undefined;
}

/** Recipe → its tests up to the flows' day, the newest first: of it, of a mix of it, or of a lot with it. */
export function testsOfRecipes(book: Book, flows: Flows): ReadonlyMap<string, RecipeTest[]> {
  const { asOf } = flows.stock;
  const tests = [...book.tests.values()].filter(({ date }) => date <= asOf).sort(byDate);
  const found = new Map<string, RecipeTest[]>();
  for (const test of tests.reverse())
    for (const recipe of recipesIn(book, flows, test)) {
      const version = versionOn(recipe, madeOn(book, flows, { test, id: recipe.id }));
      addTo(found, recipe.id, { test, version });
    }
  return found;
}

function recipesIn(book: Book, { ware }: Flows, { recipe, mix, lot }: Test): Recipe[] {
  const state = ware.lots.get(lot ?? '');
  const glazes = state?.lot.glazes ?? state?.product?.glazes ?? [];
  const all = [recipe, book.mixed.get(mix ?? '')?.recipe, ...glazes.map((use) => use.recipe)];
  return [...new Set(all)].flatMap((id) => book.recipes.get(id ?? '') ?? []);
}

/** The day it says, else that of the mix that it is of, else that on which the lot was glazed, else its own. */
function madeOn(
  book: Book,
  { ware }: Flows,
  { test, id }: { readonly test: Test; readonly id: string },
): Day {
  const state = ware.lots.get(test.lot ?? '');
  const mixed = book.mixed.get(test.mix ?? state?.lot.mixes?.[id] ?? '');
  const glazed = state?.passes.find(({ firing }) => firing.kind === glazingOf(state.product));
  return test.versionOf ?? mixed?.date ?? glazed?.firing.date ?? test.date;
}
