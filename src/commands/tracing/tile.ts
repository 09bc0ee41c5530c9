/** What was tried on a good tile, said as the changes of a new version of its recipe. */
import type { Book, Day, Test } from '../../book.ts';
import { dayMeant } from '../../number/date.ts';
import { versionTested } from '../../reckon/claims/leach-tests.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import { isRefusal, type Refusal } from '../world.ts';
import type { Scene } from '../records/change.ts';

type TileScene = Scene<OptionsOf<'revise'>>;

/** The scene with what the tile says as if it were typed; the same where no tile is named. */
export function tiled(scene: TileScene): TileScene | Refusal {
  const { asked, opened } = scene;
  const { tile, from } = asked.options;
  if (tile === undefined) return scene;
  const { book, asOf } = opened;
  const test = book.tests.get(tile);
  if (!test) return unknownId('test', tile, book.tests.values());
  const day = from === undefined ? asOf : (dayMeant(from, asOf) ?? asOf);
  const tried = triedOn(book, test, day);
  if (isRefusal(tried)) return tried;
  const { recipe, changes } = tried;
  if (asked.argument !== undefined && asked.argument !== recipe)
    return { refused: `test ${tile} is of ${recipe}, not of ${asked.argument}` };
  const note = asked.options.note ?? `From tile ${tile}`;
  const words = [recipe, ...changes, ...asked.words.slice(1)];
  return { ...scene, asked: { argument: recipe, words, options: { ...asked.options, note } } };
}

interface TriedOn {
  readonly recipe: string;
  readonly changes: readonly string[];
}

/** What was tried, where it can be taken as it stands. */
function triedOn(book: Book, test: Test, day: Day): TriedOn | Refusal {
  const { id, recipe: name, tried, verdict } = test;
  const recipe = book.recipes.get(name ?? '');
  if (!recipe) return { refused: `test ${id} names no recipe` };
  if (verdict !== undefined && verdict !== 'good')
    return {
      refused: `test ${id} has the verdict ${verdict}; if it is good after all: saggar amend ${id} verdict=good`,
    };
  if (tried === undefined)
    return {
      refused: `test ${id} does not say in tried what was changed, line by line; say it yourself: saggar revise ${recipe.id} "MATERIAL AMOUNT"`,
    };
  const tested = versionTested(book, test, recipe);
  const now = versionOn(recipe, day);
  if (tested !== now)
    return {
      refused: `test ${id} is of the version from ${tested?.from ?? 'no day'}, and that from ${now?.from ?? 'no day'} is in force; say what changes against it: saggar revise ${recipe.id} "MATERIAL AMOUNT"`,
    };
  return { recipe: recipe.id, changes: tried };
}
