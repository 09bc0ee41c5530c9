/** A recipe has something in each version, and was there when it was mixed. */
import { ZERO } from '../../number/decimal.ts';
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

const recipeEmpty: Rule = {
  name: 'recipe-empty',
  severity: 'error',
  about: 'A version of a recipe has no base, or a base whose parts are all zero.',
  looks: [
    each('recipes', (recipe, { say }) => {
      if (recipe.versions.length === 0)
        say({
          at: spot(recipe, 'versions'),
          message: `${recipe.id} has no version`,
          hint: 'add a version with the day it is from and its base',
        });
      recipe.versions.forEach(({ base }, index) => {
        if (base.some(({ parts }) => parts.gt(ZERO))) return;
        say({
          at: spot(recipe, 'versions', index, 'base'),
          message: `the base of ${recipe.id} adds up to 0 parts`,
          hint: 'give each material of the base its parts; they need not add up to 100',
        });
      });
    }),
  ],
};

const mixWithoutRecipeVersion: Rule = {
  name: 'mix-without-recipe-version',
  severity: 'error',
  about:
    'A mix is dated before the first version of its recipe, so nobody knows what went into it.',
  unsettles: true,
  looks: [
    each('mixed', (mix, { book, say }) => {
      const recipe = book.recipes.get(mix.recipe);
      if (recipe === undefined || recipe.versions.length === 0) return;
      const dates = recipe.versions.map((version) => version.from);
      const first = dates.reduce((early, day) => (day < early ? day : early));
      if (first <= mix.date) return;
      say({
        at: spot(mix, 'date'),
        message: `${recipe.id} was mixed on ${mix.date}, but its first version is from ${first}`,
        hint: `write ${first} or a later day, or add the version of the recipe that was in force on ${mix.date}`,
        related: [{ at: spot(recipe, 'versions'), message: `the versions of ${recipe.id}` }],
      });
    }),
  ],
};

/** The rules on recipes. */
export const RECIPE_RULES: readonly Rule[] = [recipeEmpty, mixWithoutRecipeVersion];
