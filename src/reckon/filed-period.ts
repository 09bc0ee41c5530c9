/** The periods that filings are of. */
import type { Book, Filed } from '../book.ts';
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
