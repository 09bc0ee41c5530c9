/** One order with its story: what was ordered, paid beforehand, made since then, delivered and paid. */
import type { Book, Day } from '../../book.ts';
import { sentences } from '../../in-words.ts';
import { opposite, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import type { Flows } from '../../reckon/flows.ts';
import { paidOn } from '../../reckon/sales/paid.ts';
import {
  agreedForLine,
  ordersInHand,
  type LineInHand,
  type OrderInHand,
} from '../../reckon/sales/order-ware.ts';
import { depositsFor, orderStandings, type OrderDelivery } from '../../reckon/sales/orders.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import { STUDIO_PLACE, piecesAt, piecesUnderWay, type LotState } from '../../reckon/ware/lot.ts';
import { lotsDuring } from '../../reckon/ware/ware.ts';
import { byDate } from '../../text-order.ts';
import { orderVerdict } from './order-verdicts.ts';
import { backed, tableHead, type BackedRow } from '../head.ts';
import type { Column, Table } from '../table.ts';

const STORY_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'record', title: 'Record', type: 'id', drop: 1 },
  { key: 'what', title: 'What', type: 'text', isName: true },
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'state', title: 'State', type: 'text', drop: 2 },
  { key: 'money', title: 'Money', type: 'money' },
];

/** One order; undefined when there is none of that id by the day. */
export function orderTable(book: Book, flows: Flows, id: string): Table | undefined {
  const { asOf } = flows.stock;
  const all = ordersInHand(book, flows.ware, orderStandings(book, asOf));
  const found = all.find(({ order }) => order.id === id);
  if (!found) return undefined;
  const { order } = found;
  const made = madeRows(flows, found);
  const rows = [
    ...found.lines.map((line) => orderedRow(book, found, line)),
    ...depositRows(book, id, asOf),
    ...made,
    ...found.deliveries.map((delivery) => deliveredRow(book, delivery, asOf)),
  ];
  return {
    report: 'orders',
    title: `Order of ${order.buyer}, ${order.date}`,
    ...tableHead(book, asOf),
    columns: STORY_COLUMNS.filter(({ key }) => key !== 'money' || rows.some(hasMoney)),
    partedBy: 'part',
    verdict: orderVerdict(found, asOf),
    notes: sentences(
      order.note,
      ...order.lines.map(({ note }, at) => note !== undefined && `Line ${at + 1}: ${note}`),
      made.length > 0 && 'Made since: lots of what was ordered, made for whichever order.',
    ),
    ...backed(rows),
  };
}

/** Of what was ordered in words, without a price, there is no money to tell. */
function hasMoney({ row }: BackedRow): boolean {
  return typeof row['money'] === 'bigint';
}

function orderedRow(book: Book, { order }: OrderInHand, each: LineInHand): BackedRow {
  const { line } = each;
  const money = line.price === undefined ? null : agreedForLine(book, line);
  const row = {
    part: 'Ordered',
    date: order.date,
    record: order.id,
    what: wareWords(line),
    count: line.count,
    state: stateWords(each),
    money,
  };
  return { row, behind: [order.id] };
}

/** `4 delivered, 6 ready, 2 to make`. */
function stateWords({ delivered, left, met, line }: LineInHand): string {
  const counts: readonly (readonly [number, string])[] = [
    [delivered, 'delivered'],
    [met?.ready ?? 0, 'ready'],
    [met?.underWay ?? 0, 'under way'],
    [met?.toMake ?? 0, 'to make'],
    [line.product === undefined ? left : 0, 'to deliver'],
  ];
  return counts
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${count} ${word}`)
    .join(', ');
}

interface WareInWords {
  readonly product?: string | undefined;
  readonly class?: string | undefined;
  readonly for?: string | undefined;
  readonly glaze?: string | undefined;
  readonly grade?: string | undefined;
}

/** `mug oatmeal second`, or the words of the line. */
function wareWords({ product, class: taught, for: words, glaze, grade }: WareInWords): string {
  const named = [product ?? taught ?? words, glaze, grade === 'second' ? grade : undefined];
  return named.filter((word) => word !== undefined).join(' ');
}

function depositRows(book: Book, id: string, asOf: Day): BackedRow[] {
  return depositsFor(book, id, asOf).flatMap((advance) => {
    const paid = (date: Day, what: string, money: Money): BackedRow => ({
      row: { part: 'Paid beforehand', date, record: advance.id, what, money },
      behind: [advance.id],
    });
    const back = (advance.refunded ?? []).filter(({ date }) => date <= asOf);
    return [
      paid(advance.date, advance.for, booked(book, advance.amount)),
      ...back.map(({ date, amount }) => paid(date, 'paid back', opposite(booked(book, amount)))),
    ];
  });
}

/** Lots of what was ordered that were made from the day of the order on, until all of it was delivered. */
function madeRows({ ware }: Flows, { order, deliveries, state }: OrderInHand): BackedRow[] {
  const last = state === 'open' ? ware.asOf : (deliveries.at(-1)?.sale.date ?? order.date);
  return [...lotsDuring(ware.lots, { from: order.date, to: last })]
    .filter(({ lot }) => lot.date >= order.date && lot.date <= last)
    .filter((lot) => order.lines.some((line) => isOf(lot, line)))
    .sort((one, other) => byDate(one.lot, other.lot))
    .map(({ lot, glaze, ...rest }) => ({
      row: {
        part: 'Made since',
        date: lot.date,
        record: lot.id,
        what: wareWords({ product: lot.product, glaze: glaze === '' ? undefined : glaze }),
        count: lot.made,
        state: lotWords(rest),
      },
      behind: [lot.id],
    }));
}

function isOf(
  { lot, glaze }: LotState,
  line: { readonly product?: string; readonly glaze?: string },
): boolean {
  if (lot.product !== line.product) return false;
  return line.glaze === undefined || glaze.split(' + ').includes(line.glaze);
}

/** `9 ready`, `12 under way`. */
function lotWords(lot: Pick<LotState, 'places' | 'stages' | 'inKiln'>): string {
  const underWay = piecesUnderWay(lot);
  const ready = piecesAt(lot, STUDIO_PLACE);
  const words = [ready > 0 && `${ready} ready`, underWay > 0 && `${underWay} under way`];
  return words.filter((word) => word !== false).join(', ');
}

function deliveredRow(book: Book, { sale, index, line }: OrderDelivery, asOf: Day): BackedRow {
  const money = saleMoney(book, sale).lines[index];
  const isBack = line.returned === 'yes';
  const paid = paidOn(sale);
  const row = {
    part: 'Delivered',
    date: sale.date,
    record: sale.id,
    what: wareWords(line) + (isBack ? ', returned' : ''),
    count: isBack ? -line.count : line.count,
    state: paid === undefined || paid > asOf ? 'not paid yet' : `paid ${paid}`,
    money: money && (isBack ? opposite(money.net) : money.net),
  };
  return { row, behind: [sale.id, ...(line.lot === undefined ? [] : [line.lot])] };
}
