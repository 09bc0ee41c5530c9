/** What was paid to each payee in a year, for information returns. */
import { recordsDuring } from '../../among.ts';
import { grouped } from '../../grouping.ts';
import type { Day, Spent } from '../../book.ts';
import { roundedMoney, total } from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import { paidOn } from '../sales/paid.ts';
import { broughtBy, type Brought } from '../brought.ts';
import type { PayeeLaw } from './tax-law.ts';
import type { TaxPeriod } from './tax-period.ts';
import { countsIn, type TaxView } from './tax-view.ts';

/** One payee, with what each payment brings to the period, and to the year up to its end. */
export interface Payee {
  readonly name: string;
  readonly brought: Brought;
  readonly broughtToDate: Brought;
}

/**
 * Those who were paid the least of the law or more in the year up to the period's end, by when they were
 * paid on either basis; a name is the same however it is capitalized.
 */
export function payeesOver(
  view: TaxView,
  { from, to, yearFrom }: TaxPeriod,
  { categories, least }: PayeeLaw,
): Payee[] {
  const { book } = view;
  const year = { from: yearFrom, to };
  const paid = [...recordsDuring(book.spent, year)].filter(
    (spent) => categories.includes(spent.for) && countsIn(view, year, paidOn(spent)),
  );
  const limit = roundedMoney(least, digitsOf(book));
  const broughtFrom = (payments: readonly Spent[], first: Day): Brought =>
    broughtBy(
      payments
        .filter((spent) => (paidOn(spent) ?? '') >= first)
        .map(({ id, amount }) => [id, booked(book, amount)]),
    );
  return [...grouped(paid, ({ to: name }) => name.trim().toLowerCase()).values()]
    .map((payments) => ({
      name: payments[0]?.to ?? '',
      brought: broughtFrom(payments, from),
      broughtToDate: broughtFrom(payments, yearFrom),
    }))
    .filter(({ broughtToDate }) => total(broughtToDate.values()) >= limit)
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
