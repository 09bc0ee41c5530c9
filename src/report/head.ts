/** What every table begins with, and small shapes that reports share. */
import type { Book, Day } from '../book.ts';
import { decimal, divide } from '../number/decimal.ts';
import { decimalOf, type Money } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Cell, Column, Table } from './table.ts';

/** Studio, day and currency of a table. */
export function tableHead(
  book: Book,
  asOf: Day,
): Pick<Table, 'studio' | 'asOf' | 'currency' | 'minorDigits'> {
  const { name, currency } = book.studio;
  return { studio: name, asOf, currency, minorDigits: digitsOf(book) };
}

/** A column of money. */
export function moneyColumn(key: string, title: string, more: Partial<Column> = {}): Column {
  return { key, title, type: 'money', ...more };
}

/** A column of money for one of something. */
export function rateColumn(key: string, title: string, more: Partial<Column> = {}): Column {
  return { key, title, type: 'rate', ...more };
}

/** A column of text. */
export function textColumn(key: string, title: string, more: Partial<Column> = {}): Column {
  return { key, title, type: 'text', ...more };
}

/** A stretch of days in words: `2025-01-01 to 2025-12-31`, `up to 2025-12-31`. */
export function spanInWords({ from, to }: { from?: Day | undefined; to: Day }): string {
  return from === undefined ? `up to ${to}` : `${from} to ${to}`;
}

/** An amount ÷ pieces, a ratio; null for none. */
export function perPiece(book: Book, amount: Money, pieces: number): Cell {
  if (pieces === 0) return null;
  return divide(decimalOf(amount, digitsOf(book)), decimal(pieces));
}
