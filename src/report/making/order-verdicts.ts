/** What matters of orders, in a sentence, and which of them ask for something. */
import type { Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { daysBetween } from '../../number/date.ts';
import type { OrderInHand } from '../../reckon/sales/order-ware.ts';
import type { Alert, Table, Verdict } from '../table.ts';
import { figuresIn } from '../verdicts/parts.ts';

/** What is due within so many days is looked after now. */
const SOON = 7;

/** The open orders: what is late, else what is due next; undefined where none is open. */
export function ordersVerdict(
  orders: readonly OrderInHand[],
  { asOf, columns, totals }: Pick<Table, 'asOf' | 'columns' | 'totals'>,
): Verdict | undefined {
  const open = orders.filter(({ state }) => state === 'open');
  if (open.length === 0) return undefined;
  const late = open.filter((each) => alertOf(each, asOf) === 'now');
  const next = open.find(({ order: { due } }) => due !== undefined && due >= asOf);
  const figures = figuresIn(columns, totals, ['toMake', 'underWay', 'ready']);
  const [first] = late;
  if (first) return { sentence: lateSentence(first, late.length, asOf), figures };
  if (next) return { sentence: nextSentence(next, asOf), figures };
  return { sentence: `${counted(open.length, 'order')} open, none with a due day.`, figures };
}

function lateSentence(first: OrderInHand, late: number, asOf: Day): string {
  const { buyer, due = asOf } = first.order;
  const days = counted(daysBetween(due, asOf), 'day');
  const what = `${counted(leftToDeliver(first), 'piece')} for ${buyer}`;
  if (late === 1) return `One order is late, by ${days}: ${what}.`;
  return `${late} orders are late, the first by ${days}: ${what}.`;
}

function nextSentence(order: OrderInHand, asOf: Day): string {
  const left = leftToDeliver(order);
  const ready = sumOfLines(order, ({ met }) => met?.ready ?? 0);
  const there = ready === left ? 'all of it ready' : `${ready} of ${counted(left, 'piece')} ready`;
  return `Next is the order of ${order.order.buyer}, ${whenDue(order, asOf)}, with ${there}.`;
}

/** Pieces that are still to be delivered. */
export function leftToDeliver(order: {
  readonly lines: readonly { readonly left: number }[];
}): number {
  return sumOfLines(order, ({ left }) => left);
}

/** A figure of its lines in all. */
export function sumOfLines<L>(
  { lines }: { readonly lines: readonly L[] },
  count: (line: L) => number,
): number {
  return lines.reduce((all, line) => all + count(line), 0);
}

/** `139 days late`, `due today`, `due in 6 days`; empty where nothing is to be delivered by a day. */
export function whenDue({ order: { due }, state }: OrderInHand, asOf: Day): string {
  if (due === undefined || state !== 'open') return '';
  if (due < asOf) return `${counted(daysBetween(due, asOf), 'day')} late`;
  const days = daysBetween(asOf, due);
  return days === 0 ? 'due today' : `due in ${counted(days, 'day')}`;
}

/** Late, or due within a week and not all ready. */
export function alertOf(order: OrderInHand, asOf: Day): Alert | undefined {
  const { due } = order.order;
  if (order.state !== 'open' || due === undefined) return undefined;
  if (due < asOf) return 'now';
  const isReady = order.lines.every(({ left, met }) => left === 0 || met?.ready === left);
  return daysBetween(asOf, due) <= SOON && !isReady ? 'soon' : undefined;
}

/** One order: what is late or still to come, or how it ended. */
export function orderVerdict(each: OrderInHand, asOf: Day): Verdict {
  return { sentence: orderSentence(each, asOf), figures: [] };
}

function orderSentence(each: OrderInHand, asOf: Day): string {
  const { order, state } = each;
  if (state === 'cancelled') return `Cancelled on ${order.cancelled ?? ''}.`;
  if (state === 'delivered') return 'All of it is delivered.';
  if (state === 'done') return `Closed on ${order.done ?? ''}, with part of it not delivered.`;
  const all = sumOfLines(each, ({ line }) => line.count);
  const left = `${leftToDeliver(each)} of ${counted(all, 'piece')} still to be delivered`;
  if (order.due === undefined) return `${left}; no due day was agreed.`;
  const when = `promised for ${order.due}`;
  return order.due < asOf ? `Late: ${left}, ${when}.` : `${left}, ${when}.`;
}
