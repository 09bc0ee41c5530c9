/** The materials that a recipe weighs out. */
import type { NamedBook, Recipe } from '../../book.ts';
import { dimensionOf } from '../../number/unit.ts';
import { keySpot, spot, type Say } from '../finding.ts';
import { each } from '../rule.ts';
import { keptIn } from './fits.ts';

/** Recipe lines whose material is not kept by weight, so that no mix can draw it from stock. */
export const unweighable = each('recipes', (recipe, { book, say }) => {
  recipe.versions.forEach(({ base, additions }, index) => {
    const at = ['versions', index];
    lookAtLines({ book, recipe, say }, [...at, 'base'], base);
    lookAtLines({ book, recipe, say }, [...at, 'additions'], additions ?? []);
  });
});

interface Look {
  readonly book: NamedBook;
  readonly recipe: Recipe;
  readonly say: Say;
}

function lookAtLines(
  { book, recipe, say }: Look,
  path: readonly (string | number)[],
  lines: readonly { readonly material: string }[],
): void {
  lines.forEach(({ material: id }, index) => {
    const material = book.materials.get(id);
    if (material === undefined || dimensionOf(material.unit) === 'weight') return;
    say({
      at: spot(recipe, ...path, index, 'material'),
      message: `${recipe.id} is mixed by weight, but ${id} is ${keptIn(material.unit)}`,
      hint: `give ${id} a stock unit of weight, or take it out of the recipe`,
      related: [{ at: keySpot(material, 'unit'), message: `the unit of ${id}` }],
    });
  });
}
