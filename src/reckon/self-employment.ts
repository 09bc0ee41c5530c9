/** The self-employment tax of the United States, and what to set aside for it and for income tax. */
import { ZERO, decimal, divide, roundTo, type Decimal } from '../number/decimal.ts';
import type { SelfEmployment } from './tax-sheet.ts';

/** The tax and how it comes about; every figure is rounded half up to the minor unit. */
export interface SelfEmploymentTax {
  /** The part of the profit that is taxed; zero where that is under the least. */
  readonly earnings: Decimal;
  readonly socialSecurity: Decimal;
  readonly medicare: Decimal;
  readonly tax: Decimal;
  /** What income is taxed without. */
  readonly half: Decimal;
}

/**
 * Earnings = profit × share; social security on them up to the wage base, Medicare on all; half of
 * the tax is deducted from income. Without wages elsewhere, and without the additional Medicare tax.
 * Source: IRS Schedule SE, Publication 505 (example 2.9 of that for 2001).
 */
export function selfEmploymentTax(
  profit: Decimal,
  figures: SelfEmployment,
  minorDigits: number,
): SelfEmploymentTax {
  const rounded = (amount: Decimal): Decimal => roundTo(amount, minorDigits);
  const share = rounded(profit.times(figures.share));
  const earnings = share.lt(figures.least) ? ZERO : share;
  const capped = earnings.lt(figures.wageBase) ? earnings : figures.wageBase;
  const socialSecurity = rounded(capped.times(figures.socialSecurity));
  const medicare = rounded(earnings.times(figures.medicare));
  const tax = socialSecurity.plus(medicare);
  return { earnings, socialSecurity, medicare, tax, half: rounded(divide(tax, decimal(2))) };
}

/** Income tax at one's own rate (a fraction of 1) on the profit less half the self-employment tax. */
export function incomeTaxAt(
  rate: Decimal,
  taxable: { profit: Decimal; half: Decimal },
  minorDigits: number,
): Decimal {
  const base = taxable.profit.minus(taxable.half);
  return base.gt(ZERO) ? roundTo(base.times(rate), minorDigits) : ZERO;
}
