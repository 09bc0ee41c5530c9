/** From which day on a change can move a figure of a report, so that no more reports are made than need be. */
import type { MOVES } from '../../schema/generated/moves.js';
import { EVENT_KINDS, type Book, type Day, type Entry, type Kind } from '../book.ts';
import { addDays, isDay } from '../number/date.ts';
import { quarterOn, taxPeriod, type TaxPeriod } from '../reckon/tax/tax-period.ts';
import type { RecordChange } from './changes.ts';
import { isEvent } from './days.ts';
import { isFields } from './value.ts';

/** What a field is in: no figure at all, those of how things are now, or those of any day. */
type FigureReach = 'nowhere' | 'now' | 'ever';

/** What any record may have and no figure rests on: words, and answers to doubts. */
const IN_NO_FIGURE = ['note', 'checked'] as const;

/** The fields of definitions and settings that no event rests on; every other one reaches all days. */
type Unmoving<K extends keyof typeof MOVES> = {
  readonly [
    F in Exclude<
      keyof (typeof MOVES)[K],
      (typeof IN_NO_FIGURE)[number]
    > as (typeof MOVES)[K][F] extends 'nothing' ? F : never
  ]: FigureReach;
};

const STUDIO: Unmoving<'studio'> = {
  format: 'nowhere',
  name: 'nowhere',
  'weight-unit': 'now',
  'volume-unit': 'nowhere',
  'temperature-unit': 'nowhere',
  'year-starts': 'ever',
  basis: 'ever',
  'tax-sheet': 'ever',
  'leach-limits': 'now',
  'income-tax-rate': 'ever',
  'sales-tax': 'ever',
  'closed-through': 'nowhere',
  'lead-days': 'now',
  'hours-a-week': 'nowhere',
  'rest-days': 'nowhere',
  categories: 'ever',
  car: 'ever',
};
const MATERIALS: Unmoving<'materials'> = {
  name: 'nowhere',
  kind: 'ever',
  'reorder-at': 'now',
  'lead-days': 'now',
  supplier: 'now',
  contains: 'nowhere',
  analysis: 'nowhere',
};
const RECIPES: Unmoving<'recipes'> = {
  name: 'nowhere',
  cone: 'nowhere',
  'for-food': 'nowhere',
  'density-of-solids': 'nowhere',
};
const PRODUCTS: Unmoving<'products'> = {
  name: 'nowhere',
  price: 'now',
  wholesale: 'now',
  second: 'now',
  care: 'now',
  ware: 'now',
  keep: 'nowhere',
  discontinued: 'now',
};
const KILNS: Unmoving<'kilns'> = { name: 'nowhere', space: 'now', cooling: 'nowhere' };
const CHANNELS: Unmoving<'channels'> = { name: 'nowhere' };

/** Which figures a field reaches that no event rests on: the compiler finds one that is missing. */
const REACHES: Partial<Readonly<Record<Kind | 'studio', Readonly<Record<string, FigureReach>>>>> = {
  studio: { ...STUDIO, 'own-limits': 'now' },
  materials: MATERIALS,
  recipes: RECIPES,
  products: { ...PRODUCTS, size: 'nowhere' },
  kilns: KILNS,
  channels: CHANNELS,
  classes: { name: 'nowhere', places: 'now' },
};

/** Kinds whose records are in no figure. */
const WITHOUT_FIGURES: ReadonlySet<Kind | 'studio'> = new Set(['filed']);

function reachOf({ kind, became, fields }: RecordChange): FigureReach {
  if (became === 'moved' || WITHOUT_FIGURES.has(kind)) return 'nowhere';
  if (kind === 'tests') return 'now';
  if (became === 'added') return kind === 'tariffs' || isEvent(kind) ? 'ever' : 'now';
  if (became !== 'changed' && became !== 'renamed') return 'ever';
  const reaches = fields.map(({ path: [key = ''] }) => fieldReach(kind, String(key)));
  return (['ever', 'now'] as const).find((reach) => reaches.includes(reach)) ?? 'nowhere';
}

/** Which figures a field of a record, or of the settings, is in. */
export function fieldReach(kind: Kind | 'studio', key: string): FigureReach {
  if (IN_NO_FIGURE.some((word) => word === key)) return 'nowhere';
  return REACHES[kind]?.[key] ?? 'ever';
}

/** Whether any figure can be another for a change. */
export function reachesFigures(change: RecordChange): boolean {
  return reachOf(change) !== 'nowhere';
}

interface BothBooks {
  readonly old: Book;
  readonly now: Book;
}

/** The names of the quarters, up to the day, of which a figure can be another for the changes. */
export function quartersReached(
  changes: readonly RecordChange[],
  books: BothBooks,
  asOf: Day,
): readonly string[] {
  const reaching = changes.filter((change) => reachOf(change) === 'ever');
  if (reaching.length === 0) return [];
  const all = [books.old, books.now];
  const isAll = reaching.some(({ kind, before, after }) => {
    return !isEvent(kind) || [before, after].some(isOpening);
  });
  if (isAll) return quartersOfBooks(books, asOf);
  return quartersFrom(
    reaching.flatMap((each) => daysReached(each, all)),
    all,
    asOf,
  );
}

/** The names of all quarters that either book has something of, up to the day. */
export function quartersOfBooks({ old, now }: BothBooks, asOf: Day): readonly string[] {
  const all = [old, now];
  return quartersFrom(all.map(firstDay), all, asOf);
}

function quartersFrom(
  days: readonly (Day | undefined)[],
  books: readonly Book[],
  asOf: Day,
): readonly string[] {
  const [from = asOf] = days.filter((day) => day !== undefined).sort();
  const names = books.flatMap((book) => quartersBetween(book, from, asOf));
  return [...new Set(names)].sort();
}

/** What was there when the book began is in all that came of it. */
function isOpening(entry: Entry | undefined): boolean {
  const { materials = [], pieces = [] } = (entry ?? {}) as Partial<
    Record<string, readonly object[]>
  >;
  return [...materials, ...pieces].some((line) => 'cost' in line);
}

function daysReached({ before, after }: RecordChange, books: readonly Book[]): Day[] {
  const entries = [before, after].filter((entry) => entry !== undefined);
  const named = new Set(entries.flatMap((entry) => textsIn(entry)));
  // A fee counts meeting by meeting, and some may be over before it is taken.
  const meetings = books.flatMap(({ classes }) =>
    [...classes.values()].filter(({ id }) => named.has(id)).flatMap((each) => textsIn(each)),
  );
  return [...named, ...meetings].filter(isDay);
}

function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap(textsIn);
  return isFields(value) ? Object.values(value).flatMap(textsIn) : [];
}

function firstDay(book: Book): Day | undefined {
  const days = EVENT_KINDS.flatMap((kind) => {
    const records: Iterable<{ readonly date: Day }> = book[kind].values();
    return [...records].map(({ date }) => date);
  });
  const starts = [...book.classes.values()].map((each) => each.starts);
  return [...days, ...starts].reduce<Day | undefined>(
    (first, day) => (first === undefined || day < first ? day : first),
    undefined,
  );
}

function quartersBetween({ studio: { yearStarts } }: Book, from: Day, to: Day): string[] {
  const names: string[] = [];
  let quarter = quarterOn(from, yearStarts);
  while (quarter && quarter.from <= to) {
    names.push(quarter.name);
    quarter = quarterOn(addDays(quarter.to, 1), yearStarts);
  }
  return names;
}

/** The quarters of these names in a book's business year, as far as they began by the day. */
export function periodsNamed(
  { studio: { yearStarts } }: Book,
  names: readonly string[],
  asOf: Day,
): TaxPeriod[] {
  return names.flatMap((name) => {
    const period = taxPeriod(name, yearStarts);
    return period && period.from <= asOf ? [period] : [];
  });
}
