/** The one order in which events are reckoned, whatever files they stand in. */
import { isAmong, recordsDuring, type Days, type Records } from '../among.ts';
import type { Book, Day, RecordOf } from '../book.ts';

/** The order of events within one day; a kind that is named later sees what the earlier ones did. */
export const TIMELINE_KINDS = [
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

type TimelineKind = (typeof TIMELINE_KINDS)[number];

/** Where an event stands in time: its day, its turn within the day, and the id that decides between equals. */
export interface Turn {
  readonly day: Day;
  readonly turn: number;
  readonly id: string;
}

/** One event with its kind and its turn. */
export type Happening<K extends TimelineKind = TimelineKind> = {
  [One in K]: Turn & { readonly kind: One; readonly record: RecordOf[One] };
}[K];

/** The turn within a day of what happens right after all events of a kind. */
export function turnAfter(kind: TimelineKind): number {
  return TIMELINE_KINDS.indexOf(kind) + 0.5;
}

/** Compares by day, then by turn, then by id. */
export function byTurn(a: Turn, b: Turn): number {
  if (a.day !== b.day) return a.day < b.day ? -1 : 1;
  if (a.turn !== b.turn) return a.turn - b.turn;
  if (a.id === b.id) return 0;
  return a.id < b.id ? -1 : 1;
}

/** The events of the given kinds on those days, to be put into order by `byTurn`. */
export function happeningsOf<K extends TimelineKind>(
  book: Pick<Book, K>,
  days: Days,
  kinds: readonly K[],
): Happening<K>[] {
  return kinds.flatMap((kind) => happeningsOfKind(book, days, kind));
}

function happeningsOfKind<K extends TimelineKind>(
  book: Pick<Book, K>,
  days: Days,
  kind: K,
): Happening<K>[] {
  const turn = TIMELINE_KINDS.indexOf(kind);
  const happenings: Happening<K>[] = [];
  for (const record of recordsDuring(book[kind] as Records<RecordOf[K]>, days))
    if (isAmong(record.date, days))
      happenings.push({ kind, day: record.date, turn, id: record.id, record });
  return happenings;
}
