/** What lots with a price of their own cost and leave: one-offs are priced one by one. */
import type { Lot } from '../book.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../number/decimal.ts';
import { perHourOf, retailPrice, type KindPrice } from './kind-price.ts';
import { goodOf, stepsOf } from './lot-steps.ts';
import { costOfPiece, type PieceCost } from './piece-cost.ts';
import type { UsualWay } from './usual-steps.ts';
import type { LotState } from './ware.ts';

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
