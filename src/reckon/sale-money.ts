/** The money of a sale, line by line: every cent of a discount, fee, commission or tax lands on a line. */
import type { Book, Channel, Discount, Sale, SaleLine } from '../book.ts';
import { ONE, ZERO, decimal, portion, roundTo, sum, type Decimal } from '../number/decimal.ts';
import { apportion } from './landed.ts';

/** One line's money, exact to the currency's minor unit; every figure is positive, also of a return. */
export interface LineMoney {
  readonly line: SaleLine;
  readonly returned: boolean;
  /** Count × price − line discount, without a tax that the price includes. */
  readonly amount: Decimal;
  /** The line's own discount. */
  readonly lineDiscount: Decimal;
  /** Its share of the sale's discount. */
  readonly saleDiscount: Decimal;
  /** Sales tax that was in the price; never income. */
  readonly taxIncluded: Decimal;
  /** Its share of fees and commission. */
  readonly fees: Decimal;
}

/** The money of one sale. */
export interface SaleMoney {
  readonly lines: readonly LineMoney[];
  readonly shipping: Decimal;
  readonly fee: Decimal;
  readonly commission: Decimal;
  /** Sales tax collected, on top of the prices or within them. */
  readonly tax: Decimal;
  /** What was paid beforehand of what the buyer is charged. */
  readonly advances: Decimal;
}

interface PricedLine {
  readonly line: SaleLine;
  readonly returned: boolean;
  readonly price: Decimal;
  readonly lineDiscount: Decimal;
}

/** Splits a sale's money over its lines; computed fees, commissions and taxes are rounded half up. */
export function saleMoney(book: Book, sale: Sale, minorDigits: number): SaleMoney {
  const channel = book.channels.get(sale.channel);
  const priced = sale.lines.map((line) => priceLine(line, minorDigits));
  const saleDiscounts = shareDiscount(sale, priced, minorDigits);
  const takings = priced.map((line, index) => takingsOf(line).minus(saleDiscounts[index] ?? ZERO));
  const taxes = includedTaxes(sale, channel, { priced, takings, minorDigits });
  const net = signedSum(priced, takings);
  const onTop = channel?.taxIncluded ? ZERO : (sale.tax ?? ZERO);
  const shipping = sale.shipping ?? ZERO;
  const charged = sum([net, shipping, onTop]);
  const advances = sum((sale.advances ?? []).map(({ amount }) => amount));
  // What was paid beforehand was charged its fee then.
  const fee = sale.fee ?? roundTo(channelFee(channel, charged.minus(advances)), minorDigits);
  const commission = sale.commission ?? shareOf(channel, net, minorDigits);
  const fees = apportion(fee.plus(commission), takings, minorDigits);
  const lines = priced.map((line, index) => ({
    line: line.line,
    returned: line.returned,
    amount: takingsOf(line).minus(taxes[index] ?? ZERO),
    lineDiscount: line.lineDiscount,
    saleDiscount: saleDiscounts[index] ?? ZERO,
    taxIncluded: taxes[index] ?? ZERO,
    fees: fees[index] ?? ZERO,
  }));
  const tax = onTop.plus(signedSum(priced, taxes));
  return { lines, shipping, fee, commission, tax, advances };
}

/** What buyers are charged for each line, after both discounts and with a tax that the price includes. */
export function lineTakings(sale: Sale, minorDigits: number): Decimal[] {
  const priced = sale.lines.map((line) => priceLine(line, minorDigits));
  const discounts = shareDiscount(sale, priced, minorDigits);
  return priced.map((line, index) => takingsOf(line).minus(discounts[index] ?? ZERO));
}

/** The channel's share of a sale as it was agreed, rounded half up, whatever the sale says of it. */
export function agreedCommission(
  channel: Channel | undefined,
  sale: Sale,
  minorDigits: number,
): Decimal {
  const signed = lineTakings(sale, minorDigits).map((takings, index) =>
    sale.lines[index]?.returned === 'yes' ? takings.neg() : takings,
  );
  return shareOf(channel, sum(signed), minorDigits);
}

function shareOf(channel: Channel | undefined, net: Decimal, minorDigits: number): Decimal {
  return roundTo(net.times(channel?.commission ?? ZERO), minorDigits);
}

/** Money off: the amount, or the percent of what it is off, rounded half up. */
export function discountOf(
  discount: Discount | undefined,
  of: Decimal,
  minorDigits: number,
): Decimal {
  if (!discount) return ZERO;
  return discount.amount ?? roundTo(of.times(discount.percent), minorDigits);
}

function priceLine(line: SaleLine, minorDigits: number): PricedLine {
  const price = line.price.times(decimal(line.count));
  const lineDiscount = discountOf(line.discount, price, minorDigits);
  return { line, returned: line.returned === 'yes', price, lineDiscount };
}

function takingsOf(line: PricedLine): Decimal {
  return line.price.minus(line.lineDiscount);
}

/** The sale's discount is off what was sold, not off what came back. */
function shareDiscount(sale: Sale, priced: readonly PricedLine[], minorDigits: number): Decimal[] {
  if (!sale.discount) return priced.map(() => ZERO);
  const weights = priced.map((line) => (line.returned ? ZERO : takingsOf(line)));
  const discount = discountOf(sale.discount, sum(weights), minorDigits);
  return apportion(discount, weights, minorDigits);
}

interface TaxBase {
  readonly priced: readonly PricedLine[];
  readonly takings: readonly Decimal[];
  readonly minorDigits: number;
}

/**
 * Tax within the prices: takings × r ÷ (1 + r), of what was sold and of what came back apart; the
 * sale's own tax stands over it. (120 at 20 % holds 20: the VAT fraction of HMRC's VAT guide.)
 */
function includedTaxes(sale: Sale, channel: Channel | undefined, base: TaxBase): Decimal[] {
  const rate = channel?.taxIncluded;
  if (!rate) return base.priced.map(() => ZERO);
  const sold = taxShares(rate, base, false);
  const back = taxShares(rate, base, true);
  if (sale.tax) return apportion(sale.tax, base.takings, base.minorDigits);
  return sold.map((share, index) => share.plus(back[index] ?? ZERO));
}

function taxShares(rate: Decimal, base: TaxBase, returned: boolean): Decimal[] {
  const weights = base.takings.map((takings, index) =>
    base.priced[index]?.returned === returned ? takings : ZERO,
  );
  const takings = sum(weights);
  if (takings.isZero()) return weights.map(() => ZERO);
  const tax = roundTo(portion(takings, rate, rate.plus(ONE)), base.minorDigits);
  return apportion(tax, weights, base.minorDigits);
}

/** What a channel takes of an amount that comes in through it, not rounded; nothing of nothing. */
export function channelFee(channel: Channel | undefined, charged: Decimal): Decimal {
  if (!charged.gt(ZERO)) return ZERO;
  return charged.times(channel?.feePercent ?? ZERO).plus(channel?.feeEach ?? ZERO);
}

function signedSum(priced: readonly PricedLine[], amounts: readonly Decimal[]): Decimal {
  return sum(amounts.map((amount, index) => (priced[index]?.returned ? amount.neg() : amount)));
}
