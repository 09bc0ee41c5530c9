/** The money of a sale (rules 18 to 21): what is sold and what comes back are two sides. */
import type { Book, Channel, Sale, SaleLine } from '../../src/book.ts';
import type { Discount } from '../../src/money-events.ts';
import type { Decimal } from '../../src/number/decimal.ts';
import { R, count, exact, fraction, over, plus, times, type Fraction } from './fraction.ts';
import { moneyIn, priceIn } from './money.ts';
import { wordOn } from './sale-tax.ts';
import { largestRemainder } from './shares.ts';
import { channelOn } from './on-day.ts';

/** One line's money, as positive amounts of its side. */
export interface LineMoney {
  readonly side: 'sold' | 'returned';
  readonly amount: bigint;
  readonly lineDiscount: bigint;
  readonly saleDiscount: bigint;
  readonly tax: bigint;
  /** After discounts, without tax. */
  readonly net: bigint;
  /** Net, and the discounts without tax. */
  readonly gross: bigint;
  readonly fee: bigint;
  readonly commission: bigint;
}

export interface SaleMoney {
  readonly lines: readonly LineMoney[];
  /** Below zero where it was given back, and so are tax, fee and commission. */
  readonly shipping: bigint;
  readonly shippingTax: bigint;
  /** On top; only passed on. */
  readonly tax: bigint;
  readonly fee: bigint;
  readonly commission: bigint;
  /** What the buyer was charged, less what was given back: with shipping and tax. */
  readonly charged: bigint;
}

type Side = LineMoney['side'];

/** A line before what is shared over the sale. */
interface Line {
  readonly side: Side;
  readonly amount: bigint;
  readonly lineDiscount: bigint;
  readonly left: bigint;
  /** Whether a tax that the channel's prices have is in this one. */
  readonly hasTax: boolean;
}

export function saleMoney(book: Book, sale: Sale): SaleMoney {
  const lines = sale.lines.map((line) => lineOf(book, sale, line));
  const main: Side = lines.some(({ side }) => side === 'sold') ? 'sold' : 'returned';
  const discounts = bothSides(lines, (some, side) => {
    const left = some.map((line) => line.left);
    return shareBy(saleDiscount(book, sale, { left: sum(left), isMain: side === main }), left);
  });
  const after = lines.map(({ left }, at) => left - (discounts[at] ?? 0n));
  const facts = { book, sale, lines, main, after };
  const taxes = taxesIn(facts);
  const fee = feeOf(facts);
  const commission = commissionOf(facts);
  const fees = onMain(facts, fee);
  const commissions = onMain(facts, commission);
  return {
    lines: lines.map((line, at) => {
      const [saleOff = 0n, tax = 0n] = [discounts[at], taxes.lines[at]];
      const shared = { fee: fees[at] ?? 0n, commission: commissions[at] ?? 0n };
      return { ...whole(book, sale, { line, saleDiscount: saleOff, tax }), ...shared };
    }),
    ...{ shipping: stated(facts, sale.shipping), shippingTax: taxes.shipping },
    ...{ tax: onTop(facts), fee, commission, charged: chargedIn(facts) },
  };
}

interface Facts {
  readonly book: Book;
  readonly sale: Sale;
  readonly lines: readonly Line[];
  /** The side that amounts of money belong to. */
  readonly main: Side;
  /** Of each line, what is left after all discounts. */
  readonly after: readonly bigint[];
}

function lineOf(book: Book, sale: Sale, line: SaleLine): Line {
  const worth = times(priceIn(book, line.price), count(line.count));
  const { discount } = line;
  const lineDiscount = discount?.percent
    ? R(times(worth, exact(discount.percent)))
    : moneyIn(book, discount?.amount);
  const side = line.returned === 'yes' ? 'returned' : 'sold';
  const hasTax = wordOn(book, sale, line) !== 'no';
  return { side, amount: R(worth), lineDiscount, left: R(worth) - lineDiscount, hasTax };
}

/** A percentage of each side; an amount of the one that amounts belong to. */
function saleDiscount(
  book: Book,
  { discount }: { discount?: Discount },
  { left, isMain }: { left: bigint; isMain: boolean },
): bigint {
  if (discount?.percent) return R(times(fraction(left), exact(discount.percent)));
  return isMain ? moneyIn(book, discount?.amount) : 0n;
}

function sum(amounts: readonly bigint[]): bigint {
  return amounts.reduce((all, amount) => all + amount, 0n);
}

function shareBy(amount: bigint, weights: readonly bigint[]): bigint[] {
  return largestRemainder(
    amount,
    weights.map((weight) => fraction(weight)),
  );
}

/** Shares of each side, put back in the order of the lines. */
function bothSides(
  lines: readonly Line[],
  share: (some: readonly Line[], side: Side) => bigint[],
): bigint[] {
  const shares = new Map<Line, bigint>();
  for (const side of ['sold', 'returned'] as const) {
    const some = lines.filter((line) => line.side === side);
    share(some, side).forEach((amount, at) => {
      const line = some[at];
      if (line) shares.set(line, amount);
    });
  }
  return lines.map((line) => shares.get(line) ?? 0n);
}

/** What the lines of one side come to after discounts. */
function sideOf({ lines, after }: Facts, side: Side): bigint[] {
  return after.filter((_, at) => lines[at]?.side === side);
}

/** The same, nothing for a line without tax in its price. */
function taxedOf({ lines, after }: Facts, side: Side): bigint[] {
  const own = lines.flatMap((line, at) => (line.side === side ? [{ line, at }] : []));
  return own.map(({ line, at }) => (line.hasTax ? (after[at] ?? 0n) : 0n));
}

function rateIn(channel: Channel | undefined): Fraction {
  return exact(channel?.taxIncluded);
}

/** R(amount × r ÷ (1 + r)). */
function taxWithin(amount: bigint, rate: Fraction): bigint {
  return R(times(fraction(amount), over(rate, plus(rate, count(1)))));
}

/** An amount that the sale states: where nothing is sold it was given back. */
function stated({ book, main }: Facts, amount: Decimal | undefined): bigint {
  const written = moneyIn(book, amount);
  return main === 'returned' && written > 0n ? -written : written;
}

/** Which side a stated amount is of: what is below zero is of what came back, if anything did. */
function sideOfStated({ lines, main }: Facts, amount: bigint): Side {
  const cameBack = lines.some(({ side }) => side === 'returned');
  return amount < 0n && cameBack ? 'returned' : main;
}

/** Once a side, over its lines; shipping that was charged with tax is the last weight of its side. */
function taxesIn(facts: Facts): { lines: bigint[]; shipping: bigint } {
  let onShipping = 0n;
  const each = bothSides(facts.lines, (some, side) => {
    if (some.length === 0) return [];
    const sign = side === 'sold' ? 1n : -1n;
    const shipping = sign * taxedShipping(facts, side);
    const weights = [...taxedOf(facts, side), ...(shipping === 0n ? [] : [shipping])];
    const shares = shareBy(taxOn(facts, sum(weights), side), weights);
    onShipping += sign * (shares[some.length] ?? 0n);
    return shares.slice(0, some.length);
  });
  return { lines: each, shipping: onShipping };
}

/** What was charged for shipping on a side, or given back, if it has the tax in it. */
function taxedShipping(facts: Facts, side: Side): bigint {
  const { book, sale } = facts;
  const amount = stated(facts, sale.shipping);
  const { taxInShipping, taxed } = channelOn(book, sale.channel, sale.date) ?? {};
  const isWithout = taxInShipping === 'no' || taxed === 'no';
  return isWithout || sideOfStated(facts, amount) !== side ? 0n : amount;
}

/** The tax in so much of a side: the sale's own amount on its side, where prices contain one. */
function taxOn(facts: Facts, amount: bigint, side: Side): bigint {
  const { book, sale } = facts;
  const own = stated(facts, sale.tax);
  if (sale.tax && side === sideOfStated(facts, own) && !isOnTop(book, sale))
    return side === 'sold' ? own : -own;
  return taxWithin(amount, rateIn(channelOn(book, sale.channel, sale.date)));
}

/** Of a sale of returns alone it was given back. */
function onTop(facts: Facts): bigint {
  return isOnTop(facts.book, facts.sale) ? stated(facts, facts.sale.tax) : 0n;
}

/** Whether a sale's tax is on top of its prices. */
function isOnTop(book: Book, { channel, date }: Sale): boolean {
  return rateIn(channelOn(book, channel, date)).top === 0n;
}

/** An amount over the lines of the side that amounts belong to. */
function onMain(facts: Facts, amount: bigint): bigint[] {
  return bothSides(facts.lines, (some, side) =>
    side === facts.main ? shareBy(amount, sideOf(facts, side)) : some.map(() => 0n),
  );
}

/** Lines sold less those that came back, after discounts, with a tax that is in the price. */
function goodsIn(facts: Facts): bigint {
  return sum(sideOf(facts, 'sold')) - sum(sideOf(facts, 'returned'));
}

function chargedIn(facts: Facts): bigint {
  return goodsIn(facts) + stated(facts, facts.sale.shipping) + onTop(facts);
}

/** Stated, or R(percent × all that went through the card + each) where that went above zero. */
function feeOf(facts: Facts): bigint {
  const { book, sale } = facts;
  if (sale.fee) return stated(facts, sale.fee);
  const before = (sale.advances ?? []).map(({ amount }) => moneyIn(book, amount));
  const all = chargedIn(facts) - sum(before);
  // The rest was cash.
  const byCard = sale.card ? stated(facts, sale.card) : all;
  if (byCard <= 0n) return 0n;
  const { feePercent, feeEach } = channelOn(book, sale.channel, sale.date) ?? {};
  return R(plus(times(fraction(byCard), exact(feePercent)), priceIn(book, feeEach)));
}

function commissionOf(facts: Facts): bigint {
  const { book, sale } = facts;
  if (sale.commission) return stated(facts, sale.commission);
  const percent = exact(channelOn(book, sale.channel, sale.date)?.commission);
  return R(times(percent, fraction(goodsIn(facts))));
}

/** A line's net, and its gross: net and its discounts, both without the tax in the price. */
function whole(
  book: Book,
  sale: Sale,
  { line, saleDiscount, tax }: { line: Line; saleDiscount: bigint; tax: bigint },
): Omit<LineMoney, 'fee' | 'commission'> {
  const { side, amount, lineDiscount } = line;
  const discounts = lineDiscount + saleDiscount;
  const net = amount - discounts - tax;
  const rate = rateIn(channelOn(book, sale.channel, sale.date));
  const gross = net + discounts - (line.hasTax ? taxWithin(discounts, rate) : 0n);
  return { side, amount, lineDiscount, saleDiscount, tax, net, gross };
}
