/** When something was paid. */
import { recordsHaving, type Records } from '../among.ts';
import type { Day, Paid } from '../book.ts';

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
