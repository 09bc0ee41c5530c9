/** One fair: what was sold there, what was spent for it, and what broke. */
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import { less, opposite, total, type Money } from '../number/money.ts';
import { booked } from '../reckon/booked.ts';
import { fairFigures, type FairFigures, type GoneAtFair } from '../reckon/fair.ts';
import { incomeRows, type IncomeRow } from '../reckon/income.ts';
import { netOf } from '../reckon/income-fact.ts';
import { cardNotes, notesOn } from './fairs.ts';
import { rateText } from './day-words.ts';
import { moneyColumn, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const COLUMNS: readonly Column[] = [
  textColumn('part', 'Part'),
  { key: 'item', title: 'Item', type: 'id' },
  textColumn('name', 'Name', { drop: 2 }),
  { key: 'date', title: 'Date', type: 'date', drop: 1 },
  { key: 'count', title: 'Count', type: 'count' },
  moneyColumn('net', 'Net'),
  moneyColumn('fees', 'Fees'),
  moneyColumn('cost', 'Cost'),
  moneyColumn('profit', 'Profit'),
];

interface Line {
  readonly row: Row;
  readonly behind: readonly string[];
}

/** One fair, line by line; undefined when there is no fair of that id. */
export function fairTable(book: Book, flows: Flows, id: string): Table | undefined {
  const asked = book.fairs.get(id);
  const [figures] = asked ? fairFigures(book, flows, [asked]) : [];
  if (!figures) return undefined;
  const { fair, money, profit } = figures;
  const lines = [
    ...incomeRows(figures.facts, 'product')
      .toSorted((a, b) => Number(netOf(b) - netOf(a)))
      .map((row) => soldLine(book, row)),
    ...figures.spent.map((spent) => spentLine(book, spent)),
    ...figures.gone.map((gone) => goneLine(book, gone)),
  ];
  const head = tableHead(book, flows.stock.asOf);
  return {
    report: 'fairs',
    title: `${fair.name}, ${daysOf(figures)}`,
    ...head,
    columns: COLUMNS,
    rows: lines.map(({ row }) => row),
    totals: {
      item: 'total',
      net: netOf(money),
      fees: money.fees,
      cost: money.unknown ? null : costOf(figures),
      profit: money.unknown ? null : profit,
    },
    notes: [
      ...hourNotes(figures, head.minorDigits),
      ...notesOn(book, [figures], flows.stock.asOf),
      ...cardNotes(book, [figures]),
    ],
    partedBy: 'part',
    behind: once(() => lines.map(({ behind }) => behind)),
  };
}

function daysOf({ fair: { date, last = date } }: FairFigures): string {
  return date === last ? date : `${date} to ${last}`;
}

/** All that it cost but fees. */
function costOf({ money, booth, travel, other, goneCost }: FairFigures): Money {
  return total([money.cost, booth, travel, other, goneCost]);
}

function soldLine(book: Book, row: IncomeRow): Line {
  const net = netOf(row);
  const name = book.products.get(row.item)?.name ?? book.classes.get(row.item)?.name ?? null;
  return {
    row: {
      part: 'Sold',
      item: row.item,
      name: row.kind === 'product' || row.kind === 'class' ? name : null,
      date: null,
      count: row.count,
      net,
      fees: row.fees,
      cost: row.unknown ? null : row.cost,
      profit: row.unknown ? null : less(net, row.fees, row.cost),
    },
    behind: row.by,
  };
}

function spentLine(
  book: Book,
  { id, date, to, for: category, amount }: FairFigures['spent'][number],
): Line {
  const row = { part: 'Spent', item: category, name: to, date, count: null };
  const cost = booked(book, amount);
  return {
    row: { ...row, net: null, fees: null, cost, profit: opposite(cost) },
    behind: [id],
  };
}

function goneLine(book: Book, { lot, gone, cost }: GoneAtFair): Line {
  const name = lot.title ?? book.products.get(lot.product)?.name ?? null;
  const part = 'Broken or gone';
  const row = { part, item: lot.product, name, date: gone.date, count: gone.count };
  return { row: { ...row, net: null, fees: null, cost, profit: opposite(cost) }, behind: [lot.id] };
}

function hourNotes({ fair, perHour, money }: FairFigures, digits: number): string[] {
  if (!fair.hours || !perHour || money.unknown) return [];
  return [`${fair.hours.toFixed()} hours at the stall: ${rateText(perHour, digits)} an hour.`];
}
