/** The money of a sale, line by line: every cent of a discount, fee, commission or tax lands on a line. */
import type { Channel, NamedBook, Sale, SaleLine } from '../../book.ts';
import { type Decimal, ONE, ZERO } from '../../number/decimal.ts';
import {
  type Money,
  NO_MONEY,
  add,
  fractionOf,
  less,
  opposite,
  portionBy,
  shareOut,
  total,
} from '../../number/money.ts';
import { booked } from '../booked.ts';
import {
  type DueLine,
  type PricedLine,
  dueLines,
  isBack,
  mainSide,
  overSide,
  statedIn,
} from './sale-lines.ts';
import { channelOf, placeOfTax, rateOn, saidOf, taxedKindOf, taxesKind } from '../tax/taxed.ts';

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
  /** Without a tax that is in it; negative where it was given back, as fee and commission are. */
  readonly shipping: Money;
  readonly fee: Money;
  readonly commission: Money;
  /** Sales tax collected, on top of the prices or within them; negative where it was given back. */
  readonly tax: Money;
  /** What was paid beforehand of what the buyer is charged. */
  readonly advances: Money;
  /** What the buyer pays for it: lines after discounts, shipping and tax on top, less advances. */
  readonly due: Money;
  /** How much of that went through the card: what the sale says, else all of it. */
  readonly card: Money;
}

/**
 * What is sold and what comes back are two sides of a sale, each in positive amounts. A percentage is
 * taken of each side once, an amount belongs to the side that is sold, or where nothing is, to the side
 * that comes back; both are shared by largest remainder. Shipping, tax, fee and commission of a sale of
 * returns alone were given back, and so was what is written below zero.
 */
export function saleMoney(book: NamedBook, sale: Sale): SaleMoney {
  const channel = channelOf(book, sale);
  const lines = dueLines(book, sale);
  const stated = (amount: Decimal | undefined): Money => statedIn(sale, booked(book, amount));
  const shipping = stated(sale.shipping);
  const within = taxesWithin(book, sale, { lines, shipping });
  const onTop = channel?.taxIncluded ? NO_MONEY : stated(sale.tax);
  const advances = total((sale.advances ?? []).map(({ amount }) => booked(book, amount)));
  const sum = signedSum(lines, dueOf);
  // What was paid beforehand was charged its fee then.
  const due = less(total([sum, shipping, onTop]), advances);
  const card = sale.card ? stated(sale.card) : due;
  const fee = sale.fee ? stated(sale.fee) : channelFee(book, channel, card);
  const commission = sale.commission ? stated(sale.commission) : agreedOn(channel, lines);
  const fees = overSide(lines, mainSide(lines), { amount: fee, by: dueOf });
  const commissions = overSide(lines, mainSide(lines), { amount: commission, by: dueOf });
  return {
    lines: lines.map((line, at) =>
      lineMoney(line, rateWithin(book, sale, line), {
        taxIncluded: within.lines[at] ?? NO_MONEY,
        fee: fees[at] ?? NO_MONEY,
        commission: commissions[at] ?? NO_MONEY,
      }),
    ),
    shipping: less(shipping, within.shipping),
    fee,
    commission,
    tax: total([onTop, within.shipping, signedSum(lines, (_, at) => within.lines[at] ?? NO_MONEY)]),
    advances,
    due,
    card,
  };
}

/** The channel's share of a sale as it was agreed, rounded once, whatever the sale says of it. */
export function agreedCommission(book: NamedBook, channel: Channel | undefined, sale: Sale): Money {
  return agreedOn(channel, dueLines(book, sale));
}

function agreedOn(channel: Channel | undefined, lines: readonly DueLine[]): Money {
  return fractionOf(signedSum(lines, dueOf), channel?.commission ?? ZERO);
}

/** What a channel takes of an amount that goes through its card reader or site, rounded once; nothing of nothing. */
export function channelFee(book: NamedBook, channel: Channel | undefined, charged: Money): Money {
  if (charged <= NO_MONEY) return NO_MONEY;
  const percent = fractionOf(charged, channel?.feePercent ?? ZERO);
  return add(percent, booked(book, channel?.feeEach));
}

interface Charged {
  readonly lines: readonly DueLine[];
  readonly shipping: Money;
}

interface TaxesWithin {
  readonly lines: readonly Money[];
  readonly shipping: Money;
}

/**
 * Tax within the prices of each side: r ÷ (1 + r) of what is charged, once, shipping with it where it has
 * the tax in it; the sale's own tax stands over that of the side that it belongs to. (120 at 20 % holds
 * 20: the VAT fraction of HMRC's VAT guide.)
 */
function taxesWithin(book: NamedBook, sale: Sale, { lines, shipping }: Charged): TaxesWithin {
  const channel = channelOf(book, sale);
  const rate = channel?.taxIncluded;
  if (!rate) return { lines: lines.map(() => NO_MONEY), shipping: NO_MONEY };
  const own = sale.tax && statedIn(sale, booked(book, sale.tax));
  const isFree = channel.taxInShipping === 'no' || channel.taxed === 'no';
  const taxed = isFree ? NO_MONEY : shipping;
  const [sold, back] = [false, true].map((returned) => {
    const dues = lines
      .filter((line) => line.returned === returned)
      .map((line) => (rateWithin(book, sale, line) ? line.due : NO_MONEY));
    const isWith = taxed !== NO_MONEY && isBack(lines, taxed) === returned;
    const weights = isWith ? [...dues, sideways(taxed, returned)] : dues;
    const isOwn = own !== undefined && isBack(lines, own) === returned;
    const tax = isOwn ? sideways(own, returned) : taxIn(rate, total(weights));
    const shares = shareOut(tax, weights);
    return {
      lines: shares.values(),
      shipping: isWith ? sideways(shares.at(-1), returned) : NO_MONEY,
    };
  });
  return {
    lines: lines.map(({ returned }) => (returned ? back : sold)?.lines.next().value ?? NO_MONEY),
    shipping: add(sold?.shipping ?? NO_MONEY, back?.shipping ?? NO_MONEY),
  };
}

/** The rate of the tax in the price of a line; undefined where it has none in it. */
function rateWithin(book: NamedBook, sale: Sale, { line }: DueLine): Decimal | undefined {
  const rate = channelOf(book, sale)?.taxIncluded;
  return rate && saidOf(book, sale, line) !== 'no' ? rate : undefined;
}

/** An amount as its side has it: what comes back is positive there. */
function sideways(amount: Money = NO_MONEY, returned: boolean): Money {
  return returned ? opposite(amount) : amount;
}

function taxIn(rate: Decimal, amount: Money): Money {
  return portionBy(amount, rate, rate.plus(ONE));
}

function lineMoney(
  { line, returned, lineDiscount, saleDiscount, due }: DueLine,
  rate: Decimal | undefined,
  { taxIncluded, fee, commission }: Pick<LineMoney, 'taxIncluded' | 'fee' | 'commission'>,
): LineMoney {
  const off = add(lineDiscount, saleDiscount);
  const discounts = rate ? less(off, taxIn(rate, off)) : off;
  const net = less(due, taxIncluded);
  const gross = add(net, discounts);
  return { line, returned, gross, discounts, net, taxIncluded, fee, commission };
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

/** Of what the lines come to, and of the shipping, what tax was collected on; nothing where none was. */
export interface TaxedPart {
  readonly taxed: Money;
  readonly taxedShipping: Money;
}

/** What the tax of a sale is on. */
export function taxedPart(book: NamedBook, sale: Sale, money: SaleMoney): TaxedPart {
  if (money.tax === NO_MONEY) return { taxed: NO_MONEY, taxedShipping: NO_MONEY };
  return {
    taxed: netOfLines(taxedLines(book, sale, money.lines)),
    taxedShipping: isOnShipping(book, sale) ? money.shipping : NO_MONEY,
  };
}

/** What lines come to after discounts, what came back taken off. */
export function netOfLines(lines: readonly Pick<LineMoney, 'net' | 'returned'>[]): Money {
  return total(lines.map(({ net, returned }) => (returned ? opposite(net) : net)));
}

/**
 * The lines that the tax of a sale is on, by what the records and the entry of the place on that day
 * say; a tax that none of them explains is on all lines.
 */
function taxedLines(
  book: NamedBook,
  sale: Sale,
  lines: readonly LineMoney[],
): readonly LineMoney[] {
  const rate = channelOf(book, sale)?.taxIncluded
    ? undefined
    : rateOn(book, placeOfTax(book, sale), sale.date);
  const taxed = lines.filter(({ line }) => {
    const said = saidOf(book, sale, line);
    return said === undefined ? !rate || taxesKind(rate, taxedKindOf(line)) : said === 'yes';
  });
  return taxed.length === 0 && !isOnShipping(book, sale) ? lines : taxed;
}

function isOnShipping(book: NamedBook, sale: Sale): boolean {
  const { taxIncluded, taxInShipping, taxed } = channelOf(book, sale) ?? {};
  if (sale.shipping === undefined || taxed === 'no') return false;
  if (taxIncluded) return taxInShipping !== 'no';
  const rate = rateOn(book, placeOfTax(book, sale), sale.date);
  return rate !== undefined && taxesKind(rate, 'shipping');
}
