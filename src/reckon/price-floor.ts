/** What a channel leaves of a price, and the least price there that covers a cost. */
import type { Book, Channel, ChannelKind } from '../book.ts';
import { ONE, ZERO, decimal, divide, roundTo, type Decimal } from '../number/decimal.ts';
import { saleMoney } from './sale-money.ts';

/** A channel, and the least price at which a cost is covered there. */
export interface PriceFloor {
  readonly channel: Channel;
  /** A whole number of minor units; undefined where the channel takes all of any price. */
  readonly price: Decimal | undefined;
}

/**
 * What is left of the price of one piece sold alone, in money: without the tax in it, the fee and the
 * commission, each rounded as the sale of that piece rounds them.
 */
export function leftOf(
  book: Book,
  channel: Channel,
  { price, minorDigits }: { price: Decimal; minorDigits: number },
): Decimal {
  const lines = [{ product: '', count: 1, price }];
  const sale = { id: '', file: '', date: '', channel: channel.id, lines };
  const { lines: money, fee, commission } = saleMoney(book, sale, minorDigits);
  return (money[0]?.amount ?? ZERO).minus(fee).minus(commission);
}

/**
 * The least price in whole minor units that covers the cost, so that every higher one does too:
 * (cost + fee each) ÷ (1 − commission − percent fee − tax within the price), and from there to the
 * unit by what the sale of one piece really leaves. One unit less does not cover it. Undefined where
 * commission, fee and tax take everything.
 */
export function floorAt(
  book: Book,
  channel: Channel,
  { cost, minorDigits }: { cost: Decimal; minorDigits: number },
): Decimal | undefined {
  const kept = keptOf(channel);
  if (kept.lte(ZERO)) return undefined;
  const unit = minorDigits === 0 ? ONE : decimal(`0.${'0'.repeat(minorDigits - 1)}1`);
  const covers = (price: Decimal): boolean =>
    leftOf(book, channel, { price, minorDigits }).gte(cost);
  // Three roundings of half a unit each can't take more than two units: at this price all is covered.
  const safe = cost.plus(channel.feeEach ?? ZERO).plus(unit.times(decimal(2)));
  let price = roundedUp(divide(safe, kept), { unit, minorDigits });
  while (price.gt(ZERO) && covers(price.minus(unit))) price = price.minus(unit);
  return price.gt(ZERO) ? price : ZERO;
}

/** Of the studio's channels of one kind the dearest: where the floor is highest, then by id. */
export function dearestFloor(
  book: Book,
  kind: ChannelKind,
  asked: { cost: Decimal; minorDigits: number },
): PriceFloor | undefined {
  const floors = [...book.channels.values()]
    .filter((channel) => channel.kind === kind)
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((channel) => ({ channel, price: floorAt(book, channel, asked) }));
  return floors.reduce<PriceFloor | undefined>(
    (dearest, next) => (dearest && !isDearer(next, dearest) ? dearest : next),
    undefined,
  );
}

/** The share of a price that a channel leaves, but for the fee on each sale. */
function keptOf({ commission, feePercent, taxIncluded }: Channel): Decimal {
  const tax = taxIncluded ? divide(taxIncluded, taxIncluded.plus(ONE)) : ZERO;
  return ONE.minus(commission ?? ZERO)
    .minus(feePercent ?? ZERO)
    .minus(tax);
}

function isDearer(one: PriceFloor, other: PriceFloor): boolean {
  if (!other.price) return false;
  return !one.price || one.price.gt(other.price);
}

function roundedUp(
  value: Decimal,
  { unit, minorDigits }: { unit: Decimal; minorDigits: number },
): Decimal {
  const near = roundTo(value, minorDigits);
  return near.lt(value) ? near.plus(unit) : near;
}
