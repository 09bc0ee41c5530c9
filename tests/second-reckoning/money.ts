/** Amounts of a book in whole minor units. */
import type { Book } from '../../src/book.ts';
import type { Decimal } from '../../src/number/decimal.ts';
import { minorDigits } from '../../src/number/money.ts';
import { R, exact, fraction, times, type Fraction } from './fraction.ts';

/** How many minor units one unit of the currency has. */
export function minorUnits({ studio }: Book): Fraction {
  return fraction(10n ** BigInt(minorDigits(studio.currency) ?? 2));
}

/** A price or rate of the book in minor units, exactly. */
export function priceIn(book: Book, price: Decimal | undefined): Fraction {
  return times(exact(price), minorUnits(book));
}

/** An amount of money of the book. */
export function moneyIn(book: Book, amount: Decimal | undefined): bigint {
  return R(priceIn(book, amount));
}
