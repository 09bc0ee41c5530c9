/** The first page of an export: what each of its files is for, and how much it is. */
import type { Day } from '../book.ts';
import { counted, revisionWords } from '../in-words.ts';
import {
  renderFileList,
  type FileGroup,
  type FileItem,
  type FileLink,
} from '../render/html/file-list.ts';
import type { BookCommit } from '../report/table.ts';
import type { DataTable, PackageHead, Resource } from './package.ts';
import type { NamedReport } from './records.ts';
import type { TextPage } from './texts.ts';

/** A report with what it is for. */
export interface ExportedReport extends NamedReport {
  /** What it says, in a sentence. */
  readonly about: string;
  /** Whether it is on how things were at the end of the days, not on what happened in them. */
  readonly isOfEnd: boolean;
}

/** All that was exported. */
interface Exported {
  readonly reports: readonly ExportedReport[];
  readonly parts: Readonly<Record<'index' | 'kinds' | 'reports', readonly DataTable[]>>;
  readonly texts: readonly TextPage[];
  readonly resources: ReadonlyMap<DataTable, Resource>;
  /** Bytes of the files that are no tables, by their paths. */
  readonly sizes: ReadonlyMap<string, number>;
  readonly errors: number;
  readonly days: { readonly end: Day };
  readonly revision?: BookCommit | undefined;
  readonly foot: string;
}

/** The page, with a link to every file. */
export function exportIndex(head: PackageHead, exported: Exported): string {
  const { studio, asOf, currency, span } = head;
  const { revision, errors, foot } = exported;
  const at = revision ? [revisionWords(revision)] : [];
  const caption = [`as of ${asOf}`, ...at, `reports of ${span}`, currency, ...errorWords(errors)];
  return renderFileList({
    title: `${studio}: records and reports`,
    caption: caption.join(' · '),
    footer: foot,
    groups: [...reportGroups(span, exported), ...recordGroups(exported)],
  });
}

function reportGroups(span: string, exported: Exported): readonly FileGroup[] {
  const { reports, days } = exported;
  const items = (isOfEnd: boolean): readonly FileItem[] =>
    reports
      .filter((each) => each.isOfEnd === isOfEnd)
      .map((each) => reportItem(each, exported))
      .map((item) => ({ ...item, title: item.title.replace(`, ${span}`, '') }));
  return [
    {
      title: `What happened, ${span}`,
      about:
        'Pages to read and print, whose figures lead to the records that they come from; and the same as tables (CSV) for spreadsheets and other programs.',
      items: items(false),
    },
    {
      title: `How things were on ${days.end}`,
      about: `Materials, pieces, galleries and the day are as of ${days.end}.`,
      items: items(true),
    },
  ];
}

function recordGroups(exported: Exported): readonly FileGroup[] {
  const { texts, parts, sizes } = exported;
  const table = (data: DataTable): FileItem => ({
    ...tableFile(data, exported),
    about: data.description ?? data.title,
  });
  const description = {
    path: DESCRIPTION,
    title: DESCRIPTION,
    size: sizeWords(sizes.get(DESCRIPTION) ?? 0),
    about:
      'What every column of every table holds, and which belong together (Data Package with Table Schema).',
  };
  return [
    {
      title: 'The records as they are written',
      about: "The studio's own files, line by line: what the records on the pages lead to.",
      items: texts.map((page, at) => textItem(page, exported, texts[at - 1])),
    },
    {
      title: 'The book as tables',
      about: 'Every record as CSV: a table for each kind, and one for each list in it.',
      items: parts.kinds.map(table),
    },
    {
      title: 'How the tables belong together',
      about: 'For programs, and for who looks up where a figure comes from.',
      items: [...parts.index.map(table), description],
    },
  ];
}

const DESCRIPTION = 'datapackage.json';

function reportItem({ name, table, about }: ExportedReport, exported: Exported): FileItem {
  const path = `pages/${name}.html`;
  const data = exported.parts.reports.find((each) => each.path === `reports/${name}.csv`);
  const size = sizeWords(exported.sizes.get(path) ?? 0);
  const also = data && { ...tableFile(data, exported), title: `${name}.csv` };
  return { path, title: table.title, size, about, ...(also && { also }) };
}

/** Pages of one kind say once what is on them. */
function textItem(
  { path, title, about, files }: TextPage,
  { sizes }: Exported,
  before: TextPage | undefined,
): FileItem {
  const size = `${counted(files.length, 'file')}, ${sizeWords(sizes.get(path) ?? 0)}`;
  return { path, title, size, about: about === before?.about ? '' : about };
}

function tableFile(data: DataTable, { resources }: Exported): FileLink {
  const { path } = data;
  const { rows = 0, bytes = 0 } = resources.get(data) ?? {};
  return { path, title: path, size: `${counted(rows, 'row')}, ${sizeWords(bytes)}` };
}

/** Keys may lead nowhere then. */
function errorWords(errors: number): string[] {
  if (errors === 0) return [];
  return [`${counted(errors, 'error')}: records with errors are left out`];
}

/** In whole thousands of bytes, or in millions with one decimal. */
export function sizeWords(bytes: number): string {
  if (bytes < 1000) return 'under 1 KB';
  return bytes < 999_500 ? `${Math.round(bytes / 1000)} KB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
