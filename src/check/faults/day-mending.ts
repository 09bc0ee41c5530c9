/** Days and times in everyday writing, and how the book writes them. */
import { isDay, isTime } from '../../number/date.ts';

/** What a text that is no book date most likely means. */
export interface MendedDay {
  /** Whether the text is a real day in another way of writing. */
  readonly real: boolean;
  /** The days it may mean, as the book writes them. */
  readonly answers: readonly string[];
}

const YEAR_FIRST = /^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})(?:[T ].*)?$/;
const YEAR_LAST = /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(\d{4})$/;

/** The days that a text may mean: `2026/3/8` means one, `8/3/2026` two. */
export function mendedDay(text: string): MendedDay {
  const [, year = '', month = '', day = ''] = YEAR_FIRST.exec(text) ?? [];
  const [, one = '', other = '', yearLast = ''] = YEAR_LAST.exec(text) ?? [];
  const written = [
    iso(year, month, day),
    iso(yearLast, one, other),
    iso(yearLast, other, one),
  ].filter((answer) => answer !== text && isDay(answer));
  return { real: written.length > 0, answers: [...new Set(written)] };
}

function iso(year: string, month: string, day: string): string {
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}

const CLOCK = /^(\d{1,2})(?:[:.h](\d{2}))?\s*([ap]\.?m\.?)?$/i;

/** The time of day that a text most likely means: `06:30` of `6.30`, `18:30` of `6:30 pm`. */
export function mendedTime(text: string): string | undefined {
  const [, hour, minutes = '00', half] = CLOCK.exec(text.trim()) ?? [];
  if (hour === undefined) return undefined;
  const time = `${String(hourOf(Number(hour), half)).padStart(2, '0')}:${minutes}`;
  return isTime(time) ? time : undefined;
}

function hourOf(hour: number, half: string | undefined): number {
  if (half === undefined) return hour === 24 ? 0 : hour;
  return (hour % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
}

/** The quarter or year that a text most likely means: `2026-Q1` of `Q1 2026`, `2025` of `2025.0`. */
export function mendedPeriod(text: string): string | undefined {
  const [, year] = /(?:^|\D)((?:19|20)\d\d)(?:\D|$)/.exec(text) ?? [];
  if (year === undefined || !/q/i.test(text)) return year;
  const [, quarter] = /q\W*([1-4])(?:\D|$)/i.exec(text) ?? /(?:^|\D)([1-4])\W*q/i.exec(text) ?? [];
  return quarter === undefined ? undefined : `${year}-Q${quarter}`;
}

/** The span of hours that a text most likely means: `16:00-21:00` of `4pm – 9pm`. */
export function mendedSpan(text: string): string | undefined {
  const [from, to, more] = text.split(/\s*(?:-|–|to)\s*/).map(mendedTime);
  return from === undefined || to === undefined || more !== undefined ? undefined : `${from}-${to}`;
}
