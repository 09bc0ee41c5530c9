/** The files of an export but its pages: CSV of every record and report, their description, and a first page. */
import type { Book, Day } from '../book.ts';
import { renderCsv } from '../render/csv.ts';
import { renderContents, type ContentsItem } from '../render/html/contents.ts';
import { spanInWords } from '../report/head.ts';
import type { RecordLine } from '../report/page.ts';
import type { DataTable } from './data-table.ts';
import { flatten } from './flatten.ts';
import { dataPackage } from './package.ts';
import { behindTable, recordsTable, type NamedReport } from './records.ts';

/** What is exported beside the book. */
export interface Exported {
  readonly reports: readonly NamedReport[];
  /** Every record of the book. */
  readonly records: ReadonlyMap<string, RecordLine>;
  /** How many errors the book has: what is not sound is left out. */
  readonly errors: number;
  /** The days of the reports that are of a span. */
  readonly span: { readonly from: Day; readonly to: Day };
}

/**
 * Path → text: `datapackage.json`, `index.html`, `records.csv`, `behind.csv`, `records/KIND.csv` and
 * `reports/REPORT.csv`. `index.html` leads to `pages/REPORT.html` too, which others make.
 */
export function exportFiles(book: Book, asOf: Day, exported: Exported): Map<string, string> {
  const { reports, records, span, errors } = exported;
  const kinds = flatten(book, { asOf, lineOf: (id) => records.get(id)?.line });
  const index = [recordsTable(book, asOf, records), behindTable(book, asOf, exported)];
  const tables = [...index, ...kinds, ...reports.map(reportTable)];
  const resources = tables.map((data) => ({ data, csv: renderCsv(data.table) }));
  const { name: studio, currency } = book.studio;
  const head = { studio, asOf, currency, span: spanInWords(span) };
  const contents = renderContents({
    title: `${studio}: records and reports`,
    caption: [`as of ${asOf} · reports of ${head.span} · ${currency}`, ...errorWords(errors)].join(
      ' · ',
    ),
    groups: [
      {
        title: 'Reports',
        about: 'As pages to read and print. Each figure leads to the records behind it.',
        items: reports.map(({ name, table }) => ({
          path: `pages/${name}.html`,
          title: table.title,
          about: '',
        })),
      },
      {
        title: 'The same as tables',
        about:
          'CSV for spreadsheets and other programs. behind.csv lists the records behind each row.',
        items: [...reports.map(reportTable), ...index].map(contentsItem),
      },
      {
        title: 'The book as tables',
        about:
          'Every record, a table for each kind and one for each list in it. datapackage.json says what every column holds and how the tables belong together (Data Package with Table Schema).',
        items: [
          ...kinds.map(contentsItem),
          { path: 'datapackage.json', title: 'datapackage.json', about: '' },
        ],
      },
    ],
  });
  return new Map([
    ['index.html', contents],
    ['datapackage.json', dataPackage(head, resources)],
    ...resources.map(({ data, csv }) => [data.path, csv] as const),
  ]);
}

/** Keys may lead nowhere then. */
function errorWords(errors: number): string[] {
  if (errors === 0) return [];
  return [
    `only of what is sound: ${errors === 1 ? '1 error stands' : `${errors} errors stand`} in the way`,
  ];
}

function reportTable({ name, table }: NamedReport): DataTable {
  return {
    name: `report-${name}`,
    path: `reports/${name}.csv`,
    title: table.title,
    ...(table.notes.length === 0 ? {} : { description: table.notes.join(' ') }),
    table,
    primaryKey: [],
    foreignKeys: [],
    required: [],
  };
}

function contentsItem({ path, table }: DataTable): ContentsItem {
  const rows = table.rows.length === 1 ? '1 row' : `${table.rows.length} rows`;
  return { path, title: path, about: rows };
}
