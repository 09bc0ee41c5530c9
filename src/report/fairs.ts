/** Fairs: what each one brought in after all that it cost. */
import { counted } from '../in-words.ts';
import { once } from '../once.ts';
import type { Book, Day, Sale } from '../book.ts';
import { labourInWords } from './changed-words.ts';
import { less, total, type Money } from '../number/money.ts';
import { fairFigures, salesAtNoFair, type FairFigures } from '../reckon/fair.ts';
import type { Flows } from '../reckon/flow.ts';
import { incomeTotal, netOf } from '../reckon/income-fact.ts';
import type { Span } from '../reckon/losses.ts';
import { saleMoney } from '../reckon/sale-money.ts';
import { amountText } from './day-words.ts';
import { moneyColumn, rateColumn, spanInWords, tableHead, textColumn } from './head.ts';
import type { Column, Row, SumColumn, Table } from './table.ts';

const COLUMNS: readonly Column[] = [
  { key: 'fair', title: 'Fair', type: 'id' },
  { key: 'date', title: 'Date', type: 'date', drop: 4 },
  textColumn('name', 'Name', { drop: 7 }),
  { key: 'count', title: 'Sold', type: 'count', drop: 3 },
  moneyColumn('gross', 'Takings'),
  moneyColumn('discounts', 'Discounts'),
  moneyColumn('returns', 'Returns'),
  moneyColumn('fees', 'Fees'),
  moneyColumn('cost', 'Cost'),
  moneyColumn('booth', 'Booth'),
  moneyColumn('travel', 'Travel'),
  moneyColumn('other', 'Other'),
  moneyColumn('broken', 'Broken'),
  moneyColumn('profit', 'Profit', { bar: true }),
  { key: 'hours', title: 'Hours', type: 'quantity', places: 1, drop: 1 },
  rateColumn('profitPerHour', 'An hour'),
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 8 },
];

/** What is shown always adds up to the profit: where the line is too short for all of it, in sums. */
const SUMS: readonly SumColumn[] = [
  {
    column: { key: 'net', title: 'Net', type: 'money' },
    of: ['gross', 'discounts', 'returns'],
    words: 'Net is takings less discounts and returns.',
  },
  {
    column: { key: 'spent', title: 'Spent', type: 'money' },
    of: ['booth', 'travel', 'other'],
    words: 'Spent is for the booth, for travel and for other things.',
  },
  {
    column: { key: 'costs', title: 'Costs', type: 'money' },
    of: ['fees', 'cost', 'spent', 'broken'],
    words:
      'Costs are fees, the cost of what was sold, what was spent for the fair, and what broke there.',
  },
];

/** Every fair that began in the span, by date. */
export function fairsTable(book: Book, flows: Flows, span: Span): Table {
  const { asOf } = flows.stock;
  const asked = [...book.fairs.values()].filter(({ date }) => isWithin(span, date) || date > asOf);
  const all = fairFigures(book, flows, asked);
  const fairs = all.filter(({ fair }) => isWithin(span, fair.date));
  const { from, to } = span;
  return {
    report: 'fairs',
    title: `Fairs, ${spanInWords(span)}`,
    ...tableHead(book, asOf),
    columns: COLUMNS,
    rows: fairs.map(fairRow),
    totals: totalsOf(fairs),
    sums: SUMS,
    notes: [
      ...notesOn(book, fairs, asOf),
      ...cardNotes(book, fairs),
      ...aheadNotes(all, { asOf, digits: tableHead(book, asOf).minorDigits }),
      ...strayNotes(salesAtNoFair(book, { from, to: to < asOf ? to : asOf })),
    ],
    behind: once(() => fairs.map(behindFair)),
  };
}

/** What a fair's figures rest on: the fair, its sales, its expenses and the lots that broke. */
export function behindFair({ fair, sales, spent, gone }: FairFigures): string[] {
  const lots = gone.map(({ lot }) => lot.id);
  return [fair.id, ...sales.map(({ id }) => id), ...spent.map(({ id }) => id), ...new Set(lots)];
}

/** What every table of fairs has to say of its figures. */
export function notesOn(book: Book, fairs: readonly FairFigures[], asOf: Day): string[] {
  const labour = labourInWords(book, asOf);
  const estimated = fairs.filter(({ money }) => money.estimated);
  const unknown = fairs.filter(({ money }) => money.unknown).map(({ fair }) => fair.id);
  return [
    'All that was sold there and spent for it, whenever it was paid. Sales tax is not income.',
    ...(labour === undefined
      ? []
      : [`Cost includes own work at ${labour}, without the hours at the stall.`]),
    ...(unknown.length === 0
      ? []
      : [
          `Cost and profit are not known of what was sold before ${book.studio.starts ?? ''}, when the book starts: ${unknown.join(', ')}.`,
        ]),
    ...(estimated.length === 0
      ? []
      : [
          `Cost is estimated where more was sold than finished: ${estimated.map(({ fair }) => fair.id).join(', ')}.`,
        ]),
  ];
}

/** What of a fair's takings was cash and what went by card, as far as its sales say so. */
export function cardNotes(book: Book, fairs: readonly FairFigures[]): string[] {
  const { minorDigits } = tableHead(book, '');
  return fairs.flatMap(({ fair, sales }) => {
    const said = sales
      .filter(({ card }) => card !== undefined)
      .map((sale) => saleMoney(book, sale));
    if (said.length === 0) return [];
    const card = total(said.map((money) => money.card));
    const cash = less(total(said.map(({ due }) => due)), card);
    const [byCard, inCash] = [card, cash].map((amount) => amountText(amount, minorDigits));
    const unsaid = sales.length - said.length;
    const others = unsaid === 0 ? '' : `; ${counted(unsaid, 'sale')} without card not counted`;
    return [
      `Buyers at ${fair.id} paid ${String(byCard)} by card and ${String(inCash)} in cash, tax and shipping included${others}.`,
    ];
  });
}

function isWithin({ from, to }: Span, day: string): boolean {
  return day <= to && (from === undefined || day >= from);
}

function fairRow(figures: FairFigures): Row {
  const { fair, money, perHour } = figures;
  return {
    fair: fair.id,
    date: fair.date,
    name: fair.name,
    ...moneyCells(figures),
    hours: fair.hours ?? null,
    profitPerHour: money.unknown ? null : (perHour ?? null),
    estimated: money.estimated,
  };
}

type FairMoney = Pick<FairFigures, 'money' | 'booth' | 'travel' | 'other' | 'goneCost' | 'profit'>;

function moneyCells({ money, booth, travel, other, goneCost: broken, profit }: FairMoney): Row {
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

function totalsOf(fairs: readonly FairFigures[]): Row {
  const all = (of: (each: FairFigures) => Money): Money => total(fairs.map(of));
  return {
    fair: 'total',
    ...moneyCells({
      money: incomeTotal(fairs.map((each) => each.money)),
      booth: all((each) => each.booth),
      travel: all((each) => each.travel),
      other: all((each) => each.other),
      goneCost: all((each) => each.goneCost),
      profit: all((each) => each.profit),
    }),
  };
}

/** Fairs that are still to come, with what was spent for them so far. */
function aheadNotes(
  all: readonly FairFigures[],
  { asOf, digits }: { asOf: string; digits: number },
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
    `${counted(stray.length, 'sale')} through ${channels} of no fair on record: put it down with saggar add fairs.`,
  ];
}
