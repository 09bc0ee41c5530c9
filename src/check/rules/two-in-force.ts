/** Of two versions or tariffs that start on one day, nobody can tell which is in force. */
import type { Book, Day, Studio, Tariff } from '../../book.ts';
import type { Spot } from '../../problem.ts';
import { findEach, type RuleFinding, type Say, type Sited, spot } from '../finding.ts';
import { each, over, type EachScene, type Rule } from '../rule.ts';

export const twoInForce: Rule = {
  name: 'two-in-force',
  severity: 'error',
  about:
    'Two versions of a recipe, two changes of a definition, two tariffs of one fuel, or two rates of sales tax of one place, start on the same day.',
  looks: [
    each('recipes', (recipe, { say }) => {
      lookAtDays(recipe, { list: 'versions', of: recipe.versions }, say);
    }),
    each(['products', 'classes', 'channels'], lookAtChanges),
    each('studio', (studio, scene) => {
      // The settings have no id: their fields stand at the file's margin.
      lookAtChanges({ ...studio, id: '' }, scene);
      lookAtRates(studio, scene);
    }),
    over({ tariffs: 'all' }, tariffsOfOneDay),
  ],
};

interface Dated {
  readonly from: Day;
}

type Changed = Sited & { readonly changes?: readonly Dated[] };

function lookAtChanges(changed: Changed, { say }: EachScene): void {
  lookAtDays(changed, { list: 'changes', of: changed.changes ?? [] }, say);
}

interface Series {
  readonly list: 'versions' | 'changes';
  readonly of: readonly Dated[];
}

function lookAtDays(record: Sited, { list, of }: Series, say: Say): void {
  const seen = new Map<Day, number>();
  of.forEach(({ from }, index) => {
    const earlier = seen.get(from);
    seen.set(from, earlier ?? index);
    if (earlier === undefined) return;
    const at = (item: number): Spot => spot(record, list, item, 'from');
    const one = list === 'versions' ? 'version' : 'change';
    say({
      at: at(index),
      message: `two ${list} of ${record.id === '' ? 'the settings' : record.id} are from ${from}`,
      hint: `correct the date of one, or ${list === 'versions' ? 'take one out' : 'write both as one change'}`,
      related: [{ at: at(earlier), message: `the other ${one}` }],
    });
  });
}

function tariffsOfOneDay(book: Pick<Book, 'tariffs'>): readonly RuleFinding[] {
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

function lookAtRates({ file, taxes = [] }: Studio, { say }: EachScene): void {
  const seen = new Map<string, number>();
  taxes.forEach(({ place, from }, index) => {
    const key = `${from} ${place}`;
    const earlier = seen.get(key);
    seen.set(key, earlier ?? index);
    if (earlier === undefined) return;
    const at = (which: number): Spot => ({ file, path: ['taxes', which, 'from'] });
    say({
      at: at(index),
      message: `two rates of ${place} are from ${from}`,
      hint: 'correct the date of one, or take one out',
      related: [{ at: at(earlier), message: 'the other rate' }],
    });
  });
}
