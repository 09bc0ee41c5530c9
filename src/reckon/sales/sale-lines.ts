/** The lines of a sale with their discounts: what is sold and what comes back, each in positive amounts. */
import type { Book, Discount, Sale, SaleLine } from '../../book.ts';
import {
  NO_MONEY,
  fractionOf,
  less,
  opposite,
  shareOut,
  times,
  total,
  type Money,
} from '../../number/money.ts';
import { booked } from '../booked.ts';

/** A line before the sale's own discount. */
export interface PricedLine {
  readonly line: SaleLine;
  readonly returned: boolean;
  readonly lineDiscount: Money;
  /** Count × price − line discount. */
  readonly after: Money;
}

/** A line with what the buyer is charged for it, or gets back. */
export interface DueLine extends PricedLine {
  readonly saleDiscount: Money;
  /** After both discounts, with a tax that the price includes. */
  readonly due: Money;
}

/** The lines of a sale, a line's own discount and its share of the sale's taken off. */
export function dueLines(book: Pick<Book, 'studio'>, sale: Sale): DueLine[] {
  const priced = sale.lines.map((line) => priceLine(book, line));
  const discounts = saleDiscounts(book, sale.discount, priced);
  return priced.map(({ line, returned, lineDiscount, after }, at) => {
    const saleDiscount = discounts[at] ?? NO_MONEY;
    return { line, returned, lineDiscount, after, saleDiscount, due: less(after, saleDiscount) };
  });
}

/** What buyers are charged for each line, after both discounts and with a tax that the price includes. */
export function lineDues(book: Pick<Book, 'studio'>, sale: Sale): Money[] {
  return dueLines(book, sale).map(({ due }) => due);
}

/** The side that amounts belong to: what comes back where nothing is sold. */
export function mainSide(lines: readonly PricedLine[]): boolean {
  return lines.every(({ returned }) => returned);
}

/**
 * What an amount that a sale states comes to: of a sale of returns alone it was given back, and what is
 * written below zero is below zero.
 */
export function statedIn({ lines }: Pick<Sale, 'lines'>, stated: Money): Money {
  const isAllBack = lines.every(({ returned }) => returned === 'yes');
  return isAllBack && stated > NO_MONEY ? opposite(stated) : stated;
}

/** Whether an amount that a sale states belongs to what comes back. */
export function isBack(lines: readonly PricedLine[], amount: Money): boolean {
  return mainSide(lines) || (amount < NO_MONEY && lines.some(({ returned }) => returned));
}

/** An amount shared over the lines of one side; the others get nothing. */
export function overSide<T extends PricedLine>(
  lines: readonly T[],
  returned: boolean,
  { amount, by }: { amount: Money; by: (line: T) => Money },
): Money[] {
  if (amount === NO_MONEY) return lines.map(() => NO_MONEY);
  const own = lines.filter((line) => line.returned === returned);
  const shares = shareOut(amount, own.map(by)).values();
  return lines.map((line) =>
    line.returned === returned ? (shares.next().value ?? NO_MONEY) : NO_MONEY,
  );
}

function priceLine(book: Pick<Book, 'studio'>, line: SaleLine): PricedLine {
  const price = times(booked(book, line.price), line.count);
  const lineDiscount = discountOf(book, line.discount, price);
  const returned = line.returned === 'yes';
  return { line, returned, lineDiscount, after: less(price, lineDiscount) };
}

/** Money off: the amount, or the percent of what it is off, rounded once. */
function discountOf(book: Pick<Book, 'studio'>, discount: Discount | undefined, of: Money): Money {
  if (!discount) return NO_MONEY;
  return discount.amount ? booked(book, discount.amount) : fractionOf(of, discount.percent);
}

/** A percentage is off both sides, an amount off one. */
function saleDiscounts(
  book: Pick<Book, 'studio'>,
  discount: Discount | undefined,
  priced: readonly PricedLine[],
): Money[] {
  if (!discount) return priced.map(() => NO_MONEY);
  const sides = discount.amount ? [mainSide(priced)] : [false, true];
  const shares = sides.map((returned) => {
    const own = priced.filter((line) => line.returned === returned);
    const amount = discountOf(book, discount, total(own.map(({ after }) => after)));
    return overSide(priced, returned, { amount, by: ({ after }) => after });
  });
  return priced.map((_, at) => total(shares.map((share) => share[at] ?? NO_MONEY)));
}
