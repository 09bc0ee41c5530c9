/** The days that filings look at, so that the material value on them is noted on the way. */
import type { Book, Day, Filed } from '../book.ts';
import { addDays } from '../number/date.ts';
import { taxPeriod, type TaxPeriod } from './tax-period.ts';

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

/** The ends of those periods and the eves of their starts, up to a day: each once, in their order. */
export function filedDays(book: Book, asOf: Day): Day[] {
  const days = [...book.filed.values()].flatMap((filing) => {
    const period = filing.date <= asOf ? periodFiled(book, filing) : undefined;
    return period ? [addDays(period.from, -1), period.to] : [];
  });
  return [...new Set(days)].sort();
}
