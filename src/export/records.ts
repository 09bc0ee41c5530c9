/** The tables that lead from figures to records: an index of all records, and what is behind each row. */
import type { Book, Day } from '../book.ts';
import { KINDS } from '../book.ts';
import { tableHead } from '../report/head.ts';
import type { RecordLine } from '../report/page.ts';
import type { Column, Row, Table } from '../report/table.ts';
import type { DataTable } from './data-table.ts';

/** A report of an export, by its name there. */
export interface NamedReport {
  readonly name: string;
  readonly table: Table;
}

const RECORD_COLUMNS: readonly Column[] = [
  { key: 'id', title: 'Id', type: 'id' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'what', title: 'What', type: 'text' },
  { key: 'file', title: 'File', type: 'text' },
  { key: 'line', title: 'Line in the file', type: 'count' },
];

const BEHIND_COLUMNS: readonly Column[] = [
  { key: 'report', title: 'Report', type: 'text' },
  { key: 'row', title: 'Row of the report, from 1', type: 'count' },
  { key: 'key', title: 'What the row is about', type: 'text' },
  { key: 'columns', title: 'Columns whose figures rest on it', type: 'text' },
  { key: 'record', title: 'Record', type: 'id' },
  { key: 'file', title: 'File', type: 'text' },
  { key: 'line', title: 'Line in the file', type: 'count' },
];

/** Ids of all records of a book, in the order of letters. */
export function allIds(book: Book): string[] {
  return KINDS.flatMap((kind) => [...book[kind].keys()]).sort();
}

/** Every record of the book with its place: what the other tables' ids lead to. */
export function recordsTable(
  book: Book,
  asOf: Day,
  records: ReadonlyMap<string, RecordLine>,
): DataTable {
  return {
    name: 'records',
    path: 'records.csv',
    title: 'Every record of the book, and where it stands',
    table: {
      report: 'records',
      title: 'Records',
      ...tableHead(book, asOf),
      columns: RECORD_COLUMNS,
      notes: [],
    },
    *rows() {
      for (const id of allIds(book)) {
        const { kind, date = null, what, file, line = null } = records.get(id) ?? {};
        if (file !== undefined) yield { id, kind: kind ?? '', date, what: what ?? '', file, line };
      }
    },
    primaryKey: ['id'],
    foreignKeys: [],
    required: ['kind', 'file'],
  };
}

/** The records behind each row of each report, with the columns whose figures rest on each. */
export function behindTable(
  book: Book,
  asOf: Day,
  {
    reports,
    records,
  }: { reports: readonly NamedReport[]; records: ReadonlyMap<string, RecordLine> },
): DataTable {
  return {
    name: 'behind',
    path: 'behind.csv',
    title: "The records behind each row of the reports' tables",
    table: {
      report: 'behind',
      title: 'Behind the figures',
      ...tableHead(book, asOf),
      columns: BEHIND_COLUMNS,
      notes: [],
    },
    *rows() {
      const marks = marksFor(records);
      for (const report of reports) yield* behindReport(report, marks);
    },
    primaryKey: ['report', 'row', 'record'],
    foreignKeys: [{ fields: ['record'], resource: 'records', to: ['id'] }],
    required: ['key', 'columns', 'file'],
  };
}

/**
 * All records in the order of their ids, each with a mark that is set anew for every row. Rows of many
 * years have tens of thousands of records, and sets of them would fill the memory.
 */
interface Marks {
  readonly records: readonly RecordLine[];
  readonly numberOf: ReadonlyMap<string, number>;
  /** Whether a record is behind the row: `OF_ALL` its figures, `OF_SOME`, or 0 for none. */
  readonly marks: Uint8Array;
}

const OF_SOME = 1;
const OF_ALL = 2;

function marksFor(records: ReadonlyMap<string, RecordLine>): Marks {
  const inOrder = [...records.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const numberOf = new Map([...inOrder.entries()].map(([number, { id }]) => [id, number]));
  return { records: inOrder, numberOf, marks: new Uint8Array(inOrder.length) };
}

function* behindReport({ name, table }: NamedReport, marks: Marks): Generator<Row> {
  for (const at of (table.behind?.() ?? []).keys()) {
    const row = table.rows[at] ?? {};
    const common = { report: name, row: at + 1, key: keyOf(table, row) };
    markBehind(table, at, marks);
    yield* markedRows(marks, common, columnsBy(table, row));
  }
}

/** The columns with a figure in the row, and those of them that some records only are behind. */
function columnsBy({ columns, further }: Table, row: Row): readonly string[] {
  const figures = columns
    .filter(({ type, key }) => FIGURES.has(type) && (row[key] ?? null) !== null)
    .map(({ key }) => key);
  const some = figures.filter((key) => further?.columns.includes(key));
  return ['', some.join(' '), figures.join(' ')];
}

function* markedRows(
  { records, marks }: Marks,
  common: Row,
  columns: readonly string[],
): Generator<Row> {
  for (let at = marks.findIndex(isMarked); at >= 0; at = nextMarked(marks, at)) {
    const { id = '', file = '', line = null } = records[at] ?? {};
    yield { ...common, columns: columns[marks[at] ?? 0] ?? '', record: id, file, line };
  }
}

function isMarked(mark: number): boolean {
  return mark !== 0;
}

function nextMarked(marks: Uint8Array, after: number): number {
  let at = after + 1;
  while (marks[at] === 0) at += 1;
  return at < marks.length ? at : -1;
}

/** Ids behind all figures of a row, and behind some only; those of rows that it is reckoned from count. */
function markBehind(table: Table, row: number, { numberOf, marks }: Marks): void {
  const mark = (ids: readonly string[] = [], as: number): void => {
    for (const id of ids) {
      const number = numberOf.get(id);
      if (number !== undefined) marks[number] = Math.max(as, marks[number] ?? 0);
    }
  };
  marks.fill(0);
  for (const at of rowsBehind(table, row)) {
    mark(table.behind?.()?.[at], OF_ALL);
    mark(table.further?.behind()?.[at], OF_SOME);
  }
}

/** The row, and those that it is reckoned from, whatever they are reckoned from in turn. */
function rowsBehind({ reckoned }: Table, row: number): number[] {
  const found = new Set([row]);
  for (const at of found) {
    const { plus = [], less = [], of = [] } = reckoned?.[at] ?? {};
    for (const next of [...plus, ...less, ...of]) found.add(next);
  }
  return [...found];
}

const FIGURES: ReadonlySet<Column['type']> = new Set([
  'count',
  'money',
  'rate',
  'quantity',
  'fraction',
]);

/** The row's texts before its first figure. */
function keyOf({ columns }: Table, row: Row): string {
  const first = columns.findIndex(({ type }) => FIGURES.has(type));
  const texts = columns.slice(0, first < 0 ? 1 : Math.max(1, first)).map(({ key }) => row[key]);
  return texts.filter((text) => typeof text === 'string' && text !== '').join(', ');
}
