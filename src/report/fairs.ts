/** Fairs: what each one brought in after all that it cost, and one fair line by line. */
import { earlierDay } from '../number/date.js';
import type { Book, Day, Sale } from '../book.ts';
import { counted, sentences } from '../in-words.ts';
import { less, opposite, total, type Money } from '../number/money.ts';
import { once } from '../once.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import {
  fairFigures,
  salesAtNoFair,
  type FairFigures,
  type GoneAtFair,
} from '../reckon/sales/fair.ts';
import type { Flows } from '../reckon/flows.ts';
import { incomeTotal, netOf } from '../reckon/sales/income-fact.ts';
import type { DaysUpTo } from '../among.ts';
import { incomeRows, type IncomeRow } from '../reckon/sales/income.ts';
import { saleMoney } from '../reckon/sales/sale-money.ts';
import { labourInWords } from './cost-words.ts';
import { amountText } from './day/day-words.ts';
import { backed, idsOf, spanInWords, tableHead, type BackedRow } from './head.ts';
import { broughtToFairs, broughtToSold } from './sources/fair-sources.ts';
import type { AddedUp, Column, Row, Table } from './table.ts';
import { fairVerdict, fairsVerdict } from './verdicts/fairs.ts';

const FAIR_COLUMNS: readonly Column[] = [
  { key: 'fair', title: 'Fair', type: 'id' },
  { key: 'date', title: 'Date', type: 'date', drop: 4 },
  { key: 'name', title: 'Name', type: 'text', drop: 7, isName: true },
  { key: 'count', title: 'Sold', type: 'count', drop: 3 },
  { key: 'gross', title: 'Takings', type: 'money' },
  { key: 'discounts', title: 'Discounts', type: 'money' },
  { key: 'returns', title: 'Returns', type: 'money' },
  { key: 'fees', title: 'Fees', type: 'money' },
  { key: 'cost', title: 'Cost', type: 'money' },
  { key: 'booth', title: 'Booth', type: 'money' },
  { key: 'travel', title: 'Travel', type: 'money' },
  { key: 'other', title: 'Other', type: 'money' },
  { key: 'broken', title: 'Broken', type: 'money' },
  { key: 'profit', title: 'Profit', type: 'money', bar: true },
  { key: 'hours', title: 'Hours', type: 'quantity', places: 1, drop: 1 },
  { key: 'profitPerHour', title: 'Per hour', type: 'rate', from: 'Profit ÷ Hours' },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 8 },
];

/** The same in as few figures as say what the profit is made of. */
const FEW_COLUMNS: readonly Column[] = [
  { key: 'fair', title: 'Fair', type: 'id' },
  { key: 'date', title: 'Date', type: 'date', drop: 6, isName: true },
  { key: 'name', title: 'Name', type: 'text', drop: 7, isName: true },
  { key: 'count', title: 'Sold', type: 'count', drop: 3 },
  { key: 'net', title: 'Net', type: 'money' },
  { key: 'fees', title: 'Fees', type: 'money' },
  { key: 'cost', title: 'Cost', type: 'money' },
  { key: 'spent', title: 'Expenses', type: 'money' },
  { key: 'broken', title: 'Broken', type: 'money' },
  { key: 'profit', title: 'Profit', type: 'money' },
  { key: 'hours', title: 'Hours', type: 'quantity', places: 1, drop: 1 },
  { key: 'profitPerHour', title: 'Per hour', type: 'rate', drop: 2 },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 8 },
];

const FEW_SUMS: readonly AddedUp[] = [
  { total: 'profit', plus: ['net'], less: ['fees', 'cost', 'spent', 'broken'] },
];

const FAIR_SUMS: readonly AddedUp[] = [
  {
    total: 'profit',
    plus: ['gross'],
    less: ['discounts', 'returns', 'fees', 'cost', 'booth', 'travel', 'other', 'broken'],
  },
];

/** Every fair that began in the span, by date. */
export function fairsTable(book: Book, flows: Flows, span: DaysUpTo): Table {
  const { asOf } = flows.stock;
  const { from, to } = span;
  const isWithin = ({ date }: { readonly date: Day }): boolean =>
    date <= to && (from === undefined || date >= from);
  const asked = [...book.fairs.values()].filter((fair) => isWithin(fair) || fair.date > asOf);
  const all = fairFigures(book, flows, asked);
  const fairs = all.filter(({ fair }) => isWithin(fair));
  const totals = fairTotals(fairs);
  const digits = digitsOf(book);
  return {
    report: 'fairs',
    title: `Fairs, ${spanInWords(span)}`,
    ...tableHead(book, asOf),
    columns: FAIR_COLUMNS,
    rows: fairs.map(fairRow),
    totals,
    verdict: fairsVerdict(fairs, { columns: FAIR_COLUMNS, totals, minorDigits: digits }),
    sums: FAIR_SUMS,
    narrow: { columns: FEW_COLUMNS, sums: FEW_SUMS },
    notes: [
      ...fairNotes(book, fairs, asOf),
      ...aheadNotes(all, { asOf, digits }),
      ...strayNotes(salesAtNoFair(book, { from, to: earlierDay(to, asOf) })),
    ],
    behind: once(() => fairs.map(behindFair)),
    brought: broughtToFairs(book, fairs),
  };
}

/** What a fair's figures rest on: the fair, its sales, its expenses and the lots that broke. */
function behindFair({ fair, sales, spent, gone }: FairFigures): string[] {
  const lots = gone.map(({ lot }) => lot.id);
  return [fair.id, ...sales.map(({ id }) => id), ...spent.map(({ id }) => id), ...new Set(lots)];
}

/** What every table of fairs has to say of its figures. */
function fairNotes(book: Book, fairs: readonly FairFigures[], asOf: Day): string[] {
  const labour = labourInWords(book, asOf);
  const idsOf = (flag: 'estimated' | 'unknown'): string =>
    fairs
      .filter(({ money }) => money[flag])
      .map(({ fair }) => fair.id)
      .join(', ');
  const [unknown, estimated] = [idsOf('unknown'), idsOf('estimated')];
  return sentences(
    'All that was sold there and spent for it, whenever it was paid. Sales tax is not income.',
    labour !== undefined &&
      `Cost includes your own work at ${labour}, without the hours at the stall.`,
    unknown !== '' &&
      `Cost and profit are not known of what was sold before ${book.studio.starts ?? ''}, when the book starts: ${unknown}.`,
    estimated !== '' && `Cost is estimated where more was sold than finished: ${estimated}.`,
    ...fairs.map((each) => cardNote(book, each)),
  );
}

/** What of a fair's takings was cash and what went by card, as far as its sales say so. */
function cardNote(book: Book, { fair, sales }: FairFigures): string | undefined {
  const told = sales.filter(({ card }) => card !== undefined).map((sale) => saleMoney(book, sale));
  if (told.length === 0) return undefined;
  const card = total(told.map((money) => money.card));
  const cash = less(total(told.map(({ due }) => due)), card);
  const [byCard = '', inCash = ''] = [card, cash].map((sum) => amountText(sum, digitsOf(book)));
  const untold = sales.length - told.length;
  const others = untold === 0 ? '' : `; ${counted(untold, 'sale')} without card not counted`;
  return `Buyers at ${fair.id} paid ${byCard} by card and ${inCash} in cash, tax and shipping included${others}.`;
}

function fairRow(figures: FairFigures): Row {
  const { fair, money, perHour } = figures;
  return {
    fair: fair.id,
    date: fair.date,
    name: fair.name,
    ...fairMoney(figures),
    hours: fair.hours,
    profitPerHour: money.unknown ? null : perHour,
    estimated: money.estimated,
  };
}

type FairMoney = Pick<FairFigures, 'money' | 'booth' | 'travel' | 'other' | 'goneCost' | 'profit'>;

function fairMoney({ money, booth, travel, other, goneCost: broken, profit }: FairMoney): Row {
  const { count, gross, discounts, returns, fees, cost: known, unknown } = money;
  const cost = unknown ? null : known;
  const spent = total([booth, travel, other]);
  return {
    ...{ count, gross, discounts, returns, fees, cost, booth, travel, other, broken },
    profit: unknown ? null : profit,
    net: netOf(money),
    spent,
    costs: cost === null ? null : total([fees, cost, spent, broken]),
  };
}

function fairTotals(fairs: readonly FairFigures[]): Row {
  const all = (key: Exclude<keyof FairMoney, 'money'>): Money =>
    total(fairs.map((each) => each[key]));
  return {
    fair: 'total',
    ...fairMoney({
      money: incomeTotal(fairs.map((each) => each.money)),
      booth: all('booth'),
      travel: all('travel'),
      other: all('other'),
      goneCost: all('goneCost'),
      profit: all('profit'),
    }),
  };
}

/** Fairs that are still to come, with what was spent for them so far. */
function aheadNotes(
  all: readonly FairFigures[],
  { asOf, digits }: { asOf: Day; digits: number },
): string[] {
  return all
    .filter(({ fair }) => fair.date > asOf)
    .map(({ fair, booth, travel, other }) => {
      const spent = amountText(total([booth, travel, other]), digits);
      return `Still to come: ${fair.name} on ${fair.date} (${fair.id}), ${spent} spent for it so far.`;
    });
}

function strayNotes(stray: readonly Sale[]): string[] {
  if (stray.length === 0) return [];
  const channels = [...new Set(stray.map(({ channel }) => channel))].sort().join(', ');
  return [
    `${counted(stray.length, 'sale')} through ${channels} at no fair on record: record the fair with saggar add fairs.`,
  ];
}

const LINE_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'item', title: 'Item', type: 'id' },
  { key: 'name', title: 'Name', type: 'text', drop: 2, isName: true },
  { key: 'date', title: 'Date', type: 'date', drop: 1 },
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'net', title: 'Net', type: 'money' },
  { key: 'fees', title: 'Fees', type: 'money' },
  { key: 'cost', title: 'Cost', type: 'money' },
  { key: 'profit', title: 'Profit', type: 'money' },
];

/** One fair: what was sold, what was spent for it, and what broke; undefined when there is none of that id. */
export function fairTable(book: Book, flows: Flows, id: string): Table | undefined {
  const asked = book.fairs.get(id);
  const [figures] = asked ? fairFigures(book, flows, [asked]) : [];
  if (!figures) return undefined;
  const { fair, money, profit } = figures;
  const { asOf } = flows.stock;
  const { date, last = date } = fair;
  const sold = incomeRows(figures.facts, 'product').toSorted((a, b) => Number(netOf(b) - netOf(a)));
  const totals = {
    item: 'total',
    net: netOf(money),
    fees: money.fees,
    cost: money.unknown ? null : costOfFair(figures),
    profit: money.unknown ? null : profit,
  };
  return {
    report: 'fairs',
    title: `${fair.name}, ${date === last ? date : `${date} to ${last}`}`,
    ...tableHead(book, asOf),
    columns: LINE_COLUMNS,
    sums: [{ total: 'profit', plus: ['net'], less: ['fees', 'cost'] }],
    totals,
    verdict: fairVerdict(figures, { columns: LINE_COLUMNS, totals, minorDigits: digitsOf(book) }),
    notes: fairNotes(book, [figures], asOf),
    partedBy: 'part',
    ...backed([
      ...sold.map((row) => soldLine(book, row)),
      ...figures.spent.map((spent) => spentLine(book, spent)),
      ...figures.gone.map((gone) => goneLine(book, gone)),
    ]),
    brought: broughtToSold(sold),
  };
}

/** All that it cost but fees. */
function costOfFair({ money, booth, travel, other, goneCost }: FairFigures): Money {
  return total([money.cost, booth, travel, other, goneCost]);
}

function soldLine(book: Book, row: IncomeRow): BackedRow {
  const { item, kind, count, fees } = row;
  const net = netOf(row);
  const isNamed = kind === 'product' || kind === 'class';
  const name = isNamed ? (book.products.get(item) ?? book.classes.get(item))?.name : null;
  const profit = row.unknown ? null : less(net, fees, row.cost);
  const cost = row.unknown ? null : row.cost;
  return {
    row: { part: 'Sold', item, name, count, net, fees, cost, profit },
    behind: idsOf(row.facts),
  };
}

function spentLine(book: Book, spent: FairFigures['spent'][number]): BackedRow {
  const { id, date, to: name, for: item } = spent;
  const cost = booked(book, spent.amount);
  const row = { part: 'Spent', item, name, date, cost, profit: opposite(cost) };
  return { row, behind: [id] };
}

function goneLine(book: Book, { lot, gone, cost }: GoneAtFair): BackedRow {
  const { date, count } = gone;
  const name = lot.title ?? book.products.get(lot.product)?.name;
  const row = { item: lot.product, name, date, count, cost, profit: opposite(cost) };
  return { row: { part: 'Broken or gone', ...row }, behind: [lot.id] };
}
