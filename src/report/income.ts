/** Income of a period by product and by other groups, down to the margin. */
import { earlierDay } from '../number/date.js';
import { once } from '../once.ts';
import { sentences } from '../in-words.ts';
import type { Book } from '../book.ts';
import { labourInWords } from './cost-words.ts';
import { decimal, divide, ZERO } from '../number/decimal.ts';
import { NO_MONEY, decimalOf, total } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { IncomeGroup } from '../groups.ts';
import type { Flows } from '../reckon/flows.ts';
import {
  type Basis,
  type IncomeFact,
  type IncomeMoney,
  type ItemKind,
  incomeTotal,
  marginOf,
  netOf,
} from '../reckon/sales/income-fact.ts';
import type { Span } from '../number/date.ts';
import { incomeRows, type IncomeRow } from '../reckon/sales/income.ts';
import { factsIn, taxView } from '../reckon/tax/tax-view.ts';
import { broughtByRecord, type BroughtByColumn } from './brought.ts';
import { cellsOf, idsOf, spanInWords, sparkLine, tableHead } from './head.ts';
import type { AddedUp, Cell, ColumnOf, Table } from './table.ts';
import { incomeVerdict } from './verdicts/income.ts';

const GROUP_TITLES: Readonly<Record<IncomeGroup, string>> = {
  product: 'Item',
  channel: 'Channel',
  month: 'Month',
  class: 'Class',
  buyer: 'Buyer',
};

const MONEY: readonly ColumnOf<ReturnType<typeof moneyLine>>[] = [
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'gross', title: 'Gross', type: 'money', drop: 1 },
  { key: 'discounts', title: 'Discounts', type: 'money', drop: 3 },
  { key: 'returns', title: 'Returns', type: 'money', drop: 4 },
  { key: 'net', title: 'Net', type: 'money', bar: true },
  { key: 'fees', title: 'Fees', type: 'money' },
  { key: 'cost', title: 'Cost', type: 'money' },
  { key: 'margin', title: 'Margin', type: 'money' },
  { key: 'marginRate', title: 'Margin %', type: 'fraction', from: 'Margin ÷ Net' },
  {
    key: 'marginPerHour',
    title: 'Per hour',
    type: 'rate',
    drop: 2,
    from: 'Margin without the cost of your work ÷ hours of work, of the ware whose minutes are known',
  },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 6 },
];

/** What each record brings something to. */
const INCOME_PARTS = ['count', 'gross', 'discounts', 'returns', 'fees', 'cost'] as const;

const INCOME_SUMS: readonly AddedUp[] = [
  { total: 'net', plus: ['gross'], less: ['discounts', 'returns'] },
  { total: 'margin', plus: ['net'], less: ['fees', 'cost'] },
];

/** Income of the period by group; totals are of all that the rows show. */
export function incomeTable(
  book: Book,
  flows: Flows,
  asked: { by: IncomeGroup; period: Span },
): Table {
  const { by, period } = asked;
  const { asOf } = flows.stock;
  const facts = factsIn(taxView(book, flows), period);
  const rows = sortRows(incomeRows(facts, by), by).map(withWords);
  const shown = by === 'class' ? facts.filter(({ kind }) => kind === 'class') : facts;
  const lastDay = earlierDay(period.to, asOf);
  const columns: Table['columns'] = [
    { key: 'item', title: GROUP_TITLES[by], type: 'id' },
    { key: 'name', title: 'Name', type: 'text', drop: 7, isName: true },
    ...MONEY,
  ];
  const totals = { item: 'total', ...cellsOf(MONEY, moneyLine(book, incomeTotal(rows))) };
  const named = rows.map((row) => ({
    money: row,
    name: nameOfGroup(book, row, by) ?? nameAlone(row),
  }));
  return {
    report: 'income',
    title: `Income by ${by}, ${spanInWords(period)}`,
    ...tableHead(book, asOf),
    columns,
    sums: INCOME_SUMS,
    rows: rows.map((row) => ({
      item: row.item === '' ? `no ${by}` : row.item,
      name: nameOfGroup(book, row, by),
      ...cellsOf(MONEY, moneyLine(book, row)),
    })),
    totals,
    verdict: incomeVerdict({
      by,
      facts: shown,
      rows: named,
      columns,
      totals,
      minorDigits: digitsOf(book),
    }),
    notes: [
      ...courseOf(book, rows, by),
      ...incomeNotes(book, { rows, facts: shown, labour: labourInWords(book, lastDay) }),
    ],
    behind: once(() => rows.map((row) => idsOf(row.facts))),
    brought: broughtToIncome(book, rows),
  };
}

function broughtToIncome(book: Book, rows: readonly IncomeRow[]): BroughtByColumn {
  return broughtByRecord(() => rows.map(({ facts }) => facts), {
    keys: INCOME_PARTS,
    idOf: (fact) => fact.by,
    cellsOf: (facts) => moneyLine(book, incomeTotal(facts)),
  });
}

function moneyLine(book: Book, money: IncomeMoney) {
  const digits = digitsOf(book);
  const net = netOf(money);
  const isKnown = !money.unknown;
  const margin = isKnown ? marginOf(money) : null;
  return {
    ...money,
    net,
    cost: isKnown ? money.cost : null,
    margin,
    marginRate:
      net === NO_MONEY || margin === null
        ? null
        : divide(decimalOf(margin, digits), decimalOf(net, digits)),
    marginPerHour: perHour(money, digits),
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

function nameOfGroup(book: Book, { item, kind }: IncomeRow, by: IncomeGroup): string | null {
  if (by === 'channel') return book.channels.get(item)?.name ?? null;
  if (kind === 'product') return book.products.get(item)?.name ?? null;
  if (kind === 'class') return book.classes.get(item)?.name ?? null;
  return null;
}

/** The item where it says enough; of a buyer who isn't named nothing does. */
function nameAlone({ item }: IncomeRow): string | undefined {
  return item === '' ? undefined : item;
}

/** The months' net at a glance. */
function courseOf(book: Book, rows: readonly IncomeRow[], by: IncomeGroup): string[] {
  const [first, last] = [rows[0]?.item, rows.at(-1)?.item];
  if (by !== 'month' || first === undefined || last === undefined) return [];
  const line = sparkLine(rows.map((row) => decimalOf(netOf(row), digitsOf(book)).toNumber()));
  return [`Net, ${first} to ${last}: ${line}`];
}

function incomeNotes(
  { studio: { basis = 'cash', starts } }: Book,
  {
    rows,
    facts,
    labour,
  }: {
    readonly rows: readonly IncomeRow[];
    readonly facts: readonly IncomeFact[];
    readonly labour: string | undefined;
  },
): string[] {
  const estimated = rows.filter((row) => row.estimated).map((row) => row.item);
  // Of what was sold before the book starts nobody knows the cost.
  const unknown = rows.filter((row) => row.unknown).map((row) => row.item || 'no name');
  const day = basis === 'cash' ? 'the day it was paid' : 'its date';
  return sentences(
    `A sale counts on ${day} (${basis} basis). Sales tax is not income.`,
    ...basisNotes(basis, facts),
    labour !== undefined &&
      `Cost includes your own work at ${labour}, which is not an expense on a tax form.`,
    estimated.length > 0 &&
      `Cost is estimated where more was sold than finished: ${estimated.join(', ')}.`,
    starts !== undefined &&
      unknown.length > 0 &&
      `Cost and margin are not known where something is from before ${starts}, when the book starts: ${unknown.join(', ')}. With --from ${starts} they are.`,
    total(facts.map((fact) => fact.gross)) === NO_MONEY && 'Nothing was sold in this period.',
  );
}

/** What else the basis means for what there is. */
function basisNotes(basis: Basis, facts: readonly IncomeFact[]): string[] {
  const has = (kind: IncomeFact['kind']): boolean => facts.some((fact) => fact.kind === kind);
  const isCash = basis === 'cash';
  const advances = isCash
    ? 'Deposits and certificates count when they come in; the sale that uses them takes them off.'
    : 'Deposits and certificates are not income until a sale uses them; their fees count at once.';
  return sentences(
    has('advance') && advances,
    !isCash && has('class') && 'The fee of a class counts meeting by meeting.',
  );
}
