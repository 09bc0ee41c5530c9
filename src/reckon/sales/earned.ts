/** What a sale earns and what its ware had cost, booked once on its day: all later figures are sums of it. */
import type { Book, Day, Grade, Sale } from '../../book.ts';
import type { Money } from '../../number/money.ts';
import type { Basis, ItemKind } from './income-fact.ts';
import { paidOn } from './paid.ts';
import { type LineMoney, type TaxedPart, saleMoney, taxedPart } from './sale-money.ts';
import { NOTHING_SOLD, type SoldLine } from '../ware/selling.ts';
import { placeOfTax } from '../tax/taxed.ts';

/** Pieces that a line took from a lot, or put back to it. */
export interface Taking {
  /** Id of the lot. */
  readonly lot: string;
  readonly grade: Grade;
  readonly count: number;
}

/** One line: what it earned, positive also of a return, and what it took with what that had cost. */
export interface EarnedLine
  extends Omit<LineMoney, 'line' | 'taxIncluded'>, Omit<SoldLine, 'from'> {
  readonly kind: ItemKind;
  readonly item: string;
  readonly count: number;
  readonly from: readonly Taking[];
}

/** A sale as it was booked. */
export interface SoldSale extends TaxedPart {
  readonly id: string;
  readonly date: Day;
  /** The day that it was paid; undefined while it is owed. */
  readonly paid: Day | undefined;
  readonly channel: string;
  readonly buyer: string | undefined;
  /** Without a tax that is in it; negative where it was given back. */
  readonly shipping: Money;
  /** Sales tax collected; negative where it was given back. */
  readonly tax: Money;
  /** Where it is taxed; empty where nothing says. */
  readonly place: string;
  readonly lines: readonly EarnedLine[];
}

/** The day on which a sale counts: when it was earned, or paid; undefined while it is owed. */
export function countsOn({ date, paid }: SoldSale, basis: Basis): Day | undefined {
  return basis === 'accrual' ? date : paid;
}

/** A sale with what its lines took from the shelves: nothing before the book starts. */
export function soldSale(book: Book, sale: Sale, sold: readonly SoldLine[]): SoldSale {
  const money = saleMoney(book, sale);
  const { id, date, channel, buyer } = sale;
  const { taxed, taxedShipping } = taxedPart(book, sale, money);
  return {
    id,
    date,
    paid: paidOn(sale),
    channel,
    buyer,
    shipping: money.shipping,
    tax: money.tax,
    place: placeOfTax(book, sale),
    taxed,
    taxedShipping,
    lines: money.lines.map((line, at) => earnedLine(line, sold[at] ?? NOTHING_SOLD)),
  };
}

function earnedLine(money: LineMoney, { from, cost, estimated }: SoldLine): EarnedLine {
  const { line, returned, gross, discounts, net, fee, commission } = money;
  const [kind, item] = itemOf(money);
  const takings = from.map(takingOf);
  return {
    kind,
    item,
    count: line.count,
    returned,
    gross,
    discounts,
    net,
    fee,
    commission,
    from: takings,
    cost,
    estimated,
  };
}

function takingOf({ lot, grade, count }: SoldLine['from'][number]): Taking {
  return { lot: lot.lot.id, grade, count };
}

function itemOf({ line }: LineMoney): readonly [kind: ItemKind, item: string] {
  if (line.product !== undefined) return ['product', line.product];
  if (line.class !== undefined) return ['class', line.class];
  return ['other', line.for ?? 'other'];
}
