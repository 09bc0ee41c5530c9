/** What lines come to so far: the money of a sale or purchase, the kiln space of a load. */
import type { Book, Kind } from '../../book.ts';
import { ZERO, roundTo, sum, type Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { spaceOf } from '../../reckon/firing-cost.ts';
import { saleMoney } from '../../reckon/sale-money.ts';

/** The last line's own share, and all lines together, in words; empty where there is nothing to say. */
export interface Progress {
  readonly line: string;
  readonly total: string;
}

const NONE: Progress = { line: '', total: '' };

/** How far a list of a record has come; its lines are those that the book has of it. */
export function progressOf(book: Book, { kind, field }: ListOf, id: string): Progress {
  if (field === 'load') return spaceTaken(book, id);
  if (field !== 'lines') return NONE;
  return moneyOf(book, kind === 'sales' ? saleAmounts(book, id) : costs(book, id));
}

/** A list field of a kind of record. */
export interface ListOf {
  readonly kind: Kind;
  readonly field: string;
}

/** What buyers pay for the lines of a sale, all discounts taken off; returns are negative. */
export function saleAmounts(book: Book, id: string): readonly Decimal[] {
  const sale = book.sales.get(id);
  if (!sale) return [];
  return saleMoney(book, sale, digitsOf(book)).lines.map((each) => {
    const amount = each.amount.plus(each.taxIncluded).minus(each.saleDiscount);
    return each.returned ? amount.neg() : amount;
  });
}

/** An amount with the currency's minor digits, rounded half up. */
export function inMoney(book: Book, amount: Decimal): string {
  const digits = digitsOf(book);
  return roundTo(amount, digits).toFixed(digits);
}

function digitsOf({ studio }: Book): number {
  return minorDigits(studio.currency) ?? 2;
}

function costs(book: Book, id: string): readonly Decimal[] {
  return (book.bought.get(id)?.lines ?? []).map(({ cost }) => cost);
}

function moneyOf(book: Book, amounts: readonly Decimal[]): Progress {
  const last = amounts.at(-1);
  if (!last) return NONE;
  const total = `total ${inMoney(book, sum(amounts))} ${book.studio.currency}`;
  return { line: inMoney(book, last), total };
}

function spaceTaken(book: Book, id: string): Progress {
  const firing = book.firings.get(id);
  const last = firing?.load.at(-1);
  if (!firing || !last) return NONE;
  const taken = firing.load.reduce((total, line) => total.plus(spaceOf(book, line)), ZERO);
  const space = book.kilns.get(firing.kiln)?.space;
  const of = space ? ` of ${space.toString()}` : '';
  return { line: spaceOf(book, last).toString(), total: `space ${taken.toString()}${of}` };
}
