/** Of two versions or tariffs that start on one day, nobody can tell which is in force. */
import type { Book, Day, Tariff } from '../../book.ts';
import type { Spot } from '../../problem.ts';
import { findEach, spot, type Say, type Sited } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const twoInForce: Rule = {
  name: 'two-in-force',
  severity: 'error',
  about:
    'Two versions of a recipe, two changes of a definition, two tariffs of one fuel, or two rates of sales tax of one place, start on the same day.',
  find: (book) => [
    ...findEach(book.recipes, (recipe, say) => {
      lookAtDays(recipe, { list: 'versions', of: recipe.versions }, say);
    }),
    ...CHANGING.flatMap((kind) => findEach<Changed>(book[kind], lookAtChanges)),
    ...findEach<Changed>(new Map([['', settingsOf(book)]]), lookAtChanges),
    ...tariffsOfOneDay(book),
    ...ratesOfOneDay(book),
  ],
};

const CHANGING = ['products', 'classes', 'channels'] as const;

interface Dated {
  readonly from: Day;
}

type Changed = Sited & { readonly changes?: readonly Dated[] };

/** The settings as a record without an id: its fields stand at the file's margin. */
function settingsOf({ studio: { file, changes = [] } }: Book): Changed {
  return { id: '', file, changes };
}

function lookAtChanges(changed: Changed, say: Say): void {
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
