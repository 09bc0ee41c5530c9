/** Quarters of the business year: their names, and the days that they run from and to. */
import type { Book, Day, Filed } from '../../book.ts';
import { type Span, addDays, isDay, yearOf, yearSpan } from '../../number/date.ts';

/** A quarter of a business year, or the whole year. */
export interface TaxPeriod extends Span {
  /** `2026-Q2` or `2026`. */
  readonly name: string;
  /** The business year that it lies in, named by the calendar year that it starts in. */
  readonly year: string;
  /** First day of that year. */
  readonly yearFrom: Day;
}

const PERIOD_NAME = /^(\d{4})(?:-Q([1-4]))?$/i;

/**
 * The four quarters of a business year, one after the other without a gap. With a year from 04-06
 * they run to 5 July, 5 October, 5 January and 5 April. A start on a day that the month lacks is the
 * first of the next month.
 */
export function quartersOf(year: string, yearStarts = '01-01'): TaxPeriod[] {
  const { from, to } = yearSpan(year, yearStarts);
  const starts = [from, ...[3, 6, 9].map((months) => monthsLater(year, yearStarts, months))];
  return starts.map((start, index) => {
    const next = starts[index + 1];
    const name = `${year}-Q${index + 1}`;
    return { name, year, yearFrom: from, from: start, to: next ? addDays(next, -1) : to };
  });
}

/** The quarter that a day falls in. */
export function quarterOn(day: Day, yearStarts?: string): TaxPeriod | undefined {
  const quarters = quartersOf(yearOf(day, yearStarts), yearStarts);
  return quarters.find(({ from, to }) => day >= from && day <= to);
}

/** The period of a name: `2026-Q2`, or `2026` for the year; undefined for anything else. */
export function taxPeriod(name: string, yearStarts?: string): TaxPeriod | undefined {
  const [, year, quarter] = PERIOD_NAME.exec(name) ?? [];
  if (year === undefined) return undefined;
  if (quarter !== undefined) return quartersOf(year, yearStarts)[Number(quarter) - 1];
  const { from, to } = yearSpan(year, yearStarts);
  return { name: year, year, yearFrom: from, from, to };
}

function monthsLater(year: string, yearStarts: string, months: number): Day {
  const [month = 1, day = 1] = yearStarts.split('-').map(Number);
  const start = written(Number(year), month + months, day);
  return isDay(start) ? start : written(Number(year), month + months + 1, 1);
}

function written(year: number, month: number, day: number): Day {
  const years = year + Math.floor((month - 1) / 12);
  const parts = [((month - 1) % 12) + 1, day].map((part) => String(part).padStart(2, '0'));
  return [String(years).padStart(4, '0'), ...parts].join('-');
}

/** The period of a filing that was over when it was filed; undefined for any other. */
export function periodFiled(
  book: Pick<Book, 'studio'>,
  { period, date }: Filed,
): TaxPeriod | undefined {
  const filed = taxPeriod(period, book.studio.yearStarts);
  return filed && filed.to < date ? filed : undefined;
}

/** The business year that a period is in, by its name. */
export function yearOfPeriod(period: string): string {
  return period.slice(0, 4);
}
