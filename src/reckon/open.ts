/** What is not settled yet, so that nobody has to look through all that ever was for it. */
import type { Day, Firing, FiringKind } from '../book.ts';
import type { SoldSale } from './sales/earned.ts';
import { outcomeBy } from './kilns/out-of-kiln.ts';
import { type Money, NO_MONEY, addUnder } from '../number/money.ts';
import type { Basis } from './sales/income-fact.ts';

/** Sales that are owed, firings that are in the kiln, and what each kiln has fired so far. */
export interface Open {
  /** Sale → the later day on which it is paid; undefined while it is owed. */
  readonly sales: Map<string, Day | undefined>;
  /** Firings of which pieces have no outcome yet. */
  readonly firings: Set<string>;
  /** Kinds of firing that any kiln had → the kilns. */
  readonly fired: Map<FiringKind, Set<string>>;
}

/** Nothing has happened. */
export function nothingOpen(): Open {
  return { sales: new Map(), firings: new Set(), fired: new Map() };
}

/** Notes a sale that is not paid on its day. */
export function noteOwed({ sales }: Open, { id, date, paid }: SoldSale): void {
  if (paid === undefined || paid > date) sales.set(id, paid);
}

/** Notes how a firing stands on a day: that of its own, and that on which it is unloaded. */
export function noteInKiln({ firings, fired }: Open, firing: Firing, day: Day): void {
  const { id, kind, kiln } = firing;
  fired.set(kind, (fired.get(kind) ?? new Set()).add(kiln));
  if (countStillIn(firing, day) > 0) firings.add(id);
  else firings.delete(id);
}

/** The pieces in a firing that have no outcome by the end of a day. */
export function countStillIn(firing: Firing, asOf: Day): number {
  const still = firing.load.filter((line) => outcomeBy(asOf, firing, line) === undefined);
  return still.reduce((count, line) => count + line.in, 0);
}

/** The same at the end of a day, without the sales that were paid by then. */
export function openBy({ sales, firings, fired }: Open, day: Day): Open {
  const owed = [...sales].filter(([, paid]) => paid === undefined || paid > day);
  return { sales: new Map(owed), firings, fired };
}

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
