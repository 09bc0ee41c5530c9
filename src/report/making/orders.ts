/** Orders: what is still to be delivered to whom by when, and what there is for it. */
import type { Book, Day } from '../../book.ts';
import { counted, sentences } from '../../in-words.ts';
import { once } from '../../once.ts';
import type { Flows } from '../../reckon/flows.ts';
import {
  depositLeft,
  ordersInHand,
  type LineInHand,
  type OrderInHand,
} from '../../reckon/sales/order-ware.ts';
import { depositsFor, orderStandings } from '../../reckon/sales/orders.ts';
import { broughtByParts } from '../brought.ts';
import { alertOf, ordersVerdict, sumOfLines, whenDue } from './order-verdicts.ts';
import { sumsOf, tableHead, withRows } from '../head.ts';
import type { AddedUp, ColumnOf, Table } from '../table.ts';

const ORDER_COLUMNS: readonly ColumnOf<ReturnType<typeof orderRow>>[] = [
  { key: 'order', title: 'Order', type: 'id' },
  { key: 'buyer', title: 'Buyer', type: 'text', isName: true },
  { key: 'due', title: 'Due', type: 'date' },
  { key: 'when', title: 'When', type: 'text', drop: 3 },
  { key: 'state', title: 'State', type: 'text', drop: 6 },
  { key: 'ordered', title: 'Ordered', type: 'count' },
  { key: 'delivered', title: 'Delivered', type: 'count' },
  { key: 'ready', title: 'Ready', type: 'count' },
  { key: 'underWay', title: 'Under way', type: 'count' },
  { key: 'toMake', title: 'To make', type: 'count' },
  { key: 'agreed', title: 'Agreed', type: 'money', drop: 4 },
  { key: 'deposit', title: 'Deposit', type: 'money', drop: 5 },
];

const ORDER_SUMS: readonly AddedUp[] = [
  { total: 'ordered', plus: ['delivered', 'ready', 'underWay', 'toMake'] },
];

/** The open orders by due day, or with `all` those too of which nothing is to be delivered any more. */
export function ordersTable(book: Book, flows: Flows, { all }: { readonly all: boolean }): Table {
  const { asOf } = flows.stock;
  const every = ordersInHand(book, flows.ware, orderStandings(book, asOf));
  const shown = every.filter(({ state }) => all || state === 'open');
  const columns = ORDER_COLUMNS.filter(({ key }) => all || key !== 'state');
  const cells = withRows(
    columns,
    shown.map((each) => orderRow(each, asOf)),
  );
  const totals = { order: 'total', ...sumsOf(cells) };
  return {
    report: 'orders',
    title: all ? 'All orders by due day' : 'Open orders by due day',
    ...tableHead(book, asOf),
    ...cells,
    totals,
    verdict: ordersVerdict(shown, { asOf, columns, totals }),
    alerts: { column: 'when', of: shown.map((each) => alertOf(each, asOf)) },
    sums: all ? [] : ORDER_SUMS,
    notes: orderNotes(shown, { isEmpty: every.length === 0, all }),
    behind: once(() => shown.map((each) => behindOrder(book, each, asOf))),
    brought: broughtByParts(shown, {
      ordered: ({ order }) => order.lines.map(({ count }) => [order.id, count] as const),
      agreed: ({ order, agreed }) => [[order.id, agreed]],
      deposit: ({ order }) =>
        depositsFor(book, order.id, asOf).map((each) => [each.id, depositLeft(book, each, asOf)]),
    }),
  };
}

/** The order, what was paid beforehand for it, and the sales that deliver it. */
export function behindOrder(
  book: Book,
  { order, deliveries }: OrderInHand,
  asOf: string,
): string[] {
  const deposits = depositsFor(book, order.id, asOf).map(({ id }) => id);
  return [order.id, ...deposits, ...new Set(deliveries.map(({ sale }) => sale.id))];
}

function orderRow(each: OrderInHand, asOf: Day) {
  const { order, state, agreed, deposit } = each;
  const sum = (count: (line: LineInHand) => number): number => sumOfLines(each, count);
  return {
    order: order.id,
    buyer: order.buyer,
    due: order.due,
    when: whenDue(each, asOf),
    state,
    ordered: sum(({ line }) => line.count),
    delivered: sum(({ delivered }) => delivered),
    ready: sum(({ met }) => met?.ready ?? 0),
    underWay: sum(({ met }) => met?.underWay ?? 0),
    toMake: sum(({ met }) => met?.toMake ?? 0) + (state === 'open' ? sum(leftInWords) : 0),
    agreed,
    deposit,
  };
}

/** Pieces that no product stands for. */
function leftInWords({ line, left }: LineInHand): number {
  return line.product === undefined ? left : 0;
}

interface NoteGrounds {
  readonly isEmpty: boolean;
  readonly all: boolean;
}

function orderNotes(orders: readonly OrderInHand[], { isEmpty, all }: NoteGrounds): string[] {
  if (isEmpty) return ['No orders yet: record one with saggar add orders.'];
  if (orders.length === 0) return ['Nothing is to be delivered. All orders: saggar orders --all.'];
  const open = orders.filter(({ state }) => state === 'open');
  const inWords = open
    .flatMap(({ lines }) => lines)
    .reduce((sum, line) => sum + leftInWords(line), 0);
  return sentences(
    open.length > 0 &&
      'Ready and under way are shared out by due day. Of work under way some may still be lost.',
    inWords > 0 &&
      `To make has ${counted(inWords, 'piece')} ordered in words, of which the book can't say what is ready.`,
    orders.some(({ order }) => order.lines.some(({ price }) => price === undefined)) &&
      'Agreed counts only the lines that have a price.',
    !all && 'One order with its story: saggar orders ID.',
  );
}
