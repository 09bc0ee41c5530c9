/** How each gallery stands: what it was sent, what became of that, and what it owes. */
import { recordsNaming } from '../../among.ts';
import type { Book, Channel, Day } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Decimal } from '../../number/decimal.ts';
import { daysBetween } from '../../number/date.ts';
import {
  NO_MONEY,
  add,
  less,
  portionOf,
  shareOut,
  times,
  total,
  type Money,
} from '../../number/money.ts';
import { booked } from '../booked.ts';
import { deliveries, type Delivery, type SoldThere } from './consignment.ts';
import { dueFor, owedByOthers, type Debt } from '../sales/debts.ts';
import { paidOn } from '../sales/paid.ts';
import { saleMoney, type SaleMoney } from '../sales/sale-money.ts';
import type { Flows } from '../flows.ts';
import { countIn, keyed } from '../../grouping.ts';
import { cached } from '../../once.ts';

/** What became of pieces that were left at a gallery; together they are what was sent. */
export interface GalleryFigures {
  readonly sent: number;
  readonly sold: number;
  readonly back: number;
  /** By the gallery's word, or by a stocktake there. */
  readonly missing: number;
  /** Broken or gone otherwise while they were there. */
  readonly broken: number;
  readonly here: number;
  /** What is there, at the price at which it was sent. */
  readonly value: Money;
  /** What buyers paid for what was sold, after discounts. */
  readonly takings: Money;
  /** What the gallery kept of that. */
  readonly commission: Money;
  /** What the gallery still owes for what is missing, and what it has paid for that. */
  readonly owedForMissing: Money;
  readonly paidForMissing: Money;
  /** Days that the oldest piece has been there; undefined where there is none. */
  readonly oldest: number | undefined;
}

/** One delivery and how it stands. */
export interface DeliveryStanding extends GalleryFigures {
  readonly delivery: Delivery;
  /** Sale by sale what was taken for it, and kept of that. */
  readonly shares: readonly ShareOfSale[];
  /** What is still owed for missing pieces, by the consignment that misses them. */
  readonly owing: readonly (readonly [id: string, amount: Money])[];
}

interface ShareOfSale {
  readonly by: string;
  readonly takings: Money;
  readonly commission: Money;
}

/** One gallery and how it stands. */
export interface GalleryStanding extends GalleryFigures {
  readonly gallery: Channel;
  /** Its statements, and what it owes for missing pieces, that are not paid by the day; the oldest first. */
  readonly debts: readonly Debt[];
  readonly unpaid: Money;
  readonly deliveries: readonly DeliveryStanding[];
}

/** All channels of kind consignment, in the order of the book, at the end of a day. */
export function galleryStandings(book: Book, flows: Flows): GalleryStanding[] {
  const { asOf } = flows.stock;
  const { all } = deliveries(book, asOf);
  const moneyOf = cached((id: string) => {
    const sale = book.sales.get(id);
    return sale && saleMoney(book, sale);
  });
  const debts = owedByOthers(book, flows, asOf);
  const galleries = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
  return galleries.map((gallery) => {
    const its = all
      .filter(({ channel }) => channel === gallery.id)
      .map((delivery) => deliveryFigures({ book, asOf, moneyOf }, delivery));
    const owing = debts.filter(({ channel }) => channel === gallery.id);
    const unpaid = total(owing.map(({ amount }) => amount));
    return { gallery, debts: owing, unpaid, deliveries: its, ...standingTotal(its) };
  });
}

/** What a gallery has paid for its statements by the end of a day. */
interface PaidStatements {
  readonly count: number;
  readonly amount: Money;
  /** The day of the last payment. */
  readonly last: Day;
}

/** What a gallery has paid of its statements; undefined where it has not paid any yet. */
export function paidStatements(book: Book, gallery: string, asOf: Day): PaidStatements | undefined {
  const paid = [...recordsNaming(book.sales, new Set([gallery]))].flatMap((sale) => {
    const day = paidOn(sale);
    const isPaid =
      sale.channel === gallery && sale.date <= asOf && day !== undefined && day <= asOf;
    return isPaid ? [{ day, amount: dueFor(book, sale) }] : [];
  });
  const last = paid
    .map(({ day }) => day)
    .sort()
    .at(-1);
  return last === undefined
    ? undefined
    : { count: paid.length, amount: total(paid.map(({ amount }) => amount)), last };
}

const COUNTS = ['sent', 'sold', 'back', 'missing', 'broken', 'here'] as const;
const AMOUNTS = ['value', 'takings', 'commission', 'owedForMissing', 'paidForMissing'] as const;

/** Standings together. */
export function standingTotal(standings: readonly GalleryFigures[]): GalleryFigures {
  const ages = standings.flatMap(({ oldest }) => oldest ?? []);
  return {
    ...keyed(COUNTS, (key) => standings.reduce((all, each) => all + each[key], 0)),
    ...keyed(AMOUNTS, (key) => total(standings.map((each) => each[key]))),
    oldest: ages.length === 0 ? undefined : Math.max(...ages),
  };
}

/** The price of one piece as it was sent; else the product's own of that day, for its grade; undefined for none. */
export function sentPrice(book: Book, { line, sentOn }: Delivery): Decimal | undefined {
  const product = inForce(book.products.get(line.product), sentOn);
  const own = line.grade === 'second' ? product?.second : product?.price;
  return line.price ?? own;
}

interface GalleryDay {
  readonly book: Book;
  readonly asOf: Day;
  readonly moneyOf: (sale: string) => SaleMoney | undefined;
}

function deliveryFigures(
  { book, asOf, moneyOf }: GalleryDay,
  delivery: Delivery,
): DeliveryStanding {
  const { line, left, sold, sentOn, back, missing, uncounted, broken } = delivery;
  const shares = sold.map((there) => shareOf(there, moneyOf(there.sale.id)));
  const forMissing = (isPaid: boolean): [string, Money][] =>
    delivery.lines
      .filter(({ line: { paid = 'no' } }) => (paid !== 'no' && paid <= asOf) === isPaid)
      .map(({ by, line: missed, counts, at }) => [
        by,
        shareBy(booked(book, missed.owed), counts, at),
      ]);
  const owing = forMissing(false);
  return {
    delivery,
    shares,
    owing,
    sent: line.count,
    sold: countIn(sold),
    back,
    missing: missing + uncounted,
    broken,
    here: left,
    value: times(booked(book, sentPrice(book, delivery)), left),
    takings: total(shares.map(({ takings }) => takings)),
    commission: total(shares.map(({ commission }) => commission)),
    owedForMissing: total(owing.map(([, amount]) => amount)),
    paidForMissing: total(forMissing(true).map(([, amount]) => amount)),
    oldest: left > 0 ? daysBetween(sentOn, asOf) : undefined,
  };
}

/** A line's money for those of its pieces that are of one delivery and were not brought back. */
function shareOf(
  { sale: { id: by }, index, counts, at, count }: SoldThere,
  money: SaleMoney | undefined,
): ShareOfSale {
  const line = money?.lines[index];
  if (!line) return { by, takings: NO_MONEY, commission: NO_MONEY };
  const kept = (amount: Money): Money => {
    const share = shareBy(amount, counts, at);
    const taken = counts[at] ?? count;
    return less(share, portionOf(share, BigInt(taken - count), BigInt(taken)));
  };
  const { net, taxIncluded, fee, commission } = line;
  return { by, takings: kept(add(net, taxIncluded)), commission: kept(add(fee, commission)) };
}

/** One part of an amount that is shared by counts. */
function shareBy(amount: Money, counts: readonly number[], at: number): Money {
  return shareOut(amount, counts.map(BigInt))[at] ?? NO_MONEY;
}
