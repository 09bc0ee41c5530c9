/** What a piece must be sold for by each kind of channel, and what a price leaves there. */
import type { Book, Channel, ChannelKind, Lot, Product } from '../../book.ts';
import { type Decimal, ONE, ZERO, decimal, divide, sum } from '../../number/decimal.ts';
import { type Money, NO_MONEY, add, decimalOf, less, roundedMoney } from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import { type PieceCost, costOfPiece } from './piece-cost.ts';
import { saleMoney } from '../sales/sale-money.ts';
import { goodOf, stepsOf } from './lot-steps.ts';
import type { UsualWay } from './usual-steps.ts';
import type { LotState } from '../ware/lot.ts';

/** The kinds of channel, in the order in which prices are shown. */
export const CHANNEL_KINDS = ['direct', 'fair', 'online', 'wholesale', 'consignment'] as const;

/** One kind of channel: the dearest of the studio's, what must be asked there, what today's price leaves. */
export interface KindPrice {
  readonly kind: ChannelKind;
  readonly channel: Channel;
  /** Undefined where the channel takes all of any price. */
  readonly floor: Money | undefined;
  /** Today's price there. */
  readonly price: Money | undefined;
  /** What the price leaves after the channel and the cost. */
  readonly margin: Decimal | undefined;
  /** What it leaves for an hour of work, before that work is paid. */
  readonly perHour: Decimal | undefined;
}

/** A product's prices at each kind of channel that the studio has, at its wholesale or its usual price. */
export function kindPrices(book: Book, product: Product, cost: PieceCost): readonly KindPrice[] {
  return CHANNEL_KINDS.flatMap((kind) => {
    const price = kind === 'wholesale' ? product.wholesale : product.price;
    return kindPrice(book, { kind, price: price && booked(book, price), cost }) ?? [];
  });
}

/**
 * The price that a piece is sold at by the studio itself: that of its own door, else of the first other
 * kind that is no wholesale; undefined where there is none.
 */
export function retailOf(prices: readonly KindPrice[]): KindPrice | undefined {
  return prices.find(({ kind }) => kind !== 'wholesale');
}

/** The same for a price that is not the product's: of a second, of a one-off. */
export function retailPrice(book: Book, asked: Decimal, cost: PieceCost): KindPrice | undefined {
  const price = booked(book, asked);
  for (const kind of CHANNEL_KINDS) {
    const found = kind === 'wholesale' ? undefined : kindPrice(book, { kind, price, cost });
    if (found) return found;
  }
  return undefined;
}

interface KindPriceAsked {
  readonly kind: ChannelKind;
  readonly price: Money | undefined;
  readonly cost: PieceCost;
}

/** Undefined where the studio has no channel of the kind. */
function kindPrice(book: Book, { kind, price, cost }: KindPriceAsked): KindPrice | undefined {
  const dearest = dearestFloor(book, kind, cost.total);
  if (!dearest) return undefined;
  const { channel, price: floor } = dearest;
  const left = price === undefined ? undefined : leftOf(book, channel, price);
  const margin = left === undefined ? undefined : decimalOf(left, digitsOf(book)).minus(cost.total);
  return { kind, channel, floor, price, margin, perHour: margin && perHourOf(margin, cost) };
}

/** Margin before the work is paid ÷ the hours of it; undefined where they aren't known. */
function perHourOf(margin: Decimal, { labour, minutes }: PieceCost): Decimal | undefined {
  if (!minutes?.gt(ZERO)) return undefined;
  return divide(margin.plus(labour).times(SIXTY), minutes);
}

const SIXTY = decimal(60);

/** A channel, and the least price at which a cost is covered there. */
interface PriceFloor {
  readonly channel: Channel;
  /** Undefined where the channel takes all of any price. */
  readonly price: Money | undefined;
}

/** What is left of a price, and what the channel keeps of it. */
interface SoldAlone {
  readonly left: Money;
  readonly kept: Money;
}

/**
 * The price of one piece sold alone: without the tax in it, the fee and the commission, each rounded as
 * the sale of that piece rounds them.
 */
export function soldAlone(book: Book, channel: Channel, price: Money): SoldAlone {
  const lines = [{ product: '', count: 1, price: decimalOf(price, digitsOf(book)) }];
  const sale = { id: '', file: '', date: '', channel: channel.id, lines };
  const { lines: money, fee, commission } = saleMoney(book, sale);
  return { left: less(money[0]?.net ?? NO_MONEY, fee, commission), kept: add(fee, commission) };
}

/** What is left of it. */
export function leftOf(book: Book, channel: Channel, price: Money): Money {
  return soldAlone(book, channel, price).left;
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

/** A lot that is sold at a price of its own; every figure is for one good piece of it. */
export interface LotPrice {
  readonly lot: Lot;
  /** How many pieces came out good, at least one. */
  readonly good: number;
  /** Of just this lot: its own clay, glaze, firings, minutes and losses. */
  readonly cost: PieceCost;
  /** What its price leaves, sold as `retailPrice` says. */
  readonly sold: KindPrice;
}

/**
 * Undefined for a lot without a price of its own or of which nothing came out good, and where the
 * studio has no channel to sell it by. `packing` is that of one piece, in money.
 */
export function lotPrice(
  { book, now, overhead }: Pick<UsualWay, 'book' | 'now' | 'overhead'>,
  state: LotState,
  packing: Decimal,
): LotPrice | undefined {
  const { lot } = state;
  const good = goodOf(state);
  if (!lot.price || good <= 0) return undefined;
  const cost = costOfPiece(stepsOf(book, overhead, [state]), packing);
  const sold = cost && retailPrice(now, lot.price, cost);
  return sold && { lot, good, cost, sold };
}

/** What several lots are sold for, and what that leaves. */
export interface MeanPrice extends Pick<KindPrice, 'kind' | 'margin' | 'perHour'> {
  readonly price: Decimal;
}

/**
 * The mean of the lots' prices, each good piece counting alike: sum of price × good ÷ sum of good; and
 * what they leave on average after the channel, less what a piece of the product costs. Undefined for
 * no lots.
 */
export function meanPrice(lots: readonly LotPrice[], cost: PieceCost): MeanPrice | undefined {
  const [first] = lots;
  if (!first) return undefined;
  const pieces = decimal(lots.reduce((count, { good }) => count + good, 0));
  const mean = (figureOf: (lot: LotPrice) => Decimal): Decimal =>
    divide(sum(lots.map((lot) => figureOf(lot).times(decimal(lot.good)))), pieces);
  const price = mean(({ lot }) => lot.price ?? ZERO);
  const left = mean(({ sold, cost: own }) => own.total.plus(sold.margin ?? ZERO));
  const margin = left.minus(cost.total);
  return { kind: first.sold.kind, price, margin, perHour: perHourOf(margin, cost) };
}
