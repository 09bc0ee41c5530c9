/** The records behind a page's figures: for each row of a table what its figures are made of, and a list with file and line. */
import { counted } from '../../in-words.ts';
import { type ReportPage, chartTables } from '../../report/page.ts';
import type { Table } from '../../report/table.ts';
import { figureItems, totalItems } from './figure-words.ts';
import { hasLeads, isTotalOfRows, tableLeads, type LeadingRow } from './leads.ts';
import { markup, NO_MARKUP, type Markup } from './markup.ts';
import { recordTables } from './record-table.ts';
import { listNumber, recordsId, rowId, rowLabel } from './table.ts';
import type { TableToRead } from '../shown.ts';

/** A longer list is closed until somebody asks for it. */
const LONGEST_OPEN = 12;

/** Rows that lead on, of one table. */
interface LeadingTable {
  readonly reading: TableToRead;
  readonly number: number;
  readonly rows: readonly LeadingRow[];
}

/** The section at the page's end, piece by piece; nothing where no table names any records. */
export function* recordsSection(page: ReportPage): Generator<Markup> {
  const tables = page.tables.map((table, at) => rowsLeading(page, table, at + 1));
  const charts = chartTables(page).map(({ table, number }) => rowsLeading(page, table, number));
  const rows = [...tables, ...charts].flatMap((each) => each.rows);
  if (rows.length === 0) return;
  yield markup`
  <section aria-labelledby="records" class="records">
    <details${isOpen(rows.reduce((count, row) => count + recordCount(row), 0))}>
    <summary><h2 id="records">Records</h2> <small>${counted(distinctRecords(rows), 'record')}</small></summary>
    <p>
      The records that each row's figures come from, with the file and the line where each begins, and
      what each brings to the figures.
    </p>
    `;
  yield* listsOfTables(page, tables);
  yield markup`<div class="of-charts">`;
  yield* listsOfTables(page, charts);
  yield markup`</div>
    </details>
  </section>`;
}

/** All, each once; those of long ago are counted row by row. */
function distinctRecords(rows: readonly LeadingRow[]): number {
  const all = rows.flatMap(({ leads: { records, further } }) => [...records, ...further]);
  const earlier = rows.reduce((count, { leads }) => Math.max(count, leads.earlier), 0);
  return new Set(all.map(({ id }) => id)).size + earlier;
}

function recordCount({ leads: { records, further, earlier } }: LeadingRow): number {
  return records.length + further.length + earlier;
}

function isOpen(count: number): Markup {
  return count > LONGEST_OPEN ? NO_MARKUP : markup` open`;
}

/** The rows of a table from which something leads on. */
function rowsLeading(page: ReportPage, table: Table, number: number): LeadingTable {
  const { reading, rows } = tableLeads(page, table);
  const leading = rows.map((leads, at) => ({ reading, number, at, leads }));
  return { reading, number, rows: leading.filter(({ leads }) => hasLeads(leads)) };
}

/** A line for each table. */
function* listsOfTables(page: ReportPage, tables: readonly LeadingTable[]): Generator<Markup> {
  for (const { reading, number, rows } of tables) {
    if (rows.length === 0) continue;
    yield markup`<div id="${recordsId(number)}">${totalsOf(reading.table, number)}`;
    for (const row of rows) yield* rowRecords(page, row);
    yield markup`</div>
    `;
  }
}

/** What the totals of a table add up. */
function totalsOf(table: Table, number: number): Markup {
  const columns = table.columns.filter(
    ({ key, dataOnly }) => dataOnly !== true && isTotalOfRows(table, key),
  );
  if (columns.length === 0) return NO_MARKUP;
  return markup`
    <ul class="made-of">${totalItems(table, columns, number)}</ul>`;
}

function* rowRecords(page: ReportPage, row: LeadingRow): Generator<Markup> {
  const { reading, number, at } = row;
  const label = rowLabel(reading, at);
  const count = recordCount(row);
  const said = count === 0 ? NO_MARKUP : markup` <small>${counted(count, 'record')}</small>`;
  yield markup`
    <details${isOpen(count)} id="${recordsId(number, at)}">
    <summary><h3><span class="on-paper">${listNumber(number, at)}</span> ${label === '' ? 'Row' : label}</h3>${said}</summary>
    <ul class="made-of">${figureItems(row)}${wayBack(row)}</ul>`;
  yield* recordTables(page, row);
  yield markup`</details>`;
}

/** The rows of a page of labelled lines are nowhere to be seen. */
function wayBack({ reading, number, at }: LeadingRow): Markup {
  if (reading.table.sheet) return NO_MARKUP;
  return markup`
    <li class="back"><a href="#${rowId(number, at)}">Back to the row</a></li>`;
}
