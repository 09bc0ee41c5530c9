/** When something was paid. */
import type { Day, Paid } from '../book.ts';

/** The day on which a record was paid, its own date where it says nothing; undefined while it is owed. */
export function paidOn({ date, paid = date }: { date: Day; paid?: Paid }): Day | undefined {
  return paid === 'no' ? undefined : paid;
}
