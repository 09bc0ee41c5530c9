/** A claim that people may eat from a pot should rest on a test of the fired ware. */
import type { Recipe } from '../../book.ts';
import { CLAIMED, foodWare, isTested, type ClaimBook } from '../claims.ts';
import { listed, type RuleFinding, spot } from '../finding.ts';
import { onDay, type Rule } from '../rule.ts';
import { mayLack } from '../unsound.ts';

const HINT =
  'have the fired ware tested for leaching and add the test, or take the claim out; rules differ by country';

export const foodClaimWithoutTest: Rule = {
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
