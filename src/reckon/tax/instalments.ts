/** What the methods of estimated tax ask for period by period, of the tax that they go by. */
import type { Book, TaxOfYear } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import { NO_MONEY, fractionOf, portionOf, roundedMoney, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import type { EstimateLaw, PaidAhead } from './tax-law.ts';

/** What is asked for by the day when a period is due. */
export interface Instalment {
  /** In all, with the periods before; never less than they asked. */
  readonly inAll: Money;
  /** Of that, for the periods before. */
  readonly before: Money;
}

export const NOTHING_ASKED: Instalment = { inAll: NO_MONEY, before: NO_MONEY };

/** By a method that goes by the tax of whole years. */
export interface RegularInstalment extends Instalment {
  /** What has to be paid ahead for the year. */
  readonly whole: Money;
  readonly lastYear: TaxOfYear;
  /** The part of last year's tax that it is, or of this year's, as a fraction of 1. */
  readonly share: Decimal;
  readonly isOfThisYear: boolean;
}

/** Sums that are asked for in turn: one that is less than the one before asks for no more. */
export function askedInTurn(sums: readonly Money[]): Instalment[] {
  let before = NO_MONEY;
  return sums.map((sum) => {
    const asked = { before, inAll: sum > before ? sum : before };
    before = asked.inAll;
    return asked;
  });
}

/** The year, and its tax at the pace of each period that is over; that of the last one is the year's own. */
interface YearAsked {
  readonly year: string;
  readonly taxes: readonly Money[];
}

/**
 * The same part for each period of what has to be paid ahead: last year's tax, or more where its income
 * was high; once the year is over, a share of its own tax where that is less (IRS Form 2210, part I).
 * Undefined where last year's tax is not known.
 */
export function regularMethod(
  book: Pick<Book, 'studio'>,
  { periods, paidAhead }: EstimateLaw,
  { year, taxes }: YearAsked,
): RegularInstalment[] | undefined {
  const lastYear = book.studio.taxYears?.find((each) => Number(each.year) === Number(year) - 1);
  if (!lastYear || !paidAhead) return undefined;
  const share = shareOfLast(book, paidAhead, lastYear);
  const byLast = fractionOf(booked(book, lastYear.tax), share);
  const wholes = taxes.map((tax, at) => {
    const byThis = fractionOf(tax, paidAhead.ofThisYear);
    const isOfThisYear = at === periods.length - 1 && byThis < byLast;
    return isOfThisYear
      ? { whole: byThis, share: paidAhead.ofThisYear, isOfThisYear }
      : { whole: byLast, share, isOfThisYear };
  });
  const asked = askedInTurn(
    wholes.map(({ whole }, at) => portionOf(whole, BigInt(at + 1), BigInt(periods.length))),
  );
  return wholes.map((each, at) => ({ ...each, lastYear, ...(asked[at] ?? NOTHING_ASKED) }));
}

function shareOfLast(
  book: Pick<Book, 'studio'>,
  { ofLastYear, above }: PaidAhead,
  { income }: TaxOfYear,
): Decimal {
  const limit = roundedMoney(above.income, digitsOf(book));
  return booked(book, income) > limit ? above.ofLastYear : ofLastYear;
}
