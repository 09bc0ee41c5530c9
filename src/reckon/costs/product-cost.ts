/** What a good piece of each product costs, what it must be sold for, and what today's prices leave. */
import { earlierDay } from '../../number/date.js';
import type { Book, Product } from '../../book.ts';
import type { OverheadBasis } from '../../groups.ts';
import { ZERO, sum, type Decimal } from '../../number/decimal.ts';
import { type KindPrice, type LotPrice, kindPrices, lotPrice, retailPrice } from './kind-price.ts';
import { goodOf, lotsOut, stepsOf } from './lot-steps.ts';
import { overheadOf, type Overhead } from './overhead.ts';
import type { Span } from '../../number/date.ts';
import {
  costOfPiece,
  withDearer,
  withMoreLosses,
  type PieceCost,
  type PiecePart,
  type Step,
} from './piece-cost.ts';
import { stockCost, usualSteps, usualWay, type UsualWay } from './usual-steps.ts';
import type { LotState } from '../ware/lot.ts';
import type { Flows } from '../flows.ts';

/** What a tenth more of something does to the cost of a piece. */
export interface Tenth {
  readonly of: 'losses' | 'energy' | 'clay';
  /** Undefined where nothing would come out any more. */
  readonly total: Decimal | undefined;
}

/** One product's cost; every figure in money and for one good piece. */
export interface ProductCost {
  /** As it is on the flows' day. */
  readonly product: Product;
  /** The lots that came out in the span. */
  readonly lots: readonly LotState[];
  readonly made: number;
  readonly good: number;
  readonly estimated: boolean;
  readonly cost: PieceCost;
  readonly prices: readonly KindPrice[];
  /** What a second leaves at its price, sold as `retailOf` says; it costs what a first does. */
  readonly second: KindPrice | undefined;
  /** The lots with a price of their own of which something came out good, in the order of their ids. */
  readonly lotPrices: readonly LotPrice[];
  readonly tenths: readonly Tenth[];
}

/** All products' costs of a span, and the overhead in them. */
interface ProductCosts {
  readonly overhead: Overhead;
  readonly products: readonly ProductCost[];
}

/**
 * Costs by product, in the order of ids: from the lots that came out in the span, or where none did or
 * nothing of them was good, from the product's recipe and the usual firings, marked estimated. Packing
 * is at today's stock cost; a price, a recipe and a channel are as they are on the flows' day. Nothing is later than the flows' day, expenses neither.
 */
export function productCosts(
  book: Book,
  flows: Flows,
  { span: asked, by }: { span: Span; by: OverheadBasis },
): ProductCosts {
  const { asOf } = flows.stock;
  const span = { from: asked.from, to: earlierDay(asked.to, asOf) };
  const overhead = overheadOf(book, flows, { span, by });
  const way = usualWay(book, flows, { span, overhead });
  const out = lotsOut(book, flows, span);
  const products = [...way.now.products.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  return {
    overhead,
    products: products.flatMap((product) => {
      const cost = productCost(way, product, out.get(product.id) ?? []);
      return cost ? [cost] : [];
    }),
  };
}

/** The kinds at which today's price does not cover the cost. */
export function belowCost({ prices }: ProductCost): KindPrice[] {
  return prices.filter(({ margin }) => margin?.lt(ZERO));
}

function productCost(
  way: UsualWay,
  product: Product,
  lots: readonly LotState[],
): ProductCost | undefined {
  const { book, now, overhead } = way;
  const packing = packingOf(way, product);
  const good = lots.reduce((all, lot) => all + goodOf(lot), 0);
  const taken = good > 0 ? stepsOf(book, overhead, lots) : [];
  const reckoned = good > 0 ? costOfPiece(taken, packing) : undefined;
  const steps = reckoned ? taken : usualSteps(way, product);
  const cost = reckoned ?? costOfPiece(steps, packing);
  return (
    cost && {
      product,
      lots,
      made: lots.reduce((all, { lot }) => all + lot.made, 0),
      good,
      estimated: !reckoned,
      cost,
      prices: kindPrices(now, product, cost),
      second: product.second && retailPrice(now, product.second, cost),
      // Reckoned for those who ask, as are the others below.
      get lotPrices() {
        return lots.flatMap((lot) => lotPrice(way, lot, packing) ?? []);
      },
      get tenths() {
        return tenthsOf(steps, packing);
      },
    }
  );
}

/** Packing at today's stock cost. */
function packingOf({ book, flows }: UsualWay, { packing = [] }: Product): Decimal {
  const costs = packing.map(({ material, each }) =>
    stockCost(book, flows, { what: material, quantity: each }),
  );
  return sum(costs);
}

function tenthsOf(steps: readonly Step[], packing: Decimal): Tenth[] {
  const dearer = (part: PiecePart): Decimal | undefined =>
    costOfPiece(withDearer(steps, part), packing)?.total;
  return [
    { of: 'losses', total: costOfPiece(withMoreLosses(steps), packing)?.total },
    { of: 'energy', total: dearer('energy') },
    { of: 'clay', total: dearer('clay') },
  ];
}
