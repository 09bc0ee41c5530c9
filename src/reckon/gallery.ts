/** How each gallery stands: what it was sent, what became of that, and what it owes. */
import type { Book, Channel, Day } from '../book.ts';
import { ZERO, decimal, portion, sum, type Decimal } from '../number/decimal.ts';
import { daysBetween } from '../number/date.ts';
import { minorDigits } from '../number/money.ts';
import { deliveries, type Delivery } from './consignment.ts';
import { owedByOthers } from './debts.ts';
import { saleMoney, type LineMoney, type SaleMoney } from './sale-money.ts';

/** What became of pieces that were left at a gallery; together they are what was sent. */
export interface Standing {
  readonly sent: number;
  readonly sold: number;
  readonly back: number;
  /** By the gallery's word, or by a stocktake there. */
  readonly missing: number;
  /** Broken or gone otherwise while they were there. */
  readonly broken: number;
  readonly here: number;
  /** What is there, at the price at which it was sent. */
  readonly value: Decimal;
  /** What buyers paid for what was sold, after discounts. */
  readonly takings: Decimal;
  /** What the gallery kept of that. */
  readonly commission: Decimal;
  /** What the gallery owes for what is missing. */
  readonly owedForMissing: Decimal;
  /** Days that the oldest piece has been there; undefined where there is none. */
  readonly oldest: number | undefined;
}

/** One delivery and how it stands. */
export interface DeliveryStanding extends Standing {
  readonly delivery: Delivery;
}

/** One gallery and how it stands. */
export interface GalleryStanding extends Standing {
  readonly gallery: Channel;
  /** Its statements that are not paid by the day. */
  readonly unpaid: Decimal;
  readonly deliveries: readonly DeliveryStanding[];
}

/** All channels of kind consignment, in the order of the book, at the end of a day. */
export function galleryStandings(book: Book, asOf: Day): GalleryStanding[] {
  const { all } = deliveries(book, asOf);
  const moneyOf = rememberedMoney(book);
  const debts = owedByOthers(book, asOf);
  const galleries = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
  return galleries.map((gallery) => {
    const its = all
      .filter(({ channel }) => channel === gallery.id)
      .map((delivery) => standingOf({ book, asOf, moneyOf }, delivery));
    const owing = debts.filter(({ by }) => book.sales.get(by)?.channel === gallery.id);
    const unpaid = sum(owing.map(({ amount }) => amount));
    return { gallery, unpaid, deliveries: its, ...standingTotal(its) };
  });
}

/** Standings together. */
export function standingTotal(standings: readonly Standing[]): Standing {
  const count = (of: (each: Standing) => number): number =>
    standings.reduce((total, each) => total + of(each), 0);
  const money = (of: (each: Standing) => Decimal): Decimal => sum(standings.map(of));
  const ages = standings.flatMap(({ oldest }) => oldest ?? []);
  return {
    sent: count((each) => each.sent),
    sold: count((each) => each.sold),
    back: count((each) => each.back),
    missing: count((each) => each.missing),
    broken: count((each) => each.broken),
    here: count((each) => each.here),
    value: money((each) => each.value),
    takings: money((each) => each.takings),
    commission: money((each) => each.commission),
    owedForMissing: money((each) => each.owedForMissing),
    oldest: ages.length === 0 ? undefined : Math.max(...ages),
  };
}

/** The price of one piece as it was sent; else the product's own, for its grade; undefined for none. */
export function sentPrice(book: Book, { line }: Delivery): Decimal | undefined {
  const product = book.products.get(line.product);
  const own = line.grade === 'second' ? product?.second : product?.price;
  return line.price ?? own;
}

interface Context {
  readonly book: Book;
  readonly asOf: Day;
  readonly moneyOf: (sale: string) => SaleMoney | undefined;
}

function standingOf({ book, asOf, moneyOf }: Context, delivery: Delivery): DeliveryStanding {
  const { line, left, sold, sentOn, back, missing, uncounted, broken } = delivery;
  const shares = sold.map(({ sale, index, count }) => {
    const money = moneyOf(sale.id)?.lines[index];
    return money ? shareOf(money, count) : { takings: ZERO, commission: ZERO };
  });
  const owed = delivery.lines.map((each) =>
    portion(each.line.owed ?? ZERO, decimal(each.count), decimal(each.line.count)),
  );
  return {
    delivery,
    sent: line.count,
    sold: sold.reduce((total, { count }) => total + count, 0),
    back,
    missing: missing + uncounted,
    broken,
    here: left,
    value: (sentPrice(book, delivery) ?? ZERO).times(decimal(left)),
    takings: sum(shares.map(({ takings }) => takings)),
    commission: sum(shares.map(({ commission }) => commission)),
    owedForMissing: sum(owed),
    oldest: left > 0 ? daysBetween(sentOn, asOf) : undefined,
  };
}

/** A line's money for so many of its pieces. */
function shareOf(money: LineMoney, count: number): { takings: Decimal; commission: Decimal } {
  const { line, amount, taxIncluded, saleDiscount, fees } = money;
  const [part, whole] = [decimal(count), decimal(line.count)];
  const paid = amount.plus(taxIncluded).minus(saleDiscount);
  return { takings: portion(paid, part, whole), commission: portion(fees, part, whole) };
}

function rememberedMoney(book: Book): Context['moneyOf'] {
  const digits = minorDigits(book.studio.currency) ?? 2;
  const known = new Map<string, SaleMoney>();
  return (id) => {
    const sale = book.sales.get(id);
    if (!sale) return undefined;
    const money = known.get(id) ?? saleMoney(book, sale, digits);
    known.set(id, money);
    return money;
  };
}
