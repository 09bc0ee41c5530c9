/** The tables that lead from figures to records: an index of all records, and what is behind each row. */
import { csvCells, csvHead, csvLines, CSV_LINE_END } from '../render/csv.ts';
import type { RecordLine } from '../report/page.ts';
import { isFigure } from '../render/shown.ts';
import { broughtTo } from '../report/brought.ts';
import type { Cell, Column, RecordFigures, Row, Table } from '../report/table.ts';
import type { DataTable } from './package.ts';

/** Every record of a book, in the order of their ids. */
export type RecordIndex = ReadonlyMap<string, RecordLine>;

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
  { key: 'amount', title: 'What it brings to the figure of the period', type: 'money' },
  { key: 'amountToDate', title: 'What it brings to the figure to date', type: 'money' },
];

const OF_ROW = BEHIND_COLUMNS.slice(0, 4);
const OF_RECORD = BEHIND_COLUMNS.slice(4, 7);
const OF_AMOUNT = BEHIND_COLUMNS.slice(7);
/** The columns of a report that these are of. */
const AMOUNTS_OF = ['amount', 'toDate'] as const;

/** Every record of the book with its place: what the other tables' ids lead to. */
export function recordsTable(records: RecordIndex): DataTable {
  return {
    name: 'records',
    path: 'records.csv',
    title: 'Every record of the book, with its file and line',
    columns: RECORD_COLUMNS,
    lines: () => csvLines({ columns: RECORD_COLUMNS, minorDigits: 0 }, recordRows(records)),
    primaryKey: ['id'],
    foreignKeys: [],
    required: ['kind', 'file'],
  };
}

function* recordRows(records: RecordIndex): Generator<readonly Cell[]> {
  for (const { id, kind, date = null, what, file, line = null } of records.values())
    yield [id, kind, date, what, file, line];
}

/** The records behind each row of each report, with the columns whose figures rest on each. */
export function behindTable(reports: readonly NamedReport[], records: RecordIndex): DataTable {
  return {
    name: 'sources',
    path: 'sources.csv',
    title: "The records that each row's figures come from, with file and line",
    columns: BEHIND_COLUMNS,
    lines: () => behindLines(reports, records),
    primaryKey: ['report', 'row', 'record'],
    foreignKeys: [{ fields: ['record'], resource: 'records', to: ['id'] }],
    required: ['key', 'file'],
  };
}

/**
 * All records by their numbers. Rows of many years have tens of thousands of them, so how a line ends is
 * made once for a record, and how it begins once for a row.
 */
interface Numbered {
  readonly numbers: ReadonlyMap<string, number>;
  readonly ids: readonly string[];
  readonly ends: readonly string[];
  /** Whether a record is behind the row: `OF_ALL` its figures, `OF_SOME`, or 0 for none. */
  readonly marks: Uint8Array;
}

const OF_SOME = 1;
const OF_ALL = 2;

function* behindLines(reports: readonly NamedReport[], records: RecordIndex): Generator<string> {
  yield csvHead(BEHIND_COLUMNS);
  const numbered = {
    numbers: new Map([...records.keys()].map((id, number) => [id, number])),
    ids: [...records.keys()],
    ends: Array.from(records.values(), ({ id, file, line = null }) =>
      csvCells(OF_RECORD, [id, file, line], 0),
    ),
    marks: new Uint8Array(records.size),
  };
  for (const report of reports) yield* behindReport(report, numbered);
}

function* behindReport({ name, table }: NamedReport, numbered: Numbered): Generator<string> {
  const { minorDigits } = table;
  for (const at of (table.behind?.() ?? []).keys()) {
    const row = table.rows[at] ?? {};
    const common = [name, at + 1, keyOfRow(table, row)];
    const begins = columnsBy(table, row).map((by) => csvCells(OF_ROW, [...common, by], 0));
    const amounts = AMOUNTS_OF.map((key) => broughtTo(table, key, at));
    for (const number of markBehind(table, at, numbered)) {
      const end = numbered.ends[number] ?? '';
      const brought = csvCells(OF_AMOUNT, broughtBy(amounts, numbered.ids[number]), minorDigits);
      yield `${begins[numbered.marks[number] ?? 0] ?? ''},${end},${brought}${CSV_LINE_END}`;
    }
  }
}

function broughtBy(amounts: readonly RecordFigures[], id = ''): readonly Cell[] {
  return amounts.map((each) => each?.get(id) ?? null);
}

/** The columns with a figure in the row, and those of them that some records only are behind. */
function columnsBy({ columns, further }: Table, row: Row): readonly string[] {
  const figures = columns
    .filter((column) => isFigure(column) && (row[column.key] ?? null) !== null)
    .map(({ key }) => key);
  const some = figures.filter((key) => further?.columns.includes(key));
  return ['', some.join(' '), figures.join(' ')];
}

/**
 * Marks what is behind all figures of a row, and behind some only; of rows that it is reckoned from too.
 * Gives the numbers of those records in their order.
 */
function markBehind(table: Table, row: number, { numbers, marks }: Numbered): Uint32Array {
  const found: number[] = [];
  const mark = (ids: readonly string[] = [], as: number): void => {
    for (const id of ids) {
      const number = numbers.get(id);
      if (number === undefined) continue;
      if (marks[number] === 0) found.push(number);
      marks[number] = Math.max(as, marks[number] ?? 0);
    }
  };
  marks.fill(0);
  for (const at of rowsBehind(table, row)) {
    mark(table.behind?.()?.[at], OF_ALL);
    mark(table.further?.behind()?.[at], OF_SOME);
  }
  return Uint32Array.from(found).sort((a, b) => a - b);
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

/** The row's texts before its first figure. */
function keyOfRow({ columns }: Table, row: Row): string {
  const first = columns.findIndex(isFigure);
  const texts = columns.slice(0, first < 0 ? 1 : Math.max(1, first)).map(({ key }) => row[key]);
  return texts.filter((text) => typeof text === 'string' && text !== '').join(', ');
}
