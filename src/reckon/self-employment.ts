/** The self-employment tax of the United States, and what to set aside for it and for income tax. */
import { decimal, type Decimal } from '../number/decimal.ts';
import {
  NO_MONEY,
  add,
  fractionOf,
  less,
  lesser,
  roundedMoney,
  type Money,
} from '../number/money.ts';
import type { SelfEmployment } from './tax-sheet.ts';

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
export function incomeTaxAt(rate: Decimal, taxable: { profit: Money; half: Money }): Money {
  const base = less(taxable.profit, taxable.half);
  return base > NO_MONEY ? fractionOf(base, rate) : NO_MONEY;
}
