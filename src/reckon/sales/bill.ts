/** What a buyer is billed for a sale: every line and every sum as it is on the invoice. */
import type { NamedBook, Sale, SaleLine } from '../../book.ts';
import { NO_MONEY, less, opposite, times, total, type Money } from '../../number/money.ts';
import type { Decimal } from '../../number/decimal.ts';
import { booked } from '../booked.ts';
import { channelOf, placeOfTax, rateOn } from '../tax/taxed.ts';
import { dueLines } from './sale-lines.ts';
import { netOfLines, saleMoney } from './sale-money.ts';

/** A line as it is billed; what came back is below zero. */
export interface BilledLine {
  readonly line: SaleLine;
  /** For one, as the record has it. */
  readonly price: Money;
  /** Count × price. */
  readonly amount: Money;
  /** The line's own discount, to be taken off. */
  readonly discount: Money;
}

/** Sales tax of a bill; nothing is said of it where there is none. */
export interface BilledTax {
  readonly amount: Money;
  /** A fraction of 1, where one rate is on record. */
  readonly rate: Decimal | undefined;
  readonly place: string;
  /** Whether it is within the prices. */
  readonly isIncluded: boolean;
}

/** Lines − discounts + shipping + tax on top = total; total − commission − paid ahead = toPay. */
export interface Bill {
  readonly lines: readonly BilledLine[];
  /** The lines after their own discounts. */
  readonly subtotal: Money;
  /** The sale's discount. */
  readonly discount: Money;
  /** With a tax that is within it. */
  readonly shipping: Money;
  readonly tax: BilledTax | undefined;
  readonly total: Money;
  /** What a gallery keeps of it. */
  readonly commission: Money;
  readonly paidAhead: Money;
  readonly toPay: Money;
}

/** The bill of a sale; every amount is one that the sale was booked with. */
export function billOf(book: NamedBook, sale: Sale): Bill {
  const money = saleMoney(book, sale);
  const channel = channelOf(book, sale);
  const isIncluded = channel?.taxIncluded !== undefined;
  const due = dueLines(book, sale);
  const signed = (amount: Money, isBack: boolean): Money => (isBack ? opposite(amount) : amount);
  const lines = due.map(({ line, returned, lineDiscount }): BilledLine => {
    const price = booked(book, line.price);
    const amount = signed(times(price, line.count), returned);
    return { line, price, amount, discount: signed(lineDiscount, returned) };
  });
  const subtotal = total(lines.map(({ amount, discount }) => less(amount, discount)));
  const discount = total(due.map((line) => signed(line.saleDiscount, line.returned)));
  const charged = total([netOfLines(money.lines), money.shipping, money.tax]);
  const onTop = isIncluded ? NO_MONEY : money.tax;
  const commission = channel?.kind === 'consignment' ? money.commission : NO_MONEY;
  return {
    lines,
    subtotal,
    discount,
    shipping: less(charged, less(subtotal, discount), onTop),
    tax: taxOf(book, sale, { amount: money.tax, isIncluded }),
    total: charged,
    commission,
    paidAhead: money.advances,
    toPay: less(charged, commission, money.advances),
  };
}

function taxOf(
  book: NamedBook,
  sale: Sale,
  { amount, isIncluded }: Pick<BilledTax, 'amount' | 'isIncluded'>,
): BilledTax | undefined {
  if (amount === NO_MONEY) return undefined;
  const place = placeOfTax(book, sale);
  const rate = isIncluded
    ? channelOf(book, sale)?.taxIncluded
    : rateOn(book, place, sale.date)?.percent;
  return { amount, rate, place, isIncluded };
}
