/** Puts events into the one order in which they are reckoned, whatever files they stand in. */
import type { Book, Day, RecordOf } from '../book.ts';

/** The order of events within one day; a kind that is named later sees what the earlier ones did. */
const ORDER = [
  'bought',
  'reclaimed',
  'mixed',
  'pieces',
  'firings',
  'used',
  'consigned',
  'sales',
  'counted',
] as const;

export type TimelineKind = (typeof ORDER)[number];

/** One event with its kind; the key sorts it by date, kind and id. */
export type Happening<K extends TimelineKind = TimelineKind> = {
  [One in K]: { readonly kind: One; readonly key: string; readonly record: RecordOf[One] };
}[K];

/**
 * The events of the given kinds up to and with the day: by date, then by kind in the order of a
 * studio's day, then by id.
 */
export function timeline<K extends TimelineKind>(
  book: Book,
  asOf: Day,
  kinds: readonly K[],
): Happening<K>[] {
  return kinds.flatMap((kind) => happeningsOf(book, asOf, kind)).sort(byKey);
}

function happeningsOf<K extends TimelineKind>(book: Book, asOf: Day, kind: K): Happening<K>[] {
  const rank = String(ORDER.indexOf(kind));
  const records = [...(book[kind] as ReadonlyMap<string, RecordOf[K]>).values()];
  return records
    .filter((record) => record.date <= asOf)
    .map((record) => ({ kind, key: `${record.date}${rank}${record.id}`, record }));
}

function byKey(a: { key: string }, b: { key: string }): number {
  if (a.key === b.key) return 0;
  return a.key < b.key ? -1 : 1;
}
