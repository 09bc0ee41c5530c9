/** No day is later than the day of the check, and no two versions start on one. */
import {
  EVENT_KINDS,
  type Book,
  type Day,
  type Paid,
  type Studio,
  type Tariff,
} from '../../book.ts';
import type { Spot } from '../../problem.ts';
import { findEach, spot, type RuleFinding, type Say, type Sited } from '../finding.ts';
import { each, onDay, over, type EachScene, type ReachedBook, type Rule } from '../rule.ts';

// A fair is put down when its booth is paid, which may be months before.
const DONE = EVENT_KINDS.filter((kind) => kind !== 'fairs');

const IS_LATER = { later: true } as const;

const LATER = {
  bought: IS_LATER,
  reclaimed: IS_LATER,
  mixed: IS_LATER,
  pieces: IS_LATER,
  firings: IS_LATER,
  used: IS_LATER,
  counted: IS_LATER,
  sales: IS_LATER,
  advances: IS_LATER,
  consigned: IS_LATER,
  spent: IS_LATER,
  tests: IS_LATER,
  filed: IS_LATER,
} as const;

type LaterBook = ReachedBook<typeof LATER>;

const futureDate: Rule = {
  name: 'future-date',
  severity: 'warning',
  about: 'A record is dated after the day of the check, so no figure counts it yet.',
  looks: [
    onDay(LATER, (book, { day }) => [
      ...closedAhead(book.studio, day),
      ...DONE.flatMap((kind) =>
        findEach<DatedRecord>(book[kind], (record, say) => {
          if (record.date > day) say(ahead(spot(record, 'date'), record.date, day));
        }),
      ),
      ...paidAhead(book, day),
      ...missingPaidAhead(book, day),
      ...leftAhead(book, day),
      ...refundedAhead(book, day),
      ...unloadedAhead(book, day),
    ]),
  ],
};

interface DatedRecord extends Sited {
  readonly date: Day;
}

interface PayableRecord extends Sited {
  readonly paid?: Paid;
}

function ahead(at: Spot, date: Day, day: Day): RuleFinding {
  return {
    at,
    message: `${date} is after ${day}`,
    hint: 'correct the date; nothing counts before its day has come',
  };
}

function closedAhead(studio: Studio, day: Day): readonly RuleFinding[] {
  const { closedThrough, starts, file } = studio;
  const days = { 'closed-through': closedThrough, starts };
  return Object.entries(days).flatMap(([key, of]) =>
    of === undefined || of <= day ? [] : [ahead({ file, path: [key] }, of, day)],
  );
}

function paidAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return (['bought', 'sales', 'spent'] as const).flatMap((kind) =>
    findEach<PayableRecord>(book[kind], (record, say) => {
      const { paid } = record;
      if (paid === undefined || paid === 'no' || paid <= day) return;
      say(ahead(spot(record, 'paid'), paid, day));
    }),
  );
}

function missingPaidAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.consigned, (consigned, say) => {
    consigned.missing?.forEach(({ paid = 'no' }, index) => {
      if (paid !== 'no' && paid > day)
        say(ahead(spot(consigned, 'missing', index, 'paid'), paid, day));
    });
  });
}

function leftAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.pieces, (lot, say) => {
    for (const list of ['lost', 'gone'] as const)
      lot[list]?.forEach(({ date }, index) => {
        if (date > day) say(ahead(spot(lot, list, index, 'date'), date, day));
      });
  });
}

function refundedAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.advances, (advance, say) => {
    advance.refunded?.forEach(({ date }, index) => {
      if (date > day) say(ahead(spot(advance, 'refunded', index, 'date'), date, day));
    });
  });
}

function unloadedAhead(book: LaterBook, day: Day): readonly RuleFinding[] {
  return findEach(book.firings, (firing, say) => {
    const { date, unloaded = date } = firing;
    if (unloaded > day && date <= day) say(ahead(spot(firing, 'unloaded'), unloaded, day));
  });
}

const twoInForce: Rule = {
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

interface Starting {
  readonly from: Day;
}

type WithChanges = Sited & { readonly changes?: readonly Starting[] };

function lookAtChanges(changed: WithChanges, { say }: EachScene): void {
  lookAtDays(changed, { list: 'changes', of: changed.changes ?? [] }, say);
}

interface Series {
  readonly list: 'versions' | 'changes';
  readonly of: readonly Starting[];
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

/** The rules on days. */
export const DAY_RULES: readonly Rule[] = [futureDate, twoInForce];
