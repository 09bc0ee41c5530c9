/** What galleries owe for pieces that they can no longer find: since when, and as income. */
import { recordsHaving } from '../among.ts';
import type { Book, Day, Paid } from '../book.ts';
import { NO_MONEY, type Money } from '../number/money.ts';
import { booked } from './booked.ts';
import { NOTHING_EARNED, type Basis, type IncomeFact } from './income-fact.ts';
import { paidOn } from './paid.ts';

/** One line of a consignment for which something is owed, or was. */
export interface MissingOwed {
  /** Id of the consignment. */
  readonly by: string;
  readonly channel: string;
  readonly date: Day;
  readonly amount: Money;
  /** Unlike a sale, a line that says nothing is not paid. */
  readonly paid: Paid;
}

/** All lines for which something is or was owed, in the order of the book. */
export function missingOwed(book: Book): MissingOwed[] {
  const consigned = [...recordsHaving(book.consigned, 'owed')];
  return consigned.flatMap(({ id: by, channel, date, missing = [] }) =>
    missing.flatMap(({ owed, paid = 'no' }) => {
      const amount = booked(book, owed);
      return amount === NO_MONEY ? [] : [{ by, channel, date, amount, paid }];
    }),
  );
}

/**
 * The lines of income that they make: on the date of the consignment on the accrual basis, on the day
 * of the payment on the cash basis. They have no cost, for what the pieces cost was lost already.
 */
export function missingFacts(
  book: Book,
  { basis, asOf }: { readonly basis: Basis; readonly asOf: Day },
): IncomeFact[] {
  return missingOwed(book).flatMap((owed) => {
    const { by, channel, date, amount: gross } = owed;
    const day = basis === 'accrual' ? date : paidOn(owed);
    // What was paid ahead is no income before the record's own date has come.
    if (day === undefined || date > asOf) return [];
    const head = {
      day,
      kind: 'missing',
      item: 'for missing pieces',
      buyer: undefined,
    } as const;
    return [{ ...NOTHING_EARNED, ...head, channel, by, gross }];
  });
}
