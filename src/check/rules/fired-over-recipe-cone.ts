/** A glaze matures at its own cone: hotter it runs, cooler it stays dry. */
import type { LoadLine, NamedBook, Recipe } from '../../book.ts';
import { compareCones, type Cone } from '../../number/cone.ts';
import { glazesOf } from '../across.ts';
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

const MATURES: ReadonlySet<string> = new Set(['glaze', 'once', 'raku']);

export const firedOverRecipeCone: Rule = {
  name: 'fired-over-recipe-cone',
  severity: 'warning',
  about: 'A lot was fired to another cone than that of a glaze on it.',
  looks: [
    each('firings', (firing, { book, say }) => {
      const cone = firing.cone ?? firing.coneSeen;
      if (cone === undefined || !MATURES.has(firing.kind)) return;
      firing.load.forEach((line, index) => {
        const recipe = recipesOn(book, line).find((one) => differs(line, cone, one.cone));
        if (recipe?.cone === undefined) return;
        say({
          at: spot(firing, 'load', index, 'lot'),
          message: `fired to cone ${cone}, ${hotter(cone, recipe.cone)} than cone ${recipe.cone} of ${recipe.id}`,
          hint: 'correct a cone, or leave it if the glaze was meant to go there',
          related: [{ at: spot(recipe, 'cone'), message: `the cone of ${recipe.id}` }],
        });
      });
    }),
  ],
};

function recipesOn(book: NamedBook, line: LoadLine): readonly Recipe[] {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  if (lot === undefined) return [];
  return glazesOf(book, lot).flatMap(({ recipe }) => book.recipes.get(recipe) ?? []);
}

// A second glaze firing may well be cooler, for mending or decoration.
function differs(line: LoadLine, fired: Cone, meant: Cone | undefined): boolean {
  if (meant === undefined) return false;
  const order = compareCones(fired, meant);
  return line.refire === 'yes' ? order > 0 : order !== 0;
}

function hotter(fired: Cone, meant: Cone): string {
  return compareCones(fired, meant) > 0 ? 'hotter' : 'cooler';
}
