/** The day that a record belongs to, and the days on which its money moves. */
import type { Day, Entry, Kind } from '../book.ts';
import { EVENT_KINDS } from '../book.ts';
import { isDay } from '../number/date.ts';

const EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

/** Whether a kind's records are of a day. */
export function isEvent(kind: Kind | 'studio'): boolean {
  return EVENTS.has(kind);
}

/** A record's own day: its date, or the day from which a tariff holds. */
export function dayOf(entry: Entry | undefined): Day | undefined {
  const { date, from } = (entry ?? {}) as { readonly date?: unknown; readonly from?: unknown };
  const day = date ?? from;
  return typeof day === 'string' ? day : undefined;
}

/** The days on which a record may count: its own, and the one on which it was paid. */
export function daysOf(entry: Entry | undefined): readonly Day[] {
  const { paid } = (entry ?? {}) as { readonly paid?: unknown };
  const days = [dayOf(entry), typeof paid === 'string' && isDay(paid) ? paid : undefined];
  return days.filter((day) => day !== undefined);
}
