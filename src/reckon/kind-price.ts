/** What a piece must be sold for by each kind of channel, and what a price leaves there. */
import type { Book, Channel, ChannelKind, Product } from '../book.ts';
import { ZERO, decimal, divide, type Decimal } from '../number/decimal.ts';
import { decimalOf, type Money } from '../number/money.ts';
import { booked, digitsOf } from './booked.ts';
import type { PieceCost } from './piece-cost.ts';
import { dearestFloor, leftOf } from './price-floor.ts';

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

interface Asked {
  readonly kind: ChannelKind;
  readonly price: Money | undefined;
  readonly cost: PieceCost;
}

/** Undefined where the studio has no channel of the kind. */
function kindPrice(book: Book, { kind, price, cost }: Asked): KindPrice | undefined {
  const dearest = dearestFloor(book, kind, cost.total);
  if (!dearest) return undefined;
  const { channel, price: floor } = dearest;
  const left = price === undefined ? undefined : leftOf(book, channel, price);
  const margin = left === undefined ? undefined : decimalOf(left, digitsOf(book)).minus(cost.total);
  return { kind, channel, floor, price, margin, perHour: margin && perHourOf(margin, cost) };
}

/** Margin before the work is paid ÷ the hours of it; undefined where they aren't known. */
export function perHourOf(margin: Decimal, { labour, minutes }: PieceCost): Decimal | undefined {
  if (!minutes?.gt(ZERO)) return undefined;
  return divide(margin.plus(labour).times(SIXTY), minutes);
}

const SIXTY = decimal(60);
