/** Estimated tax of the United States: what to set aside for each period of the year, and until when. */
import type { Book, Day } from '../../book.ts';
import { type Decimal, decimal } from '../../number/decimal.ts';
import {
  type Money,
  NO_MONEY,
  add,
  fractionOf,
  less,
  lesser,
  roundedMoney,
} from '../../number/money.ts';
import { digitsOf } from '../booked.ts';
import type { Span } from '../../number/date.ts';
import { nextBusinessDay } from './tax-days.ts';
import { taxAccount } from './tax-profit.ts';
import { type EstimatePeriod, type SelfEmployment, type TaxSheet, nextOn } from './tax-sheet.ts';
import type { TaxView } from './tax-view.ts';

/** Tax on a profit: for oneself, and for income where a rate is known. */
interface TaxOn {
  readonly profit: Money;
  readonly self: SelfEmploymentTax;
  readonly incomeTax: Money | undefined;
  readonly together: Money;
}

/** One period of estimated tax, from the year's start to its end. */
export interface Estimate {
  /** 1 to 4. */
  readonly number: number;
  readonly from: Day;
  readonly to: Day;
  /** The ordinary day, or the next one that is neither a weekend nor a legal holiday. */
  readonly due: Day;
  readonly factor: Decimal;
  /** On the profit of the year up to its end. */
  readonly toDate: TaxOn;
  /** On a year's profit at that pace: profit to date × factor. */
  readonly annualised: TaxOn;
}

/** What estimates go by, beside the sheet. */
interface EstimateAsked {
  readonly period: Span & { readonly year: string };
  /** One's own rate of income tax, as a fraction of 1. */
  readonly rate?: Decimal | undefined;
}

/**
 * Estimates for the periods that end in the period asked for and are over; none where the sheet has
 * no figures for the year. Only for a year that starts on 1 January.
 */
export function estimatesIn(
  view: TaxView,
  sheet: TaxSheet,
  { period, rate }: EstimateAsked,
): Estimate[] {
  const { book } = view;
  const { selfEmployment, estimates = [] } = sheet;
  if (!selfEmployment || !hasFiguresFor(sheet, period.year) || !isCalendarYear(book)) return [];
  const tax = (profit: Money): TaxOn => {
    const self = selfEmploymentTax(profit, selfEmployment, digitsOf(book));
    const incomeTax = rate && incomeTaxAt(rate, { profit, half: self.half });
    return { profit, self, incomeTax, together: add(self.tax, incomeTax ?? NO_MONEY) };
  };
  return estimates.flatMap((each, index) => {
    const { from, to, due } = datesOf(each, period.year);
    if (to < period.from || to > period.to || to > view.asOf) return [];
    const { netProfit } = taxAccount(view, { from, to });
    const annualised = tax(fractionOf(netProfit, each.factor));
    return [
      { number: index + 1, from, to, due, factor: each.factor, toDate: tax(netProfit), annualised },
    ];
  });
}

/** Whether the sheet's rates are of that year; a sheet that names no year is for any. */
export function hasFiguresFor({ years }: TaxSheet, year: string): boolean {
  return years?.includes(year) ?? true;
}

/** Whether the business year is the calendar's, as the periods of estimated tax are. */
export function isCalendarYear({ studio }: Book): boolean {
  return (studio.yearStarts ?? '01-01') === '01-01';
}

/** A period of a year with the day when it is due. */
export function datesOf(
  { to, due }: EstimatePeriod,
  year: string,
): { from: Day; to: Day; due: Day } {
  const end = `${year}-${to}`;
  return { from: `${year}-01-01`, to: end, due: nextBusinessDay(nextOn(due, end)) };
}

/** The tax and how it comes about; every figure is rounded once. */
export interface SelfEmploymentTax {
  /** The part of the profit that is taxed; nothing where that is under the least. */
  readonly earnings: Money;
  readonly socialSecurity: Money;
  readonly medicare: Money;
  readonly tax: Money;
  /** What income is taxed without. */
  readonly half: Money;
}

/**
 * Earnings = profit × share; social security on them up to the wage base, Medicare on all; half of
 * the tax is deducted from income. Without wages elsewhere, and without the additional Medicare tax.
 * Source: IRS Schedule SE, Publication 505 (example 2.9 of that for 2001).
 */
export function selfEmploymentTax(
  profit: Money,
  figures: SelfEmployment,
  minorDigits: number,
): SelfEmploymentTax {
  const share = fractionOf(profit, figures.share);
  const earnings = share < roundedMoney(figures.least, minorDigits) ? NO_MONEY : share;
  const capped = lesser(earnings, roundedMoney(figures.wageBase, minorDigits));
  const socialSecurity = fractionOf(capped, figures.socialSecurity);
  const medicare = fractionOf(earnings, figures.medicare);
  const tax = add(socialSecurity, medicare);
  return { earnings, socialSecurity, medicare, tax, half: fractionOf(tax, HALF) };
}

const HALF = decimal('0.5');

/** Income tax at one's own rate (a fraction of 1) on the profit less half the self-employment tax. */
function incomeTaxAt(rate: Decimal, taxable: { profit: Money; half: Money }): Money {
  const base = less(taxable.profit, taxable.half);
  return base > NO_MONEY ? fractionOf(base, rate) : NO_MONEY;
}
