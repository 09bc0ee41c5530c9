/** A list held against the book: what is on one side only, what differs, or all of it; or month by month. */
import type { Book, Day } from '../book.ts';
import { counted, sentences } from '../in-words.ts';
import { grouped } from '../grouping.ts';
import { monthOf } from '../number/date.ts';
import { less, opposite, total, type Money } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Matching, MoneyMatch } from '../reckon/sales/matching.ts';
import { once } from '../once.ts';
import { amountText } from './day/day-words.ts';
import { sumsOf, tableHead, withRows } from './head.ts';
import type { AddedUp, ColumnOf, Row, Table, Verdict } from './table.ts';

/** A matching, and what it is told of. */
export interface MatchedList {
  readonly book: Book;
  readonly asOf: Day;
  /** What the list is called, and the map that it was read by. */
  readonly list: string;
  readonly matching: Matching;
  /** Of the rows that are only in the list those that name sales which are not paid in the book. */
  readonly unpaid: readonly MoneyMatch[];
}

interface MatchLine {
  readonly part: string;
  readonly date: Day;
  readonly row: string;
  readonly what: string;
  readonly records: string;
  readonly list: Money | undefined;
  readonly book: Money | undefined;
  readonly difference: Money | undefined;
  readonly ids: readonly string[];
}

const MATCH_COLUMNS: readonly ColumnOf<MatchLine>[] = [
  { key: 'part', title: 'Where', type: 'text' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'row', title: 'Row', type: 'text' },
  { key: 'what', title: 'What', type: 'text', isName: true, drop: 1 },
  { key: 'records', title: 'Records', type: 'text', drop: 2 },
  { key: 'list', title: 'List', type: 'money' },
  { key: 'book', title: 'Book', type: 'money' },
  { key: 'difference', title: 'Difference', type: 'money' },
];

const DIFFERENCE: readonly AddedUp[] = [{ total: 'difference', plus: ['list'], less: ['book'] }];

const ONLY_LIST = 'Only in the list';
const ONLY_BOOK = 'Only in the book';
const DIFFERS = 'Amounts differ';
const BOTH = 'On both sides';

/** What is on one side only or differs; with `all` what is on both sides too. */
export function matchTable(matched: MatchedList, { all }: { readonly all: boolean }): Table {
  const { book, asOf, list } = matched;
  const lines = matchLines(matched).filter(({ part }) => all || part !== BOTH);
  const rows = withRows(MATCH_COLUMNS, lines);
  const totals = sumsOf(rows);
  return {
    report: 'match',
    title: `${list} against the book`,
    ...tableHead(book, asOf),
    ...rows,
    totals: { ...totals, part: 'total' },
    verdict: matchVerdict(matched, totals),
    sums: DIFFERENCE,
    partedBy: 'part',
    notes: matchNotes(matched, all),
    behind: once(() => lines.map(({ ids }) => ids)),
  };
}

/** What is on one side only or differs; undefined where there is nothing to match. */
function matchVerdict({ matching }: MatchedList, totals: Row): Verdict | undefined {
  const { matches, onlyListed, onlyMoved } = matching;
  const differ = matches.filter(({ listed, amount }) => listed.amount !== amount).length;
  const odd = [
    ...(onlyListed.length > 0 ? [`${counted(onlyListed.length, 'row')} only in the list`] : []),
    ...(onlyMoved.length > 0 ? [`${counted(onlyMoved.length, 'record')} only in the book`] : []),
    ...(differ > 0 ? [`${counted(differ, 'amount')} that differ${differ === 1 ? 's' : ''}`] : []),
  ];
  if (odd.length + matches.length === 0) return undefined;
  if (odd.length === 0)
    return { sentence: 'The list and the book agree in every row.', figures: [] };
  const money = { type: 'money' } as const;
  return {
    sentence: `To look at: ${odd.join(', ')}.`,
    figures: [{ label: 'Difference', column: money, cell: totals['difference'] ?? null }],
  };
}

function matchLines({ matching, unpaid }: MatchedList): MatchLine[] {
  const { matches, onlyListed, onlyMoved } = matching;
  const named = new Map(unpaid.map(({ listed: row, moved }) => [row, moved.map(({ id }) => id)]));
  const listed = onlyListed.map((each) => {
    const { row, date, amount, text } = each;
    const ids = named.get(each) ?? [];
    return {
      ...{ part: ONLY_LIST, date, row, what: text, records: ids.join(' '), ids },
      ...{ list: amount, book: undefined, difference: amount },
    };
  });
  const moved = onlyMoved.map(({ id, date, net, who, numbers, channel = '' }) => ({
    ...{
      part: ONLY_BOOK,
      date,
      row: numbers.slice(1).join(' '),
      what: who || channel,
      records: id,
    },
    ...{ list: undefined, book: net, difference: opposite(net), ids: [id] },
  }));
  const both = matches.map(lineOfMatch);
  const isOdd = ({ part }: MatchLine): boolean => part === DIFFERS;
  return [...both.filter(isOdd), ...listed, ...moved, ...both.filter((line) => !isOdd(line))];
}

function lineOfMatch({ listed, moved, by, amount }: MoneyMatch): MatchLine {
  const ids = moved.map(({ id }) => id);
  const how = by === 'payout' ? `${counted(ids.length, 'record')} less fees` : listed.text;
  const difference = less(listed.amount, amount);
  return {
    part: difference === 0n ? BOTH : DIFFERS,
    date: listed.date,
    row: listed.row,
    what: how,
    records: ids.join(' '),
    list: listed.amount,
    book: amount,
    difference,
    ids,
  };
}

function matchNotes({ book, matching, unpaid }: MatchedList, all: boolean): string[] {
  const { matches, onlyListed, onlyMoved } = matching;
  const text = (amount: Money): string => amountText(amount, digitsOf(book));
  const met = matches.filter(({ listed, amount }) => listed.amount === amount);
  const sum = total(met.map(({ amount }) => amount));
  return sentences(
    met.length === 0
      ? 'Nothing is on both sides.'
      : `${counted(met.length, 'row')} on both sides${all ? '' : ' (--all shows them)'}: ${text(sum)}.`,
    unpaidNote(unpaid),
    onlyListed.length > 0 &&
      'Only in the list: not recorded, or recorded on another day or with another amount.',
    onlyMoved.length > 0 &&
      'Only in the book: not paid this way, or not yet. What is cash is in no list.',
    'Records are found by a number that is on both, then by amount and day, then as payouts: several sales of one channel less fees.',
  );
}

/** How to record the first payment; the others are told by their records. */
function unpaidNote([first, ...more]: readonly MoneyMatch[]): string | undefined {
  const [sale] = first?.moved ?? [];
  if (!first || !sale) return undefined;
  const { row, date } = first.listed;
  const others = more.length === 0 ? '' : `; so too ${counted(more.length, 'row')} with a record`;
  return `Row ${row} names ${sale.id}, which is not paid in the book. If this is its payment: saggar amend ${sale.id} paid=${date}${others}`;
}

interface MonthLine {
  readonly month: string;
  readonly rows: number;
  readonly list: Money;
  readonly book: Money;
  readonly both: Money;
  readonly onlyList: Money;
  readonly onlyBook: Money;
}

const MONTH_COLUMNS: readonly ColumnOf<MonthLine>[] = [
  { key: 'month', title: 'Month', type: 'text' },
  { key: 'rows', title: 'Rows', type: 'count', drop: 1 },
  { key: 'list', title: 'List', type: 'money' },
  { key: 'both', title: 'On both sides', type: 'money' },
  { key: 'onlyList', title: 'Only in the list', type: 'money' },
  { key: 'onlyBook', title: 'Only in the book', type: 'money' },
  { key: 'book', title: 'Book', type: 'money' },
];

const MONTH_SUMS: readonly AddedUp[] = [
  { total: 'list', plus: ['both', 'onlyList'] },
  { total: 'book', plus: ['both', 'onlyBook'] },
];

/** Month by month, by the list's days where a row is on both sides. */
export function matchByMonth(matched: MatchedList): Table {
  const { book, asOf, list } = matched;
  const months = [...grouped(matchLines(matched), ({ date }) => monthOf(date))].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
  const rows = withRows(
    MONTH_COLUMNS,
    months.map(([month, lines]) => monthLine(month, lines)),
  );
  return {
    report: 'match',
    title: `${list} against the book, by month`,
    ...tableHead(book, asOf),
    ...rows,
    totals: { ...sumsOf(rows), month: 'total' },
    sums: MONTH_SUMS,
    notes: matchNotes(matched, false),
    behind: once(() => months.map(([, lines]) => lines.flatMap(({ ids }) => ids))),
  };
}

/** What differs is on both sides as far as they agree, the rest on the side that has more. */
function monthLine(month: string, lines: readonly MatchLine[]): MonthLine {
  const all = (amounts: readonly (Money | undefined)[]): Money =>
    total(amounts.filter((amount) => amount !== undefined));
  const list = all(lines.map((line) => line.list));
  const book = all(lines.map((line) => line.book));
  const both = all(lines.filter((line) => line.list !== undefined).map((line) => line.book));
  const rows = lines.filter((line) => line.list !== undefined).length;
  return { month, rows, list, book, both, onlyList: less(list, both), onlyBook: less(book, both) };
}
