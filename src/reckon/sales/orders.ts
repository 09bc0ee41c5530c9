/** Orders: what was delivered of each by a day, and what is still to be delivered. */
import { recordsHaving, type Records } from '../../among.ts';
import type {
  Advance,
  Book,
  Day,
  Grade,
  NamedBook,
  Order,
  OrderLine,
  Sale,
  SaleLine,
} from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { byDate, compareTexts } from '../../text-order.ts';

/** One line of an order, and how many pieces of it were delivered. */
export interface OrderedLine {
  readonly line: OrderLine;
  readonly delivered: number;
  /** Still to be delivered. */
  readonly left: number;
}

/** A line of a sale that delivers an order, or part of one. */
export interface OrderDelivery {
  readonly sale: Sale;
  /** Of the line in its sale. */
  readonly index: number;
  readonly line: SaleLine;
}

/** More than was ordered: so many pieces of a delivery for which the order has no line, or no room. */
export interface Beyond extends OrderDelivery {
  readonly count: number;
}

export type OrderState = 'open' | 'delivered' | 'done' | 'cancelled';

/** An order at the end of a day. */
export interface OrderStanding {
  readonly order: Order;
  readonly state: OrderState;
  readonly lines: readonly OrderedLine[];
  /** By date. */
  readonly deliveries: readonly OrderDelivery[];
  readonly beyond: readonly Beyond[];
}

/** The kinds that orders are followed through. */
export interface OrderBook {
  readonly orders: { readonly values: () => Iterable<Order> };
  readonly sales: { readonly values: () => Iterable<Sale> };
  readonly pieces: NamedBook['pieces'];
}

/** Every order up to the day: by due day, those without one last. */
export function orderStandings(book: OrderBook, asOf: Day): OrderStanding[] {
  const orders = [...book.orders.values()].filter(({ date }) => date <= asOf);
  if (orders.length === 0) return [];
  const deliveries = deliveriesByOrder(book, asOf);
  return orders
    .sort(byDueDay)
    .map((order) => standingOf(book, order, { deliveries: deliveries.get(order.id) ?? [], asOf }));
}

/** What was paid for an order beforehand, the oldest first. */
export function depositsFor(book: Book, order: string, asOf: Day): Advance[] {
  return [...recordsHaving(book.advances, 'for-order')]
    .filter(({ forOrder, date }) => forOrder === order && date <= asOf)
    .sort(byDate);
}

function byDueDay(one: Order, other: Order): number {
  const keyOf = ({ due = '9999', date, id }: Order): string => `${due} ${date} ${id}`;
  return compareTexts(keyOf(one), keyOf(other));
}

function deliveriesByOrder({ sales }: OrderBook, asOf: Day): ReadonlyMap<string, OrderDelivery[]> {
  const found = new Map<string, OrderDelivery[]>();
  const naming = [...recordsHaving(sales as Records<Sale>, 'for-order')]
    .filter(({ date }) => date <= asOf)
    .sort(byDate);
  for (const sale of naming)
    sale.lines.forEach((line, index) => {
      if (line.forOrder !== undefined) addTo(found, line.forOrder, { sale, index, line });
    });
  return found;
}

interface DeliveredFor {
  readonly deliveries: readonly OrderDelivery[];
  readonly asOf: Day;
}

function standingOf(
  book: OrderBook,
  order: Order,
  { deliveries, asOf }: DeliveredFor,
): OrderStanding {
  const delivered = order.lines.map(() => 0);
  const beyond = deliveries.flatMap((delivery) => {
    const count = deliver(book, { order, delivered }, delivery);
    return count > 0 ? [{ ...delivery, count }] : [];
  });
  const lines = order.lines.map((line, index) => {
    const count = delivered[index] ?? 0;
    return { line, delivered: count, left: line.count - count };
  });
  return { order, state: orderState(order, lines, asOf), lines, deliveries, beyond };
}

function orderState(order: Order, lines: readonly OrderedLine[], asOf: Day): OrderState {
  if (order.cancelled !== undefined && order.cancelled <= asOf) return 'cancelled';
  if (lines.every(({ left }) => left === 0)) return 'delivered';
  return order.done !== undefined && order.done <= asOf ? 'done' : 'open';
}

interface FillingOrder {
  readonly order: Order;
  /** By line of the order; grows. */
  readonly delivered: number[];
}

/** Puts a delivery to the lines that it fits best, and says how many pieces fit none. */
function deliver(
  book: OrderBook,
  { order, delivered }: FillingOrder,
  delivery: OrderDelivery,
): number {
  const { line: sold } = delivery;
  const sign = sold.returned === 'yes' ? -1 : 1;
  const isNamed = order.lines.some(
    ({ product }) => product !== undefined && product === sold.product,
  );
  const ranked = order.lines
    .filter(({ product }) => product !== undefined || !isNamed)
    .map((line) => ({ index: order.lines.indexOf(line), line, rank: rankOf(book, line, sold) }))
    .filter(({ rank }) => rank > 0)
    .sort((one, other) => other.rank - one.rank);
  let left = sold.count;
  for (const { index, line } of ranked) {
    const before = delivered[index] ?? 0;
    const count = Math.min(left, sign > 0 ? line.count - before : before);
    delivered[index] = before + sign * count;
    left -= count;
  }
  return sign > 0 ? left : 0;
}

/**
 * How well a line of a sale fits one of an order: 0 is not at all. What was ordered in words may be
 * delivered as ware that no other line names, or in other words.
 */
function rankOf(book: OrderBook, wanted: OrderLine, sold: SaleLine): number {
  if (wanted.product === undefined) return wanted.for === sold.for ? 2 : 1;
  if (wanted.product !== sold.product) return 0;
  const glazes = glazesSold(book, sold);
  const isKnown = glazes.length > 0 && wanted.glaze !== undefined;
  if (isKnown && !glazes.includes(wanted.glaze)) return 0;
  const sameGrade = gradeOf(wanted) === gradeOf(sold) ? 2 : 0;
  return 2 + sameGrade + (isKnown ? 1 : 0);
}

function glazesSold({ pieces }: OrderBook, { glaze, lot }: SaleLine): readonly string[] {
  if (glaze !== undefined) return [glaze];
  return (pieces.get(lot ?? '')?.glazes ?? []).map(({ recipe }) => recipe);
}

function gradeOf({ grade = 'first' }: { readonly grade?: Grade }): Grade {
  return grade;
}
