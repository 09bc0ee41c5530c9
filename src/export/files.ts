/** The files of an export but its pages: CSV of every record and report, their description, and a first page. */
import { Buffer } from 'node:buffer';
import { createHash } from 'node:crypto';
import type { Book, Day } from '../book.ts';
import { counted, revisionWords } from '../in-words.ts';
import { tableLines } from '../render/csv.ts';
import { renderContents, type ContentsItem } from '../render/html/document.ts';
import { spanInWords } from '../report/head.ts';
import type { BookCommit } from '../report/table.ts';
import { flatten } from './flatten.ts';
import { type DataTable, type PackageHead, type Resource, dataPackage } from './package.ts';
import { behindTable, recordsTable, type NamedReport, type RecordIndex } from './records.ts';

/** What is exported beside the book. */
interface ExportSource {
  readonly reports: readonly NamedReport[];
  readonly records: RecordIndex;
  /** How many errors the book has: what is not sound is left out. */
  readonly errors: number;
  /** The days of the reports on what happened, and the day of those on how things are. */
  readonly days: { readonly from: Day; readonly to: Day; readonly end: Day };
  /** The commit whose book it is, where it is not the one on the disk. */
  readonly revision?: BookCommit | undefined;
}

/** A file of an export: its path, with forward slashes, and its text, whole or in pieces. */
export type ExportFile = readonly [path: string, text: string | Iterable<string>];

/**
 * `records.csv`, `sources.csv`, `records/KIND.csv` and `reports/REPORT.csv`, then `datapackage.json` and
 * `index.html`, which are known once the others are written. Each is to be gone through before the next.
 * `index.html` leads to `pages/REPORT.html` too, which others make.
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
  yield ['datapackage.json', dataPackage(head, [...resources.values()])];
  yield ['index.html', contentsOf(head, { exported, parts, resources })];
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

interface ExportContents {
  readonly exported: ExportSource;
  readonly parts: Readonly<Record<'index' | 'kinds' | 'reports', readonly DataTable[]>>;
  readonly resources: ReadonlyMap<DataTable, Resource>;
}

function contentsOf(
  { studio, asOf, currency, span }: PackageHead,
  { exported, parts, resources }: ExportContents,
): string {
  const item = (data: DataTable): ContentsItem =>
    contentsItem(data, resources.get(data)?.rows ?? 0);
  const { revision } = exported;
  const at = revision ? [revisionWords(revision)] : [];
  const caption = [`as of ${asOf}`, ...at, `reports of ${span}`, currency];
  return renderContents({
    title: `${studio}: records and reports`,
    caption: [...caption, ...errorWords(exported.errors)].join(' · '),
    groups: [
      {
        title: 'Reports',
        about: `As pages to read and print. Each figure leads to the records it comes from. Materials, pieces, galleries and the day are as of ${exported.days.end}.`,
        items: exported.reports.map(({ name, table }) => ({
          path: `pages/${name}.html`,
          title: table.title,
          about: '',
        })),
      },
      {
        title: 'The same as tables',
        about:
          'CSV for spreadsheets and other programs. sources.csv lists the records that the figures of each row come from.',
        items: [...parts.reports, ...parts.index].map(item),
      },
      {
        title: 'The book as tables',
        about:
          'Every record, a table for each kind and one for each list in it. datapackage.json says what every column holds and how the tables belong together (Data Package with Table Schema).',
        items: [
          ...parts.kinds.map(item),
          { path: 'datapackage.json', title: 'datapackage.json', about: '' },
        ],
      },
    ],
  });
}

/** Keys may lead nowhere then. */
function errorWords(errors: number): string[] {
  if (errors === 0) return [];
  return [`${counted(errors, 'error')}: records with errors are left out`];
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

function contentsItem({ path }: DataTable, rows: number): ContentsItem {
  return { path, title: path, about: rows === 1 ? '1 row' : `${rows} rows` };
}
