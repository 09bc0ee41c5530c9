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
import type { Span } from '../../number/date.ts';
import { digitsOf } from '../booked.ts';
import { nextBusinessDay } from './tax-days.ts';
import {
  NOTHING_ASKED,
  askedInTurn,
  regularMethod,
  type Instalment,
  type RegularInstalment,
} from './instalments.ts';
import type { DuePeriod, SelfEmployment } from './tax-law.ts';
import { profitOnSheet, taxAccount } from './tax-profit.ts';
import { type TaxSheet, nextOn } from './tax-sheet.ts';
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
  /** The profit on the sheet, of the year up to its end. */
  readonly profit: Money;
  /** On a year's profit at that pace: profit to date × factor. */
  readonly annualised: TaxOn;
  /** The share of that tax that is asked by the day it is due, as a fraction of 1. */
  readonly share: Decimal;
  readonly asked: Instalment;
  /** Undefined where last year's tax is not known. */
  readonly regular: RegularInstalment | undefined;
}

/** What estimates go by, beside the sheet. */
interface EstimateAsked {
  readonly year: string;
  /** One's own rate of income tax, as a fraction of 1. */
  readonly rate?: Decimal | undefined;
}

/**
 * Estimates for the periods of a year that are over, in their order; none where the sheet has no figures
 * for it. Only for a year that starts on 1 January.
 * - annualized: of the tax on a year's profit at that pace, 22.5, 45, 67.5 and 90 % (IRS Form 2210,
 *   Schedule AI, lines 2, 3, 23 to 26)
 * - regular: a quarter of what has to be paid ahead, for each period (Form 2210, part I)
 */
export function estimatesOf(
  view: TaxView,
  sheet: TaxSheet,
  { year, rate }: EstimateAsked,
): Estimate[] {
  const { book } = view;
  const { selfEmployment, estimates } = sheet;
  if (!selfEmployment || !estimates || !hasFiguresFor(sheet, year) || !isCalendarYear(book))
    return [];
  const tax = (profit: Money): TaxOn => {
    const self = selfEmploymentTax(profit, selfEmployment, digitsOf(book));
    const incomeTax = rate && incomeTaxAt(rate, { profit, half: self.half });
    return { profit, self, incomeTax, together: add(self.tax, incomeTax ?? NO_MONEY) };
  };
  const { periods } = estimates;
  const over = periods.filter((each) => datesOf(each, year).to <= view.asOf);
  const reckoned = over.map((period) => {
    const { from, to, due } = datesOf(period, year);
    const account = taxAccount({ ...view, sheet }, { from, to });
    const profit = profitOnSheet(account, sheet, book.studio.categories);
    const { factor, share } = period;
    return { from, to, due, factor, share, profit, annualised: tax(fractionOf(profit, factor)) };
  });
  const asked = askedInTurn(
    reckoned.map(({ annualised, share }) => fractionOf(annualised.together, share)),
  );
  const regular = regularMethod(book, estimates, {
    year,
    taxes: reckoned.map(({ annualised }) => annualised.together),
  });
  return reckoned.map((each, at) => ({
    number: at + 1,
    ...each,
    asked: asked[at] ?? NOTHING_ASKED,
    regular: regular?.[at],
  }));
}

/** Which estimates a summary shows. */
interface ShownIn {
  readonly period: Span & { readonly year: string };
  readonly sheet: TaxSheet;
  /** The sheet of the year before, whose last payment is due in this one. */
  readonly sheetBefore?: TaxSheet | undefined;
  readonly rate?: Decimal | undefined;
}

/**
 * Those for the periods that end in the span, and those whose payment is still to be made on the view's
 * day, where that is in the span.
 */
export function estimatesIn(
  view: TaxView,
  { period, sheet, sheetBefore, rate }: ShownIn,
): Estimate[] {
  const isNow = view.asOf >= period.from && view.asOf <= period.to;
  const isOpen = ({ due }: Pick<Estimate, 'due'>): boolean => isNow && due >= view.asOf;
  const yearBefore = String(Number(period.year) - 1).padStart(4, '0');
  const last = sheetBefore?.estimates?.periods.at(-1);
  const before =
    sheetBefore && last && isOpen(datesOf(last, yearBefore))
      ? estimatesOf(view, sheetBefore, { year: yearBefore, rate })
      : [];
  const own = estimatesOf(view, sheet, { year: period.year, rate });
  return [
    ...before.filter(isOpen),
    ...own.filter((each) => isOpen(each) || (each.to >= period.from && each.to <= period.to)),
  ];
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
export function datesOf({ to, due }: DuePeriod, year: string): { from: Day; to: Day; due: Day } {
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
