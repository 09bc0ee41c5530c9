/** The periods that places want sales tax returns for. */
import type { Book, Day, PlaceRate } from '../../book.ts';
import { addDays, endOfMonth, monthOf, type Span } from '../../number/date.ts';
import { quarterOn } from './tax-period.ts';
import { rateOn } from './taxed.ts';

/** A month, a quarter or a year, by its name: `2026-04`, `2026-Q2`, `2026`. */
export interface FilingPeriod extends Span {
  readonly name: string;
}

type FilingBook = Pick<Book, 'studio'>;
type FilingEvery = PlaceRate['filing'];

/**
 * The periods of a place that end in a span, in their order: of the calendar, as its entry that is in
 * force when one begins says; quarters of the business year where none says. A change ends the period
 * that it falls in.
 */
export function filingPeriods(book: FilingBook, place: string, { from, to }: Span): FilingPeriod[] {
  const periods: FilingPeriod[] = [];
  let day = firstOfYear(from);
  while (day <= to) {
    const period = periodFrom(book, place, day);
    if (period.to >= from && period.to <= to) periods.push(period);
    day = addDays(period.to, 1);
  }
  return periods;
}

/** The first day that a period which ends on a day or later can begin on. */
export function firstOfYear(day: Day): Day {
  return `${day.slice(0, 4)}-01-01`;
}

function periodFrom(book: FilingBook, place: string, from: Day): FilingPeriod {
  const filing = rateOn(book, place, from)?.filing;
  const { name, to } = wholePeriod(book, filing, from);
  const change = (book.studio.taxes ?? [])
    .filter((each) => each.place === place && each.filing !== filing)
    .map((each) => each.from)
    .filter((day) => day > from && day <= to)
    .sort()[0];
  return { name, from, to: change === undefined ? to : addDays(change, -1) };
}

function wholePeriod(
  { studio }: FilingBook,
  filing: FilingEvery,
  day: Day,
): { readonly name: string; readonly to: Day } {
  const year = day.slice(0, 4);
  const ofYear = { name: year, to: `${year}-12-31` };
  if (filing === 'yearly') return ofYear;
  if (filing === 'monthly') return { name: monthOf(day), to: endOfMonth(day) };
  return quarterOn(day, filing === 'quarterly' ? undefined : studio.yearStarts) ?? ofYear;
}
