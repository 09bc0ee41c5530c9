/** What was there when the book began: counted with a cost, and in the book from that day's start. */
import { isAmong, recordsHaving, type Days } from '../../among.ts';
import type { Book, Counted, Day, Lot } from '../../book.ts';
import type { Turn } from '../timeline.ts';
import { cachedFor } from '../../once.ts';

/** A count with a cost: before anything else of its day. */
export interface Opening extends Turn {
  readonly kind: 'opening';
  readonly record: Counted;
}

const BEFORE_ALL = -1;

/** The counts on those days of which a line has a cost. */
export function openings(book: Pick<Book, 'counted'>, days: Days): Opening[] {
  return [...recordsHaving(book.counted, 'cost')]
    .filter((record) => isAmong(record.date, days) && hasOpening(record))
    .map((record) => ({
      kind: 'opening',
      day: record.date,
      turn: BEFORE_ALL,
      id: record.id,
      record,
    }));
}

function hasOpening({ materials = [], pieces = [] }: Counted): boolean {
  return materials.some(isOpening) || pieces.some(isOpening);
}

/** Whether a line says what was there when the book began, and not what a stocktake found. */
export function isOpening({ cost }: { readonly cost?: unknown }): boolean {
  return cost !== undefined;
}

/** Whether a day is before the book begins: nothing moves stock then. */
export function isBeforeStart({ studio }: Pick<Book, 'studio'>, day: Day): boolean {
  return studio.starts !== undefined && day < studio.starts;
}

/** Lot → the first day on which it was counted with a cost. */
export const openedLots = cachedFor((book: Pick<Book, 'counted'>): ReadonlyMap<string, Day> => {
  const days = new Map<string, Day>();
  for (const { date, pieces = [] } of recordsHaving(book.counted, 'cost'))
    for (const { lot } of pieces.filter(isOpening)) noteOpened(days, lot, date);
  return days;
});

function noteOpened(days: Map<string, Day>, lot: string | undefined, day: Day): void {
  if (lot === undefined) return;
  const known = days.get(lot) ?? day;
  days.set(lot, known < day ? known : day);
}

/** Whether a lot was made before the book began: its record only names it. */
export function wasThere(book: Book, { id, date }: Lot): boolean {
  return isBeforeStart(book, date) || openedLots(book).has(id);
}
