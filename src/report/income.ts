/** Income of a period by product and by other groups, down to the margin. */
import { once } from '../once.ts';
import type { Book, Day } from '../book.ts';
import { labourInWords } from './changed-words.ts';
import { decimal, divide, ZERO } from '../number/decimal.ts';
import { NO_MONEY, decimalOf, total } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { IncomeGroup } from '../groups.ts';
import { incomeRows, type IncomeRow } from '../reckon/income.ts';
import {
  type Basis,
  type IncomeFact,
  type IncomeMoney,
  type ItemKind,
  incomeTotal,
  marginOf,
  netOf,
} from '../reckon/income-fact.ts';
import type { Span } from '../number/date.ts';
import { factsIn, taxView } from '../reckon/tax-view.ts';
import { moneyColumn, rateColumn, spanInWords, tableHead, textColumn } from './head.ts';
import { sparkLine } from './spark-line.ts';
import type { Cell, Column, Row, Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const TITLES: Readonly<Record<IncomeGroup, string>> = {
  product: 'Item',
  channel: 'Channel',
  month: 'Month',
  class: 'Class',
  buyer: 'Buyer',
};

function columnsFor(by: IncomeGroup): Column[] {
  return [
    { key: 'item', title: TITLES[by], type: 'id' },
    textColumn('name', 'Name', { drop: 7 }),
    { key: 'count', title: 'Count', type: 'count' },
    moneyColumn('gross', 'Gross', { drop: 1 }),
    moneyColumn('discounts', 'Discounts', { drop: 3 }),
    moneyColumn('returns', 'Returns', { drop: 4 }),
    moneyColumn('net', 'Net', { bar: true }),
    moneyColumn('fees', 'Fees'),
    moneyColumn('cost', 'Cost'),
    moneyColumn('margin', 'Margin'),
    { key: 'marginRate', title: 'Of net', type: 'fraction' },
    rateColumn('marginPerHour', 'An hour', { drop: 2 }),
    { key: 'estimated', title: 'Estimated', type: 'flag', drop: 6 },
  ];
}

/** Income of the period by group; totals are of all that the rows show. */
export function incomeTable(
  book: Book,
  flows: Flows,
  asked: { by: IncomeGroup; period: Span },
): Table {
  const { by, period } = asked;
  const facts = factsIn(taxView(book, flows), period);
  const rows = sortRows(incomeRows(facts, by), by).map(withWords);
  const shown = by === 'class' ? facts.filter(({ kind }) => kind === 'class') : facts;
  return {
    report: 'income',
    title: `Income by ${by}, ${spanInWords(period)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: columnsFor(by),
    rows: rows.map((row) => ({ ...moneyRow(book, row), ...named(book, row, by) })),
    totals: { item: 'total', ...moneyRow(book, incomeTotal(rows)) },
    notes: [
      ...courseOf(book, rows, by),
      ...notesOn(book, { rows, facts: shown, asOf: lastDay(period, flows.stock.asOf) }),
    ],
    behind: once(() => rows.map((row) => row.by)),
  };
}

function moneyRow(book: Book, money: IncomeMoney): Row {
  const digits = digitsOf(book);
  const net = netOf(money);
  const margin = marginOf(money);
  const isKnown = !money.unknown;
  return {
    count: money.count,
    gross: money.gross,
    discounts: money.discounts,
    returns: money.returns,
    net,
    fees: money.fees,
    cost: isKnown ? money.cost : null,
    margin: isKnown ? margin : null,
    marginRate:
      net === NO_MONEY || !isKnown
        ? null
        : divide(decimalOf(margin, digits), decimalOf(net, digits)),
    marginPerHour: perHour(money, digits),
    estimated: money.estimated,
  };
}

/** What is left for an hour of work before that work is paid, as in `costs`: of the ware whose minutes are known. */
function perHour({ minutes, timedMargin }: IncomeMoney, digits: number): Cell {
  if (!minutes.gt(ZERO)) return null;
  return divide(decimalOf(timedMargin, digits).times(decimal(60)), minutes);
}

/** Months in their order; everything else by net, the most first. */
function sortRows(rows: readonly IncomeRow[], by: IncomeGroup): readonly IncomeRow[] {
  return by === 'month' ? rows : rows.toSorted((a, b) => Number(netOf(b) - netOf(a)));
}

const KIND_WORDS: Readonly<Partial<Record<ItemKind, string>>> = {
  outside: 'kiln room for others',
  missing: 'for missing pieces',
};

function withWords(row: IncomeRow): IncomeRow {
  const words = row.kind && KIND_WORDS[row.kind];
  return words === undefined ? row : { ...row, item: words };
}

function named(book: Book, row: IncomeRow, by: IncomeGroup): Row {
  const item = row.item === '' ? `no ${by}` : row.item;
  return { item, name: nameOf(book, row, by) };
}

function nameOf(book: Book, { item, kind }: IncomeRow, by: IncomeGroup): string | null {
  if (by === 'channel') return book.channels.get(item)?.name ?? null;
  if (kind === 'product') return book.products.get(item)?.name ?? null;
  if (kind === 'class') return book.classes.get(item)?.name ?? null;
  return null;
}

/** The months' net at a glance. */
function courseOf(book: Book, rows: readonly IncomeRow[], by: IncomeGroup): string[] {
  const [first, last] = [rows[0]?.item, rows.at(-1)?.item];
  if (by !== 'month' || first === undefined || last === undefined) return [];
  const line = sparkLine(rows.map((row) => decimalOf(netOf(row), digitsOf(book)).toNumber()));
  return [`Net, ${first} to ${last}: ${line}`];
}

/** The last day that the figures are of. */
function lastDay({ to }: Span, asOf: Day): Day {
  return to < asOf ? to : asOf;
}

function notesOn(
  book: Book,
  {
    rows,
    facts,
    asOf,
  }: {
    readonly rows: readonly IncomeRow[];
    readonly facts: readonly IncomeFact[];
    readonly asOf: Day;
  },
): string[] {
  const { basis = 'cash' } = book.studio;
  const labour = labourInWords(book, asOf);
  const estimated = rows.filter((row) => row.estimated).map((row) => row.item);
  const day = basis === 'cash' ? 'the day it was paid' : 'its date';
  const gross = total(facts.map((fact) => fact.gross));
  return [
    `A sale counts on ${day} (${basis} basis). Sales tax is not income.`,
    ...basisNotes(basis, facts),
    ...(labour === undefined
      ? []
      : [`Cost includes own work at ${labour}, which is no expense on a tax form.`]),
    ...(estimated.length === 0
      ? []
      : [`Cost is estimated where more was sold than finished: ${estimated.join(', ')}.`]),
    ...unknownNotes(book, rows),
    ...(gross === NO_MONEY ? ['Nothing was sold in this period.'] : []),
  ];
}

/** Of what was sold before the book starts nobody knows the cost. */
function unknownNotes({ studio: { starts } }: Book, rows: readonly IncomeRow[]): string[] {
  const unknown = rows.filter((row) => row.unknown).map((row) => row.item || 'no name');
  if (starts === undefined || unknown.length === 0) return [];
  return [
    `Cost and margin are not known where something is from before ${starts}, when the book starts: ${unknown.join(', ')}. With --from ${starts} they are.`,
  ];
}

/** What else the basis means for what there is. */
function basisNotes(basis: Basis, facts: readonly IncomeFact[]): string[] {
  const has = (kind: IncomeFact['kind']): boolean => facts.some((fact) => fact.kind === kind);
  const isCash = basis === 'cash';
  const advances = isCash
    ? 'Deposits and certificates count when they come in; the sale that uses them takes them off.'
    : 'Deposits and certificates are no income until a sale uses them; their fees count at once.';
  return [
    ...(has('advance') ? [advances] : []),
    ...(!isCash && has('class') ? ['The fee of a class counts meeting by meeting.'] : []),
  ];
}
