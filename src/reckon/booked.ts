/** Amounts of the records as they are booked: in whole minor units of the studio's currency. */
import type { Book } from '../book.ts';
import type { Decimal } from '../number/decimal.ts';
import { NO_MONEY, minorDigits, roundedMoney, type Money } from '../number/money.ts';

/** How many decimals the amounts of a book have: two where its currency is not known. */
export function digitsOf({ studio }: Pick<Book, 'studio'>): number {
  return minorDigits(studio.currency) ?? 2;
}

/**
 * An amount of a record, or what a rate comes to: rounded once, a half away from zero. What a record
 * does not say is nothing.
 */
export function booked(book: Pick<Book, 'studio'>, amount: Decimal | undefined): Money {
  return amount ? roundedMoney(amount, digitsOf(book)) : NO_MONEY;
}
