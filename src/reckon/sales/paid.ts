/** When something was paid. */
import { type Records, recordsHaving } from '../../among.ts';
import type { Book, Day, Paid, Spent } from '../../book.ts';

interface Payable {
  readonly date: Day;
  readonly paid?: Paid;
}

/** The day on which a record was paid, its own date where it says nothing; undefined while it is owed. */
export function paidOn({ date, paid = date }: Payable): Day | undefined {
  return paid === 'no' ? undefined : paid;
}

/** The records up to the day that are not paid by its end. */
export function unpaidBy<T extends Payable>(records: Records<T>, asOf: Day): T[] {
  return [...recordsHaving(records, 'paid')].filter((each) => isUnpaid(each, asOf));
}

/** Whether a record up to the day is not paid by its end. */
export function isUnpaid({ date, paid }: Payable, asOf: Day): boolean {
  return date <= asOf && paid !== undefined && (paid === 'no' || paid > asOf);
}

/** The category of payments of sales tax, unless a studio has one of its own by that name. */
export const SALES_TAX = 'sales-tax';

/**
 * Whether a record pays collected sales tax over: neither income nor an expense (IRS Publication 583,
 * sample record system).
 */
export function isPaidOver(
  { studio }: Pick<Book, 'studio'>,
  { for: category }: Pick<Spent, 'for'>,
): boolean {
  return category === SALES_TAX && studio.categories?.[SALES_TAX] === undefined;
}
