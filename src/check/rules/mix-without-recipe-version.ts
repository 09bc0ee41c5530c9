/** A mix needs a version of its recipe that was in force on the day. */
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const mixWithoutRecipeVersion: Rule = {
  name: 'mix-without-recipe-version',
  severity: 'error',
  about:
    'A mix is dated before the first version of its recipe, so nobody knows what went into it.',
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
        hint: 'correct the date, or add the version of the recipe that was in force on that day',
        related: [{ at: spot(recipe, 'versions'), message: `the versions of ${recipe.id}` }],
      });
    }),
  ],
};
