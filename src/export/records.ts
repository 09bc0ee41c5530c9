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
      for (const report of reports) yield* behindReport(report, records);
    },
    primaryKey: ['report', 'row', 'record'],
    foreignKeys: [{ fields: ['record'], resource: 'records', to: ['id'] }],
    required: ['key', 'columns', 'file'],
  };
}

function* behindReport(
  report: NamedReport,
  records: ReadonlyMap<string, RecordLine>,
): Generator<Row> {
  for (const at of (report.table.behind?.() ?? []).keys()) yield* behindRow(report, at, records);
}

function* behindRow(
  { name, table }: NamedReport,
  at: number,
  records: ReadonlyMap<string, RecordLine>,
): Generator<Row> {
  const { further, columns, rows } = table;
  const row = rows[at] ?? {};
  const filled = columns.filter(
    ({ type, key }) => FIGURES.has(type) && (row[key] ?? null) !== null,
  );
  const figures = filled.map(({ key }) => key);
  const some = figures.filter((key) => further?.columns.includes(key)).join(' ');
  const { all, later } = idsBehindRow(table, at);
  const common = { report: name, row: at + 1, key: keyOf(table, row) };
  for (const id of [...all, ...later].sort()) {
    const { file, line = null } = records.get(id) ?? {};
    if (file === undefined) continue;
    yield { ...common, columns: all.has(id) ? figures.join(' ') : some, record: id, file, line };
  }
}

/** Ids behind all figures of a row, and behind some only; those of rows that it is reckoned from count. */
function idsBehindRow(table: Table, row: number): { all: Set<string>; later: Set<string> } {
  const rows = rowsBehind(table, row);
  const all = new Set(rows.flatMap((at) => table.behind?.()?.[at] ?? []));
  const later = rows.flatMap((at) => table.further?.behind()?.[at] ?? []);
  return { all, later: new Set(later.filter((id) => !all.has(id))) };
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
