/** Materials: what is on hand, how long it lasts, and when to order. */
import { counted } from '../in-words.ts';
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import { total } from '../number/money.ts';
import { STOCK_STATES, depletion, type Depletion } from '../reckon/depletion.ts';
import type { Flows } from '../reckon/flow.ts';
import { moneyColumn, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';

const COLUMNS: readonly Column[] = [
  { key: 'material', title: 'Material', type: 'id' },
  textColumn('name', 'Name', { drop: 5 }),
  { key: 'onHand', title: 'On hand', type: 'quantity' },
  textColumn('unit', 'Unit'),
  moneyColumn('value', 'Value'),
  { key: 'usedPerDay', title: 'Used a day', type: 'quantity', places: 3, drop: 3 },
  { key: 'daysLeft', title: 'Days left', type: 'quantity', places: 1 },
  { key: 'runsOut', title: 'Runs out', type: 'date', drop: 4 },
  { key: 'orderBy', title: 'Order by', type: 'date' },
  textColumn('state', 'State'),
];

/** Depletion of every material, the most urgent first; usage over the last `window` days. */
export function materialsTable(book: Book, flows: Flows, window: number): Table {
  const stock = depletion(book, flows.stock, window).sort(byUrgency);
  return {
    report: 'materials',
    title: 'Materials on hand',
    ...tableHead(book, flows.stock.asOf),
    columns: COLUMNS,
    rows: stock.map(rowOf),
    totals: { material: 'total', value: total(stock.map((each) => each.value)) },
    notes: notesOn(stock, window),
    behind: once(() => behindStock(flows, stock)),
  };
}

/** Everything that moved a material, from its first record on: the value rests on all of it. */
function behindStock({ stock: { movements } }: Flows, stock: readonly Depletion[]): string[][] {
  const ids = new Map(stock.map(({ id }) => [id, new Set<string>([id])]));
  for (const { pool, by } of movements) ids.get(pool)?.add(by);
  return stock.map(({ id }) => [...(ids.get(id) ?? [])]);
}

function rowOf(stock: Depletion): Row {
  const { id, name, unit, onHand, value, usedPerDay, state } = stock;
  return {
    material: id,
    name,
    unit,
    onHand,
    value,
    usedPerDay,
    daysLeft: stock.daysLeft ?? null,
    runsOut: stock.runsOut ?? null,
    orderBy: stock.orderBy ?? null,
    state,
  };
}

function byUrgency(one: Depletion, other: Depletion): number {
  const rank = STOCK_STATES.indexOf(one.state) - STOCK_STATES.indexOf(other.state);
  if (rank !== 0) return rank;
  if (!one.daysLeft || !other.daysLeft) return 0;
  return one.daysLeft.cmp(other.daysLeft);
}

function notesOn(stock: readonly Depletion[], window: number): string[] {
  const pressing = stock.filter((each) => each.state === 'out' || each.state === 'order-now');
  const usage = `Usage is what went out in the last ${window} days, or since a material's first record.`;
  if (pressing.length === 0) return [usage];
  const names = pressing.map((each) => each.name).join(', ');
  return [`${counted(pressing.length, 'material')} to order now: ${names}.`, usage];
}
