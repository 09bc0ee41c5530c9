/** `saggar recipes`: all recipes with what is mixed of each, or one with all that was tried on it. */
import { flow } from '../../reckon/flow.ts';
import { bucketCharts } from '../../report/charts/stock.ts';
import { recipeTable } from '../../report/making/recipe.ts';
import { recipesTable } from '../../report/making/recipes.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';

/** Every recipe, or with an id its versions and its tests. */
export const recipes: Report<OptionsOf<'recipes'>> = {
  table: ({ book, asOf }, { argument }) => {
    const flows = flow(book, asOf);
    if (argument === undefined) return recipesTable(book, flows);
    return (
      recipeTable(book, flows, argument) ?? unknownId('recipe', argument, book.recipes.values())
    );
  },
  charts: (_, { argument }, table) => (argument === undefined ? bucketCharts(table) : []),
};
