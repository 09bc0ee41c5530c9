/** Amounts of the records as they are booked: in whole minor units of the studio's currency. */
import type { Book } from '../book.ts';
import type { Decimal } from '../number/decimal.ts';
import { NO_MONEY, minorDigits, roundedMoney, type Money } from '../number/money.ts';

/** How many decimals the amounts of a book have: two where its currency is not known. */
export function digitsOf({ studio }: Pick<Book, 'studio'>): number {
  return minorDigits(studio.currency) ?? 2;
}

/** What a product or a quotient comes to: rounded once, a half away from zero. */
export function rounded(book: Pick<Book, 'studio'>, amount: Decimal): Money {
  return roundedMoney(amount, digitsOf(book));
}

/** An amount that is written again and again is one object, so it is turned into an integer once. */
const bookedAmounts = new WeakMap<Decimal, readonly [money: Money, digits: number]>();

/** An amount of a record: rounded once, a half away from zero. What a record does not say is nothing. */
export function booked(book: Pick<Book, 'studio'>, amount: Decimal | undefined): Money {
  if (!amount) return NO_MONEY;
  const digits = digitsOf(book);
  const before = bookedAmounts.get(amount);
  if (before?.[1] === digits) return before[0];
  const money = roundedMoney(amount, digits);
  bookedAmounts.set(amount, [money, digits]);
  return money;
}
