/** Sales tax that was collected so far, by place, on both bases. */
import type { Day } from '../book.ts';
import { NO_MONEY, addUnder, type Money } from '../number/money.ts';
import type { SoldSale } from './earned.ts';
import type { Basis } from './income-fact.ts';

/** Place → tax on the sales so far; what was given back is taken off. */
export interface TaxSums {
  readonly accrual: Map<string, Money>;
  /** Of those that were paid on their own date or before it, or that long ago. */
  readonly cash: Map<string, Money>;
  /** Of those that are paid on a later day. */
  readonly later: TaxLater[];
}

interface TaxLater {
  readonly place: string;
  readonly day: Day;
  readonly amount: Money;
}

/** No tax yet. */
export function noTaxes(): TaxSums {
  return { accrual: new Map(), cash: new Map(), later: [] };
}

/** Counts the tax of one more sale. */
export function noteTax(sums: TaxSums, { tax: amount, place, date, paid }: SoldSale): void {
  if (amount === NO_MONEY) return;
  addUnder(sums.accrual, place, amount);
  if (paid === undefined) return;
  if (paid <= date) addUnder(sums.cash, place, amount);
  else sums.later.push({ place, day: paid, amount });
}

/** What was collected by the end of a day, of sales up to that of the sums. */
export function collectedBy(
  { accrual, cash, later }: TaxSums,
  basis: Basis,
  day: Day,
): Map<string, Money> {
  if (basis === 'accrual') return new Map(accrual);
  const all = new Map(cash);
  for (const paid of later) if (paid.day <= day) addUnder(all, paid.place, paid.amount);
  return all;
}

/** The same sums at the end of a day, with what was paid by then no longer apart. */
export function settledBy(sums: TaxSums, day: Day): TaxSums {
  const { accrual, later } = sums;
  const cash = collectedBy(sums, 'cash', day);
  return { accrual, cash, later: later.filter((paid) => paid.day > day) };
}
