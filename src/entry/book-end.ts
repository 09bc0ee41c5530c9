/** Where a book ends: what has to be known of its last day to put a sale behind all that is in it. */
import type { Day, Sale } from '../book.ts';
import { KIND_LETTERS } from '../write/target.ts';
import { NOTHING_HELD, areTexts, asHoldings, type Holdings } from './held.ts';

/** What JSON can keep of a book's end. */
export interface BookEnd {
  /** The last day on which stock or pieces move or something is filed; empty for a book in which nothing does. */
  readonly day: Day;
  /** What the stocktakes of that day count, as it was before them: they come after the day's sales. */
  readonly uncounted: Holdings;
  /**
   * Products of which that day's sales name the lot or the glaze, or take something back, and those
   * that are counted by glaze or without a grade: an earlier sale of the day may leave such a line
   * without its pieces, come before those that are back, or change what the stocktake finds.
   */
  readonly bound: readonly string[];
  /**
   * The day from which on nothing that is found or held changes by the mere passing of time: the last
   * of all dates, whatever they are of. What classes and fairs have ahead of them decides on nothing.
   */
  readonly settled: Day;
  /** Ids, in small letters, that a sale of that day or a later one must not get; sorted. */
  readonly ids: readonly string[];
}

/** All that has to be known of a book to look at a sale behind it. */
export interface KnownEnd {
  /** What is held at the end of the day that the book is looked at. */
  readonly held: Holdings;
  readonly end: BookEnd;
}

/**
 * The end of the book with one more sale, of its last day or a later one.
 * @param uncounted what is left by the sale of what the last day's stocktakes count
 */
export function endWithSale(end: BookEnd, sale: Sale, uncounted: Holdings): BookEnd {
  const { id, date, paid = 'no' } = sale;
  const ids = idsFrom(date, [...end.ids, id]);
  const settled = [end.settled, date, ...(paid === 'no' ? [] : [paid])].reduce(later);
  return date === end.day
    ? { ...end, uncounted, settled, ids }
    : { day: date, uncounted: NOTHING_HELD, bound: [], settled, ids };
}

function later(one: Day, other: Day): Day {
  return one > other ? one : other;
}

/** A book's end that was kept; undefined where it is something else. */
export function asBookEnd(kept: unknown): BookEnd | undefined {
  const { day, uncounted, bound, settled, ids } = (kept ?? {}) as Partial<BookEnd>;
  const known = asHoldings(uncounted);
  if (typeof day !== 'string' || typeof settled !== 'string' || !known) return undefined;
  if (!Array.isArray(bound) || !Array.isArray(ids)) return undefined;
  if (!areTexts(bound) || !areTexts(ids)) return undefined;
  return { day, uncounted: known, bound, settled, ids };
}

/** Whether the ids of sales of a day are among those that are known: two centuries have the same digits. */
export function knowsIdsOf({ day: last }: BookEnd, day: Day): boolean {
  return last <= day && last.slice(0, 2) === day.slice(0, 2);
}

const SALE_ID = new RegExp(`^${KIND_LETTERS.sales}(\\d{6})`);

/** Those of the ids, in small letters, that sales of a day or of a later one might get; sorted. */
export function idsFrom(day: Day, ids: readonly string[]): readonly string[] {
  const from = day.replaceAll('-', '').slice(2);
  const isLater = (id: string): boolean => {
    const [, date] = SALE_ID.exec(id) ?? [];
    return date !== undefined && date >= from;
  };
  return ids
    .map((id) => id.toLowerCase())
    .filter(isLater)
    .sort();
}
