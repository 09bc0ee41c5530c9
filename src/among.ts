/** Some of a book's records, or of what they came to, without a look at all the others. */
import type { Day } from './number/date.ts';

/** A stretch of days, both ends within; an absent end is open. */
export interface Days {
  readonly from?: Day | undefined;
  readonly to?: Day | undefined;
}

/** Days of which the last is known. */
export interface DaysUpTo extends Days {
  readonly to: Day;
}

/** Whether a day is among the days. */
export function isAmong(day: Day, { from, to }: Days): boolean {
  return (from === undefined || from <= day) && (to === undefined || day <= to);
}

/** What came of the events, in their order; a stretch of days may be had without the rest. */
export interface Facts<T> extends Iterable<T> {
  /** Those whose day may be among the days: none of them is left out, others may be there too. */
  readonly during?: (days: Days) => Iterable<T>;
}

/** Records by id, of which some may be had without the rest. */
export interface Records<T> extends ReadonlyMap<string, T> {
  /** Those that have a day of any kind (date, paid, unloaded, gone …) among the days. */
  readonly during?: (days: Days) => Iterable<T>;
  /** Those that have the key, written as in the file, anywhere in them. */
  readonly having?: (key: string) => Iterable<T>;
  /** Those in which one of the texts stands as a whole value or key, wherever that is. */
  readonly naming?: (texts: ReadonlySet<string>) => Iterable<T>;
}

/** Facts that may be of the days: whoever asks still leaves out what is not meant. */
export function factsDuring<T>(facts: Facts<T>, days: Days): Iterable<T> {
  return facts.during?.(days) ?? facts;
}

/** Records that may have a day among the days: whoever asks still leaves out what is not meant. */
export function recordsDuring<T>(records: Records<T>, days: Days): Iterable<T> {
  return records.during?.(days) ?? records.values();
}

/** Records that may have a key: whoever asks still leaves out what is not meant. */
export function recordsHaving<T>(records: Records<T>, key: string): Iterable<T> {
  return records.having?.(key) ?? records.values();
}

/** Records that may name one of the texts: whoever asks still leaves out what is not meant. */
export function recordsNaming<T>(records: Records<T>, texts: ReadonlySet<string>): Iterable<T> {
  return records.naming?.(texts) ?? records.values();
}

/** Records whose own date is among the days. */
export function recordsDated<T extends { readonly date: Day }>(
  records: Records<T>,
  days: Days,
): T[] {
  return [...recordsDuring(records, days)].filter(({ date }) => isAmong(date, days));
}
