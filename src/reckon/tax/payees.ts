/** What was paid to each payee in a year, for information returns. */
import { recordsDuring } from '../../among.ts';
import { grouped } from '../../grouping.ts';
import type { Span } from '../../number/date.ts';
import { roundedMoney, total, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import { paidOn } from '../sales/paid.ts';
import type { PayeeLaw } from './tax-law.ts';
import { countsIn, type TaxView } from './tax-view.ts';

/** One payee, with the payments. */
export interface Payee {
  readonly name: string;
  readonly amount: Money;
  readonly behind: readonly string[];
}

/**
 * Those who were paid the least of the law or more, by when they were paid on either basis; a name is the
 * same however it is capitalized.
 */
export function payeesOver(view: TaxView, period: Span, { categories, least }: PayeeLaw): Payee[] {
  const { book } = view;
  const paid = [...recordsDuring(book.spent, period)].filter(
    (spent) => categories.includes(spent.for) && countsIn(view, period, paidOn(spent)),
  );
  const limit = roundedMoney(least, digitsOf(book));
  return [...grouped(paid, ({ to }) => to.trim().toLowerCase()).values()]
    .map((payments) => ({
      name: payments[0]?.to ?? '',
      amount: total(payments.map(({ amount }) => booked(book, amount))),
      behind: payments.map(({ id }) => id).sort(),
    }))
    .filter(({ amount }) => amount >= limit)
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
