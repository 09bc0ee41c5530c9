/** A recipe version without a base weighs out nothing. */
import { ZERO } from '../../number/decimal.ts';
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const recipeEmpty: Rule = {
  name: 'recipe-empty',
  severity: 'error',
  about: 'A version of a recipe has no base, or a base whose parts are all nought.',
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
