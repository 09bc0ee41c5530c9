/** The day that a record belongs to, and the days on which its money moves. */
import type { Consigned, Day, Entry, Kind } from '../book.ts';
import { EVENT_KINDS } from '../book.ts';
import { isDay } from '../number/date.ts';

const KINDS_OF_EVENTS: ReadonlySet<string> = new Set(EVENT_KINDS);

/** Whether a kind's records are of a day. */
export function isEvent(kind: Kind | 'studio'): boolean {
  return KINDS_OF_EVENTS.has(kind);
}

/** A record's own day: its date, or the day from which a tariff holds. */
export function dayOfRecord(entry: Entry | undefined): Day | undefined {
  const { date, from } = (entry ?? {}) as { readonly date?: unknown; readonly from?: unknown };
  const day = date ?? from;
  return typeof day === 'string' ? day : undefined;
}

/** The days on which a record may count: its own, those on which it was paid, and that of unloading. */
export function daysOf(entry: Entry | undefined): readonly Day[] {
  const day = dayOfRecord(entry);
  const { unloaded } = (entry ?? {}) as { readonly unloaded?: Day };
  const own = [day, unloaded].filter((each) => each !== undefined);
  return [...own, ...paidDays(entry).map(([, paid]) => paid)];
}

/** The days on which a record, or what is owed for its missing pieces, was paid, by where they stand. */
export function paidDays(entry: Entry | undefined): [key: string, day: Day][] {
  const { paid, missing = [] } = (entry ?? {}) as {
    readonly paid?: unknown;
    readonly missing?: Consigned['missing'];
  };
  const days: [string, unknown][] = [
    ['paid', paid],
    ...missing.map((line, index): [string, unknown] => [`missing.${index}.paid`, line.paid]),
  ];
  return days.filter(
    (each): each is [string, Day] => typeof each[1] === 'string' && isDay(each[1]),
  );
}

/** The days by which money is put into quarters, by their keys. */
export function moneyDays(entry: Entry): [key: string, day: Day][] {
  const { date, refunded = [] } = entry as {
    readonly date?: Day;
    readonly refunded?: readonly { readonly date: Day }[];
  };
  const own: [string, Day][] = date === undefined ? [] : [['date', date]];
  const back = refunded.map((each, index): [string, Day] => [`refunded.${index}.date`, each.date]);
  return [...own, ...paidDays(entry), ...back];
}
