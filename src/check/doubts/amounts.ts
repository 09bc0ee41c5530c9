/** Amounts as doubts compare and tell them. */
import type { NamedBook } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { cachedFor } from '../../once.ts';

/** A sum of money as it is told: with the currency's decimals, or with all that it has. */
export function moneyAsTold({ studio }: NamedBook, amount: Decimal): string {
  const digits = minorDigits(studio.currency) ?? 0;
  return amount.toFixed(Math.max(digits, amount.decimalPlaces()));
}

/** The size of an amount, found once for all figures that are written alike. */
export const sizeAsNumber = cachedFor((amount: Decimal): number => amount.toNumber());

/** Whether there is such an amount, and it is above zero. */
export function isAbove(amount: Decimal | undefined): amount is Decimal {
  return amount !== undefined && !amount.isZero() && !amount.isNegative();
}
