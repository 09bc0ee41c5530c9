/** What orders still want, against what is ready and under way: the order that is due first comes first. */
import type { Advance, Book, Day, Order, OrderLine } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { NO_MONEY, less, times, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import type { WareFlow } from '../flows.ts';
import { shareAtHand, type Met } from '../ware/at-hand.ts';
import { depositsFor, type OrderStanding, type OrderedLine } from './orders.ts';

/** A line of an order with what there is for it; undefined for what was ordered in words. */
export interface LineInHand extends OrderedLine {
  readonly met: Met | undefined;
}

/** An order with what there is for it, and its money. */
export interface OrderInHand extends Omit<OrderStanding, 'lines'> {
  readonly lines: readonly LineInHand[];
  /** Count × price of the lines that have a price. */
  readonly agreed: Money;
  /** What was taken beforehand for it, less what was paid back. */
  readonly deposit: Money;
}

/** The orders with what is at hand for them; only open ones want anything. */
export function ordersInHand(
  book: Book,
  ware: WareFlow,
  standings: readonly OrderStanding[],
): OrderInHand[] {
  const wanted = standings.flatMap((standing) =>
    standing.lines
      .filter((line) => isOpenFor(standing, line))
      .map(({ line, left: count }) => {
        const { product = '', glaze, grade = 'first' } = line;
        return { id: standing.order.id, ware: { product, glaze, grade, count } };
      }),
  );
  const met = new Map<string, Met[]>();
  shareAtHand(
    ware,
    wanted.map((each) => each.ware),
  ).forEach((each, at) => {
    addTo(met, wanted[at]?.id ?? '', each);
  });
  return standings.map((standing) => {
    const mine = [...(met.get(standing.order.id) ?? [])];
    const lines = standing.lines.map((line) => ({
      ...line,
      met: isOpenFor(standing, line) ? mine.shift() : undefined,
    }));
    const deposit = depositOf(book, standing.order, ware.asOf);
    return { ...standing, lines, agreed: agreedFor(book, standing.order), deposit };
  });
}

function isOpenFor({ state }: OrderStanding, { line, left }: OrderedLine): boolean {
  return state === 'open' && line.product !== undefined && left > 0;
}

/** What a line comes to at its price; nothing without one. */
export function agreedForLine(book: Book, { price, count }: OrderLine): Money {
  return times(booked(book, price), count);
}

function agreedFor(book: Book, { lines }: Order): Money {
  return total(lines.map((line) => agreedForLine(book, line)));
}

function depositOf(book: Book, { id }: Order, asOf: string): Money {
  return total(depositsFor(book, id, asOf).map((advance) => depositLeft(book, advance, asOf)));
}

/** What was paid beforehand, less what was paid back of it. */
export function depositLeft(book: Book, { amount, refunded = [] }: Advance, asOf: Day): Money {
  const back = refunded.filter(({ date }) => date <= asOf);
  return less(booked(book, amount), NO_MONEY, ...back.map((each) => booked(book, each.amount)));
}
