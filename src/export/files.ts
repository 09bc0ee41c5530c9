/** The files of an export but its pages: CSV of every record and report, their description, and a first page. */
import { Buffer } from 'node:buffer';
import { createHash } from 'node:crypto';
import type { Book, Day } from '../book.ts';
import { tableLines } from '../render/csv.ts';
import { spanInWords } from '../report/head.ts';
import type { BookCommit } from '../report/table.ts';
import { flatten } from './flatten.ts';
import { type ExportedReport, exportIndex } from './index-page.ts';
import { type DataTable, type Resource, dataPackage } from './package.ts';
import type { TextPage } from './texts.ts';
import { behindTable, recordsTable, type NamedReport, type RecordIndex } from './records.ts';

/** What is exported beside the book. */
interface ExportSource {
  readonly reports: readonly ExportedReport[];
  readonly records: RecordIndex;
  /** Pages of the reports and of the studio's files, which others make. */
  readonly pages: Iterable<ExportFile>;
  readonly texts: readonly TextPage[];
  /** How many errors the book has: what is not sound is left out. */
  readonly errors: number;
  /** The days of the reports on what happened, and the day of those on how things are. */
  readonly days: { readonly from: Day; readonly to: Day; readonly end: Day };
  /** The commit whose book it is, where it is not the one on the disk. */
  readonly revision?: BookCommit | undefined;
  /** What the foot of its first page says. */
  readonly foot: string;
}

/** A file of an export: its path, with forward slashes, and its text, whole or in pieces. */
export type ExportFile = readonly [path: string, text: string | Iterable<string>];

/**
 * `records.csv`, `sources.csv`, `records/KIND.csv` and `reports/REPORT.csv`, then `datapackage.json`, which
 * is known once they are written, the pages, and last `index.html`, which leads to all of them. Each is to be
 * gone through before the next.
 */
export function* exportFiles(book: Book, asOf: Day, exported: ExportSource): Generator<ExportFile> {
  const { reports, records } = exported;
  const kinds = flatten(book, (id) => records.get(id)?.line);
  const index = [recordsTable(records), behindTable(reports, records)];
  const parts = { index, kinds, reports: reports.map(reportTable) };
  const resources = new Map<DataTable, Resource>();
  for (const data of [...index, ...kinds, ...parts.reports])
    yield [data.path, csvOf(data, (resource) => resources.set(data, resource))];
  const { name: studio, currency } = book.studio;
  const head = { studio, asOf, currency, span: spanInWords(exported.days) };
  const description = dataPackage(head, [...resources.values()]);
  const sizes = new Map([['datapackage.json', Buffer.byteLength(description)]]);
  yield ['datapackage.json', description];
  for (const [path, text] of exported.pages) yield [path, sized(path, text, sizes)];
  yield ['index.html', exportIndex(head, { ...exported, parts, resources, sizes })];
}

/** Notes how many bytes were written of a file. */
function* sized(
  path: string,
  text: string | Iterable<string>,
  sizes: Map<string, number>,
): Generator<string> {
  let bytes = 0;
  for (const piece of typeof text === 'string' ? [text] : text) {
    bytes += Buffer.byteLength(piece);
    yield piece;
  }
  sizes.set(path, bytes);
}

/** Signs of a piece: enough that writing it takes longer than its making. */
const CSV_PIECE = 1 << 16;

/** The CSV of a table in pieces; at its end it is told what was written. */
function* csvOf(data: DataTable, tell: (written: Resource) => void): Generator<string> {
  const hash = createHash('sha256');
  let [piece, bytes, lines] = ['', 0, 0];
  const ended = (): string => {
    const whole = piece;
    piece = '';
    hash.update(whole);
    bytes += Buffer.byteLength(whole);
    return whole;
  };
  for (const line of data.lines()) {
    lines += 1;
    piece += line;
    if (piece.length >= CSV_PIECE) yield ended();
  }
  yield ended();
  tell({ data, rows: lines - 1, bytes, hash: hash.digest('hex') });
}

function reportTable({ name, table }: NamedReport): DataTable {
  return {
    name: `report-${name}`,
    path: `reports/${name}.csv`,
    title: table.title,
    ...(table.notes.length === 0 ? {} : { description: table.notes.join(' ') }),
    columns: table.columns,
    lines: () => tableLines(table),
    primaryKey: [],
    foreignKeys: [],
    required: [],
  };
}
