/** What a channel leaves of a price, and the least price there that covers a cost. */
import type { Book, Channel, ChannelKind } from '../book.ts';
import { ONE, ZERO, divide, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, decimalOf, less, roundedMoney, type Money } from '../number/money.ts';
import { digitsOf } from './booked.ts';
import { saleMoney } from './sale-money.ts';

/** A channel, and the least price at which a cost is covered there. */
export interface PriceFloor {
  readonly channel: Channel;
  /** Undefined where the channel takes all of any price. */
  readonly price: Money | undefined;
}

/**
 * What is left of the price of one piece sold alone: without the tax in it, the fee and the
 * commission, each rounded as the sale of that piece rounds them.
 */
export function leftOf(book: Book, channel: Channel, price: Money): Money {
  const lines = [{ product: '', count: 1, price: decimalOf(price, digitsOf(book)) }];
  const sale = { id: '', file: '', date: '', channel: channel.id, lines };
  const { lines: money, fee, commission } = saleMoney(book, sale);
  return less(money[0]?.net ?? NO_MONEY, fee, commission);
}

/**
 * The least price in whole minor units that covers the cost, so that every higher one does too:
 * (cost + fee each) ÷ (1 − commission − percent fee − tax within the price), and from there to the
 * unit by what the sale of one piece really leaves. One unit less does not cover it. Undefined where
 * commission, fee and tax take everything.
 */
export function floorAt(book: Book, channel: Channel, cost: Decimal): Money | undefined {
  const kept = keptOf(channel);
  if (kept.lte(ZERO)) return undefined;
  const digits = digitsOf(book);
  const covers = (price: Money): boolean =>
    decimalOf(leftOf(book, channel, price), digits).gte(cost);
  // Three roundings of half a unit each can't take more than two units: at this price all is covered.
  const safe = cost.plus(channel.feeEach ?? ZERO).plus(decimalOf(TWO_UNITS, digits));
  let price = roundedUp(divide(safe, kept), digits);
  while (price > NO_MONEY && covers(less(price, UNIT))) price = less(price, UNIT);
  return price > NO_MONEY ? price : NO_MONEY;
}

const UNIT = 1n as Money;
const TWO_UNITS = add(UNIT, UNIT);

/** Of the studio's channels of one kind the dearest: where the floor is highest, then by id. */
export function dearestFloor(book: Book, kind: ChannelKind, cost: Decimal): PriceFloor | undefined {
  const floors = [...book.channels.values()]
    .filter((channel) => channel.kind === kind)
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .map((channel) => ({ channel, price: floorAt(book, channel, cost) }));
  return floors.reduce<PriceFloor | undefined>(
    (dearest, next) => (dearest && !isDearer(next, dearest) ? dearest : next),
    undefined,
  );
}

/** The share of a price that a channel leaves, but for the fee on each sale. */
function keptOf({ commission, feePercent, taxIncluded, taxed }: Channel): Decimal {
  const hasTax = taxIncluded !== undefined && taxed !== 'no';
  const tax = hasTax ? divide(taxIncluded, taxIncluded.plus(ONE)) : ZERO;
  return ONE.minus(commission ?? ZERO)
    .minus(feePercent ?? ZERO)
    .minus(tax);
}

function isDearer(one: PriceFloor, other: PriceFloor): boolean {
  if (other.price === undefined) return false;
  return one.price === undefined || one.price > other.price;
}

function roundedUp(value: Decimal, digits: number): Money {
  const near = roundedMoney(value, digits);
  return decimalOf(near, digits).lt(value) ? add(near, UNIT) : near;
}
