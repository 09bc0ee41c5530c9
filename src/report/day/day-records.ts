/** The records of a day with their ids: what is dated on it, and what happened to earlier ones on it. */
import { EVENT_KINDS, type Book, type Day, type Lot, type Paid } from '../../book.ts';
import { recordsDated, recordsDuring, type Records } from '../../among.ts';
import { changesInOrder, type Changing } from '../../in-force.ts';
import type { Money } from '../../number/money.ts';
import { once } from '../../once.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { chargedFor, dueFor, invoiceTotal } from '../../reckon/sales/debts.ts';
import { tableHead } from '../head.ts';
import { recordWords } from '../record-words.ts';
import type { Column, Row, Table } from '../table.ts';
import { amountText, weekdayText } from './day-words.ts';

/** A record of the list. */
interface DayRecord {
  readonly id: string;
  /** What happened to it on that day, where it is dated on another. */
  readonly happened?: string;
  /** What it comes to. */
  readonly amount?: Money | undefined;
}

/** A record in words, and its place. */
export type RecordOfDay = ReturnType<typeof recordsInWords>[number];

/** Those that are dated on the day, in the order of a studio's day, then earlier ones, then definitions. */
export function recordsOf(book: Book, day: Day): RecordOfDay[] {
  const dated = EVENT_KINDS.flatMap((kind) => {
    const records: Records<{ readonly id: string; readonly date: Day }> = book[kind];
    return recordsDated(records, { from: day, to: day }).map(({ id }) => id);
  });
  const earlier = [...EARLIER.flatMap((look) => look(book, day)), ...definitionsOn(book, day)];
  return recordsInWords(book, [
    ...dated.map((id) => ({ id, amount: amountOf(book, id) })),
    ...earlier,
  ]);
}

function recordsInWords(book: Book, records: readonly DayRecord[]) {
  const digits = digitsOf(book);
  return records.flatMap(({ id, happened, amount }) =>
    recordWords(book, [id]).map(({ kind, date, what, file }) => {
      const isSaid = book.spent.has(id) || book.advances.has(id);
      const money = amount === undefined || isSaid ? '' : amountText(amount, digits);
      const said = [what, happened ?? money]
        .filter((part) => part !== '')
        .join(happened ? ': ' : ', ');
      return { id, kind, date, what: said, amount, file };
    }),
  );
}

/** What the record comes to by itself. */
function amountOf(book: Book, id: string): Money | undefined {
  const [bought, sale] = [book.bought.get(id), book.sales.get(id)];
  const paid = book.spent.get(id) ?? book.advances.get(id);
  if (bought) return invoiceTotal(book, bought);
  return sale ? chargedFor(book, sale) : paid && booked(book, paid.amount);
}

/** What may happen to records after the day that they are dated on. */
const EARLIER: readonly ((book: Book, day: Day) => DayRecord[])[] = [
  (book, day) => earlierOf(book.pieces, day).flatMap((lot) => leftOn(lot, day)),
  (book, day) =>
    earlierOf(book.firings, day)
      .filter(({ unloaded }) => unloaded === day)
      .map(({ id }) => ({ id, happened: 'unloaded' })),
  (book, day) => paidIn(book.sales, day).map((sale) => paidOf(book, sale.id, dueFor(book, sale))),
  (book, day) =>
    earlierOf(book.consigned, day)
      .filter(({ missing = [] }) => missing.some(({ paid }) => paid === day))
      .map(({ id }) => ({ id, happened: 'paid for missing pieces' })),
  (book, day) =>
    paidIn(book.bought, day).map((bought) => paidOf(book, bought.id, invoiceTotal(book, bought))),
  (book, day) =>
    paidIn(book.spent, day).map(({ id, amount }) => paidOf(book, id, booked(book, amount))),
  (book, day) =>
    earlierOf(book.advances, day)
      .filter(({ refunded = [] }) => refunded.some(({ date }) => date === day))
      .map(({ id }) => ({ id, happened: 'refunded' })),
];

function earlierOf<T extends { readonly date: Day }>(records: Records<T>, day: Day): T[] {
  return [...recordsDuring(records, { from: day, to: day })].filter(({ date }) => date < day);
}

function paidIn<T extends { readonly date: Day; readonly paid?: Paid }>(
  records: Records<T>,
  day: Day,
): T[] {
  return earlierOf(records, day).filter(({ paid }) => paid === day);
}

function paidOf(book: Book, id: string, amount: Money): DayRecord {
  return { id, happened: `paid, ${amountText(amount, digitsOf(book))}`, amount };
}

/** `2 lost (cracked), 1 gone (gift)`. */
function leftOn({ id, lost = [], gone = [] }: Lot, day: Day): DayRecord[] {
  const said = [
    ...lost.map(({ date, count, why }) => ({ date, words: `${count} lost (${why})` })),
    ...gone.map(({ date, count, how }) => ({ date, words: `${count} gone (${how})` })),
  ].filter(({ date }) => date === day);
  if (said.length === 0) return [];
  return [{ id, happened: said.map(({ words }) => words).join(', ') }];
}

/** Definitions have no date: they count on the day from which one of their changes, or a new price of theirs, holds. */
function definitionsOn(book: Book, day: Day): DayRecord[] {
  const changing = (['products', 'classes', 'channels'] as const).flatMap((kind) => {
    const all: ReadonlyMap<string, Changing> = book[kind];
    return [...all]
      .filter(([, each]) => changesInOrder(each).some(({ from }) => from === day))
      .map(([id]) => id);
  });
  const tariffs = [...book.tariffs.values()].filter(({ from }) => from === day);
  const recipes = [...book.recipes.values()].filter(({ versions }) =>
    versions.some(({ from }) => from === day),
  );
  return [...changing, ...tariffs.map(({ id }) => id), ...recipes.map(({ id }) => id)].map(
    (id) => ({ id, happened: 'from this day on' }),
  );
}

const RECORD_COLUMNS: readonly Column[] = [
  { key: 'record', title: 'Record', type: 'id' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'date', title: 'Date', type: 'date', dataOnly: true },
  { key: 'what', title: 'What', type: 'text' },
  { key: 'amount', title: 'Amount', type: 'money', dataOnly: true },
  { key: 'file', title: 'File', type: 'text', dataOnly: true },
  { key: 'commit', title: 'Git', type: 'text' },
];

/** What git says of some records, by id, and how a command is to be typed for this studio, where one may be. */
interface ListAround {
  readonly marks: ReadonlyMap<string, string>;
  readonly typed: ((words: string) => string) | undefined;
}

/** The list of a day's records, for people and for programs. */
export function dayRecordsTable(
  book: Book,
  {
    day,
    asOf,
    records,
  }: { readonly day: Day; readonly asOf: Day; readonly records: readonly RecordOfDay[] },
  { marks, typed }: ListAround,
): Table {
  const commands = typed && [
    `Show one: ${typed('show ID')}`,
    `Correct one: ${typed('amend ID FIELD=VALUE')}`,
    `Take one out: ${typed('remove ID')}`,
  ];
  const isMarked = records.some(({ id }) => marks.has(id));
  return {
    report: 'day',
    title: `Records of ${weekdayText(day)}`,
    ...tableHead(book, asOf),
    columns: RECORD_COLUMNS.map((column) =>
      column.key === 'commit' && !isMarked ? { ...column, dataOnly: true } : column,
    ),
    rows: records.map(({ id, kind, date, what, amount, file }): Row => ({
      ...{ record: id, kind, date: date ?? null, what, amount: amount ?? null, file },
      commit: marks.get(id) ?? null,
    })),
    notes: records.length === 0 ? [] : (commands ?? []),
    behind: once(() => records.map(({ id }) => [id])),
  };
}
