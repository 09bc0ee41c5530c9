/** Where a book ends: what has to be known of its last day to put a sale behind all that is in it. */
import { KINDS, type Book, type Day, type Sale } from '../book.ts';
import { TIMELINE_KINDS } from '../reckon/timeline.ts';
import { KIND_LETTERS } from '../write/target.ts';

/** What JSON can keep of a book's end. */
export interface BookEnd {
  /** The last day on which stock or pieces move; empty for a book in which nothing does. */
  readonly day: Day;
  /** Whether there is a stocktake on that day: it comes after the day's sales. */
  readonly counted: boolean;
  /**
   * Products of which that day's sales name the lot or the glaze, or take something back: an earlier
   * sale of the day may leave such a line without its pieces, or come before those that are back.
   */
  readonly bound: readonly string[];
  /** Ids, in small letters, that a sale of that day or a later one must not get; sorted. */
  readonly ids: readonly string[];
}

/** Goes through the whole book. */
export function bookEnd(book: Book): BookEnd {
  const day = lastDay(book);
  const sales = [...book.sales.values()].filter(({ date }) => date === day);
  const lines = sales.flatMap((sale) => sale.lines).filter(isBound);
  const ids = KINDS.flatMap((kind) => [...book[kind].keys()]).map(inSmall);
  return {
    day,
    counted: [...book.counted.values()].some(({ date }) => date === day),
    bound: [...new Set(lines.flatMap(({ product }) => product ?? []))].sort(),
    ids: idsFrom(day, ids),
  };
}

/** The end of the book with one more sale, of its last day or a later one, of ware alone and of no named lot. */
export function endWithSale(end: BookEnd, { id, date }: Sale): BookEnd {
  const ids = idsFrom(date, [...end.ids, inSmall(id)]);
  return date === end.day
    ? { ...end, ids }
    : { day: date, counted: false, bound: [], ids };
}

/** A book's end that was kept; undefined where it is something else. */
export function asBookEnd(kept: unknown): BookEnd | undefined {
  const { day, counted, bound, ids } = (kept ?? {}) as Partial<BookEnd>;
  if (typeof day !== 'string' || typeof counted !== 'boolean') return undefined;
  return areTexts(bound) && areTexts(ids) ? { day, counted, bound, ids } : undefined;
}

/** Whether a new id of a sale on a day is a part of what is known: two centuries have the same digits. */
export function knowsIdsOf({ day: last }: BookEnd, day: Day): boolean {
  return centuryOf(last) === centuryOf(day) && last <= day;
}

function areTexts(kept: unknown): kept is readonly string[] {
  return Array.isArray(kept) && kept.every((each) => typeof each === 'string');
}

function lastDay(book: Book): Day {
  let last = '';
  const look = ({ date }: { readonly date: Day }): void => {
    if (date > last) last = date;
  };
  for (const kind of TIMELINE_KINDS) for (const record of book[kind].values()) look(record);
  for (const { lost = [], gone = [] } of book.pieces.values()) [...lost, ...gone].forEach(look);
  return last;
}

type Line = Sale['lines'][number];

function isBound({ lot, glaze, returned }: Line): boolean {
  return lot !== undefined || glaze !== undefined || returned === 'yes';
}

const SALE_ID = new RegExp(`^${KIND_LETTERS.sales}(\\d{6})`);

function idsFrom(day: Day, ids: readonly string[]): readonly string[] {
  const from = day.replaceAll('-', '').slice(2);
  const isLater = (id: string): boolean => {
    const [, date] = SALE_ID.exec(id) ?? [];
    return date !== undefined && date >= from;
  };
  return ids.filter(isLater).sort();
}

function centuryOf(day: Day): string {
  return day.slice(0, 2);
}

function inSmall(id: string): string {
  return id.toLowerCase();
}
