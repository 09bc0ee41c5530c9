/** Which mixes on record would be mixes of other materials after a change of their recipe. */
import type { Book, Mixed, RecipeVersion } from '../../book.ts';
import { recordsNaming } from '../../among.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';

/** The mixes of a recipe that a change of it would give other materials, in the order of the book. */
export function mixesMoved(
  { before, after }: { readonly before: Book; readonly after: Book },
  recipe: string,
): readonly Mixed[] {
  const mixes = [...recordsNaming(before.mixed, new Set([recipe]))];
  return mixes.filter(
    (mixed) => mixed.recipe === recipe && contentOn(before, mixed) !== contentOn(after, mixed),
  );
}

function contentOn({ recipes }: Book, { recipe, date }: Mixed): string {
  const known = recipes.get(recipe);
  const version = known && versionOn(known, date);
  return version ? contentText(version) : '';
}

function contentText({ base, additions = [] }: RecipeVersion): string {
  const lines = [
    ...base.map(({ material, parts }) => `${material} ${parts.toString()}`),
    ...additions.map(({ material, percent }) => `${material} ${percent.toString()} of the base`),
  ];
  return lines.join('\n');
}
