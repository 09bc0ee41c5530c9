/** The money of a sale, line by line: every cent of a discount, fee, commission or tax lands on a line. */
import type { Book, Channel, Discount, Sale, SaleLine } from '../book.ts';
import { ONE, ZERO, type Decimal } from '../number/decimal.ts';
import {
  NO_MONEY,
  add,
  fractionOf,
  less,
  opposite,
  portionBy,
  shareOut,
  times,
  total,
  type Money,
} from '../number/money.ts';
import { booked } from './booked.ts';

/** One line's money; every figure is positive, also of a return. */
export interface LineMoney {
  readonly line: SaleLine;
  readonly returned: boolean;
  /** Net + discounts: count × price, without a tax that the price includes. */
  readonly gross: Money;
  /** The line's own discount and its share of the sale's, without the tax in them. */
  readonly discounts: Money;
  /** What it comes to after both discounts, without a tax that the price includes. */
  readonly net: Money;
  /** Sales tax that was in the price; never income. */
  readonly taxIncluded: Money;
  /** Its share of the fee, and of the commission. */
  readonly fee: Money;
  readonly commission: Money;
}

/** The money of one sale. */
export interface SaleMoney {
  readonly lines: readonly LineMoney[];
  /** Without a tax that is in it. */
  readonly shipping: Money;
  readonly fee: Money;
  readonly commission: Money;
  /** Sales tax collected, on top of the prices or within them; negative where it was given back. */
  readonly tax: Money;
  /** What was paid beforehand of what the buyer is charged. */
  readonly advances: Money;
}

/** A line before the sale's own discount. */
interface PricedLine {
  readonly line: SaleLine;
  readonly returned: boolean;
  readonly lineDiscount: Money;
  /** Count × price − line discount. */
  readonly after: Money;
}

/** A line with what the buyer is charged for it, or gets back. */
interface DueLine extends PricedLine {
  readonly saleDiscount: Money;
  /** After both discounts, with a tax that the price includes. */
  readonly due: Money;
}

/**
 * What is sold and what comes back are two sides of a sale, each in positive amounts. A percentage is
 * taken of each side once, an amount belongs to the side that is sold, or where nothing is, to the side
 * that comes back; both are shared by largest remainder.
 */
export function saleMoney(book: Book, sale: Sale): SaleMoney {
  const channel = book.channels.get(sale.channel);
  const lines = dueLines(book, sale);
  const shipping = booked(book, sale.shipping);
  const within = taxesWithin(book, sale, lines);
  const onTop = channel?.taxIncluded ? NO_MONEY : onTopOf(lines, booked(book, sale.tax));
  const advances = total((sale.advances ?? []).map(({ amount }) => booked(book, amount)));
  const sum = signedSum(lines, dueOf);
  // What was paid beforehand was charged its fee then.
  const charged = less(total([sum, shipping, onTop]), advances);
  const fee = sale.fee ? booked(book, sale.fee) : channelFee(book, channel, charged);
  const commission = sale.commission ? booked(book, sale.commission) : agreedOn(channel, lines);
  const fees = overSide(lines, mainSide(lines), { amount: fee, by: dueOf });
  const commissions = overSide(lines, mainSide(lines), { amount: commission, by: dueOf });
  return {
    lines: lines.map((line, at) => ({
      ...netOfTax(line, channel?.taxIncluded, within.lines[at] ?? NO_MONEY),
      fee: fees[at] ?? NO_MONEY,
      commission: commissions[at] ?? NO_MONEY,
    })),
    shipping: less(shipping, within.shipping),
    fee,
    commission,
    tax: total([onTop, within.shipping, signedSum(lines, (_, at) => within.lines[at] ?? NO_MONEY)]),
    advances,
  };
}

/** What buyers are charged for each line, after both discounts and with a tax that the price includes. */
export function lineDues(book: Book, sale: Sale): Money[] {
  return dueLines(book, sale).map(dueOf);
}

/** The channel's share of a sale as it was agreed, rounded once, whatever the sale says of it. */
export function agreedCommission(book: Book, channel: Channel | undefined, sale: Sale): Money {
  return agreedOn(channel, dueLines(book, sale));
}

function agreedOn(channel: Channel | undefined, lines: readonly DueLine[]): Money {
  return fractionOf(signedSum(lines, dueOf), channel?.commission ?? ZERO);
}

/** What a channel takes of an amount that comes in through it, rounded once; nothing of nothing. */
export function channelFee(book: Book, channel: Channel | undefined, charged: Money): Money {
  if (charged <= NO_MONEY) return NO_MONEY;
  const percent = fractionOf(charged, channel?.feePercent ?? ZERO);
  return add(percent, booked(book, channel?.feeEach));
}

function dueLines(book: Book, sale: Sale): DueLine[] {
  const priced = sale.lines.map((line) => priceLine(book, line));
  const discounts = saleDiscounts(book, sale.discount, priced);
  return priced.map((line, at) => {
    const saleDiscount = discounts[at] ?? NO_MONEY;
    return { ...line, saleDiscount, due: less(line.after, saleDiscount) };
  });
}

function priceLine(book: Book, line: SaleLine): PricedLine {
  const price = times(booked(book, line.price), line.count);
  const lineDiscount = discountOf(book, line.discount, price);
  const returned = line.returned === 'yes';
  return { line, returned, lineDiscount, after: less(price, lineDiscount) };
}

/** Money off: the amount, or the percent of what it is off, rounded once. */
function discountOf(book: Book, discount: Discount | undefined, of: Money): Money {
  if (!discount) return NO_MONEY;
  return discount.amount ? booked(book, discount.amount) : fractionOf(of, discount.percent);
}

/** A percentage is off both sides, an amount off one. */
function saleDiscounts(
  book: Book,
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

/** The side that amounts belong to: what comes back where nothing is sold. */
function mainSide(lines: readonly PricedLine[]): boolean {
  return lines.every(({ returned }) => returned);
}

/** An amount shared over the lines of one side; the others get nothing. */
function overSide<T extends PricedLine>(
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

/** Tax on top of a sale of returns alone was given back. */
function onTopOf(lines: readonly PricedLine[], tax: Money): Money {
  return mainSide(lines) ? opposite(tax) : tax;
}

interface TaxesWithin {
  readonly lines: readonly Money[];
  readonly shipping: Money;
}

/**
 * Tax within the prices of each side: r ÷ (1 + r) of what is charged, shipping with it, once; the sale's
 * own tax stands over that of the side that it belongs to. (120 at 20 % holds 20: the VAT fraction of
 * HMRC's VAT guide.)
 */
function taxesWithin(book: Book, sale: Sale, lines: readonly DueLine[]): TaxesWithin {
  const rate = book.channels.get(sale.channel)?.taxIncluded;
  if (!rate) return { lines: lines.map(() => NO_MONEY), shipping: NO_MONEY };
  const own = sale.tax ? booked(book, sale.tax) : undefined;
  const taxOf = (returned: boolean, charged: Money): Money =>
    own !== undefined && mainSide(lines) === returned ? own : taxIn(rate, charged);
  const shipping = booked(book, sale.shipping);
  const sold = lines.filter(({ returned }) => !returned).map(dueOf);
  const weights = [...sold, shipping];
  const shares = shareOut(taxOf(false, total(weights)), weights);
  const back = lines.filter(({ returned }) => returned).map(dueOf);
  const sides = [shares.values(), shareOut(taxOf(true, total(back)), back).values()] as const;
  return {
    lines: lines.map(({ returned }) => sides[returned ? 1 : 0].next().value ?? NO_MONEY),
    shipping: shares.at(-1) ?? NO_MONEY,
  };
}

function taxIn(rate: Decimal, amount: Money): Money {
  return portionBy(amount, rate, rate.plus(ONE));
}

function netOfTax(
  { line, returned, lineDiscount, saleDiscount, due }: DueLine,
  rate: Decimal | undefined,
  taxIncluded: Money,
): Omit<LineMoney, 'fee' | 'commission'> {
  const off = add(lineDiscount, saleDiscount);
  const discounts = rate ? less(off, taxIn(rate, off)) : off;
  const net = less(due, taxIncluded);
  return { line, returned, gross: add(net, discounts), discounts, net, taxIncluded };
}

function dueOf({ due }: DueLine): Money {
  return due;
}

function signedSum<T extends PricedLine>(
  lines: readonly T[],
  amountOf: (line: T, at: number) => Money,
): Money {
  return total(
    lines.map((line, at) => {
      const amount = amountOf(line, at);
      return line.returned ? opposite(amount) : amount;
    }),
  );
}
