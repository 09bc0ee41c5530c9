/** No day is later than the day of the check, and no two versions start on one. */
import { EVENT_KINDS, type Book, type Day, type Paid, type Studio } from '../../book.ts';
import { addDays } from '../../number/date.ts';
import type { Spot } from '../../problem.ts';
import { findEach, spot, twice, type RuleFinding, type Say, type Sited } from '../finding.ts';
import { each, onDay, over, type EachScene, type Rule } from '../rule.ts';

type DoneKind = Exclude<(typeof EVENT_KINDS)[number], 'fairs'>;

// A fair is recorded when its booth is paid, which may be months before.
const DONE = EVENT_KINDS.filter((kind): kind is DoneKind => kind !== 'fairs');

const IS_LATER = { later: true } as const;

const LATER = Object.fromEntries(DONE.map((kind) => [kind, IS_LATER])) as Readonly<
  Record<DoneKind, typeof IS_LATER>
>;

const futureDate: Rule = {
  name: 'future-date',
  severity: 'warning',
  about: 'A record is dated after the day of the check, so no figure counts it yet.',
  looks: [
    onDay(LATER, (book, { day }) => [
      ...closedAhead(book.studio, day),
      ...DONE.flatMap((kind) =>
        findEach<WithDays>(book[kind], (record, say) => {
          const days = daysOf(record).filter(([date]) => date > day);
          const told = record.date > day ? days.filter(([, field]) => field !== 'unloaded') : days;
          for (const [date, ...path] of told) say(ahead(spot(record, ...path), date, day));
        }),
      ),
    ]),
  ],
};

interface WithDays extends Sited {
  readonly date: Day;
  readonly paid?: Paid;
  readonly missing?: readonly { readonly paid?: Paid }[];
  readonly lost?: readonly { readonly date: Day }[];
  readonly gone?: readonly { readonly date: Day }[];
  readonly refunded?: readonly { readonly date: Day }[];
  readonly unloaded?: Day;
  readonly done?: Day;
  readonly cancelled?: Day;
}

type DayAt = readonly [day: Day, ...path: (string | number)[]];

/** The days of what was done, its own first. */
function daysOf(record: WithDays): readonly DayAt[] {
  const { date, paid = 'no', missing = [], ...lists } = record;
  const owed = missing.map((line, index): DayAt => [line.paid ?? 'no', 'missing', index, 'paid']);
  const dated = (['lost', 'gone', 'refunded'] as const).flatMap((list) =>
    (lists[list] ?? []).map((each, index): DayAt => [each.date, list, index, 'date']),
  );
  const ended = (['unloaded', 'done', 'cancelled'] as const).flatMap((key): DayAt[] => {
    const day = record[key];
    return day === undefined ? [] : [[day, key]];
  });
  const paidOn = [[paid, 'paid'] as const, ...owed].filter(([day]) => day !== 'no');
  return [[date, 'date'], ...paidOn, ...dated, ...ended];
}

function ahead(at: Spot, date: Day, day: Day): RuleFinding {
  return {
    at,
    message: `${date} is after ${day}`,
    hint: `write ${day} or an earlier day; nothing counts before its day has come`,
  };
}

function closedAhead({ closedThrough, starts, file }: Studio, day: Day): readonly RuleFinding[] {
  const days = { 'closed-through': closedThrough, starts };
  return Object.entries(days).flatMap(([key, of]) =>
    of === undefined || of <= day ? [] : [ahead({ file, path: [key] }, of, day)],
  );
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

function lookAtChanges({ changes = [], ...changed }: WithChanges, { say }: EachScene): void {
  lookAtDays(changed, { list: 'changes', of: changes }, say);
}

function lookAtDays(
  record: Sited,
  { list, of }: { readonly list: 'versions' | 'changes'; readonly of: readonly Starting[] },
  say: Say,
): void {
  const starts = of.map(({ from }, index) => ({ from, at: spot(record, list, index, 'from') }));
  const [one, way] =
    list === 'versions'
      ? ['version', 'take this version out if it is there twice']
      : ['change', 'write both as one change'];
  for (const [{ from, at }, earlier] of twice(starts, (each) => each.from))
    say({
      at,
      message: `two ${list} of ${record.id === '' ? 'the settings' : record.id} are from ${from}`,
      hint: `${anotherDay(from)}, or ${way}`,
      related: [{ at: earlier.at, message: `the other ${one}` }],
    });
}

function anotherDay(day: Day): string {
  return `write the day from which it holds, such as ${addDays(day, 1)}`;
}

function tariffsOfOneDay(book: Pick<Book, 'tariffs'>): readonly RuleFinding[] {
  const tariffs = twice(book.tariffs.values(), ({ fuel, from }) => `${fuel} ${from}`);
  return tariffs.map(([tariff, earlier]) => ({
    at: spot(tariff, 'from'),
    message: `two tariffs for ${tariff.fuel} are from ${tariff.from}`,
    hint: `${anotherDay(tariff.from)}, or take this tariff out if it is there twice`,
    related: [{ at: spot(earlier, 'from'), message: 'the other tariff' }],
  }));
}

function lookAtRates({ file, taxes = [] }: Studio, { say }: EachScene): void {
  const rates = taxes.map((rate, index) => ({
    ...rate,
    at: { file, path: ['taxes', index, 'from'] },
  }));
  for (const [{ place, from, at }, earlier] of twice(rates, (rate) => `${rate.from} ${rate.place}`))
    say({
      at,
      message: `two rates of ${place} are from ${from}`,
      hint: `${anotherDay(from)}, or take this rate out if it is there twice`,
      related: [{ at: earlier.at, message: 'the other rate' }],
    });
}

/** The rules on days. */
export const DAY_RULES: readonly Rule[] = [futureDate, twoInForce];
