/** Of two versions or tariffs that start on one day, nobody can tell which is in force. */
import type { Book, Recipe, Tariff } from '../../book.ts';
import { findEach, spot, type Say } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const twoInForce: Rule = {
  name: 'two-in-force',
  severity: 'error',
  about:
    'Two versions of a recipe, two tariffs of one fuel, or two rates of sales tax of one place start on the same day.',
  find: (book) => [
    ...findEach(book.recipes, lookAtVersions),
    ...tariffsOfOneDay(book),
    ...ratesOfOneDay(book),
  ],
};

function lookAtVersions(recipe: Recipe, say: Say): void {
  const seen = new Map<string, number>();
  recipe.versions.forEach(({ from }, index) => {
    const earlier = seen.get(from);
    seen.set(from, earlier ?? index);
    if (earlier === undefined) return;
    say({
      at: spot(recipe, 'versions', index, 'from'),
      message: `two versions of ${recipe.id} are from ${from}`,
      hint: 'correct the date of one, or take one out',
      related: [{ at: spot(recipe, 'versions', earlier, 'from'), message: 'the other version' }],
    });
  });
}

function tariffsOfOneDay(book: Book): ReturnType<typeof findEach> {
  const seen = new Map<string, Tariff>();
  return findEach(book.tariffs, (tariff, say) => {
    const key = `${tariff.fuel} ${tariff.from}`;
    const earlier = seen.get(key);
    seen.set(key, earlier ?? tariff);
    if (earlier === undefined) return;
    say({
      at: spot(tariff, 'from'),
      message: `two tariffs for ${tariff.fuel} are from ${tariff.from}`,
      hint: 'correct the date of one, or take one out',
      related: [{ at: spot(earlier, 'from'), message: 'the other tariff' }],
    });
  });
}

function ratesOfOneDay({ studio: { file, taxes = [] } }: Book): RuleFinding[] {
  const seen = new Map<string, number>();
  return taxes.flatMap(({ place, from }, index) => {
    const key = `${from} ${place}`;
    const earlier = seen.get(key);
    seen.set(key, earlier ?? index);
    if (earlier === undefined) return [];
    const at = (which: number): RuleFinding['at'] => ({ file, path: ['taxes', which, 'from'] });
    return {
      at: at(index),
      message: `two rates of ${place} are from ${from}`,
      hint: 'correct the date of one, or take one out',
      related: [{ at: at(earlier), message: 'the other rate' }],
    };
  });
}
