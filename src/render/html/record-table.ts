/** Lists of records: a line each, with what it brings to each figure, and those figures above them. */
import { counted } from '../../in-words.ts';
import type { LineAddress, ReportPage, RecordLine } from '../../report/page.ts';
import type { Column, Row, Table } from '../../report/table.ts';
import { plainly } from '../paint.ts';
import { besidePage } from './address.ts';
import { shownColumn, unitInRow, type ShownColumn } from '../shown.ts';
import type { FigureLead, LeadingRow } from './leads.ts';
import { markup, NO_MARKUP, type Markup } from './markup.ts';
import { recordsId } from './table.ts';

/** The records of a row, and below them those that only some of its figures rest on. */
export function* recordTables(page: ReportPage, row: LeadingRow): Generator<Markup> {
  const { records, further, figures } = row.leads;
  const known = figures.filter(({ brought }) => brought !== undefined);
  yield* recordTable(page, row, { records, figures: known });
  if (further.length === 0) return;
  yield markup`
    <p class="further">${row.reading.table.further?.words}:</p>`;
  yield* recordTable(page, row, { records: further, figures: [] });
}

/** Records, and the figures that they bring something to. */
interface BroughtList {
  readonly records: readonly RecordLine[];
  readonly figures: readonly FigureLead[];
}

function* recordTable(page: ReportPage, row: LeadingRow, list: BroughtList): Generator<Markup> {
  const { records, figures } = list;
  if (records.length === 0) return;
  const { minorDigits } = row.reading.table;
  const shown = broughtColumns(row, list);
  const heads = shown.map(({ head }) => markup`<th scope="col">${head}</th>`);
  const isAlone = records.length === 1 && row.leads.earlier === 0;
  const ids = figures.map(({ column }) => recordsId(row.number, row.at, column.key));
  yield markup`
    <div class="scroll"><table>
    <thead><tr><th scope="col">Date</th><th scope="col">Record</th>${heads}</tr></thead>`;
  if (shown.length > 0 && !isAlone) yield sumLine(row, shown, ids);
  yield markup`
    <tbody>`;
  if (row.leads.earlier > 0) yield earlierLine(row, figures, minorDigits);
  for (const [at, record] of records.entries()) {
    const cells = shown.map(({ cells: texts }, nth) =>
      isAlone ? markup`<td id="${ids[nth]}">${texts[at]}</td>` : markup`<td>${texts[at]}</td>`,
    );
    yield markup`
    <tr>${recordCells(page, record)}${cells}</tr>`;
  }
  yield markup`
    </tbody></table></div>`;
}

/** What the records bring, with the figures that they add up to. */
function broughtColumns({ reading: { table }, at }: LeadingRow, list: BroughtList): ShownColumn[] {
  const { records, figures } = list;
  const rows = records.map(({ id }): Row =>
    Object.fromEntries(figures.map(({ column, brought }) => [column.key, brought?.get(id)])),
  );
  const alone: Table = { ...table, rows, totals: table.rows[at] ?? {} };
  return figures.map(({ column }) => shownColumn(alone, withUnit(table, column, at), plainly));
}

/** A column whose unit stands in another one says it in its head. */
function withUnit(table: Table, column: Column, at: number): Column {
  const unit = unitInRow(table, column, at);
  return unit === undefined ? column : { ...column, unit };
}

function sumLine(
  { leads: { records, earlier } }: LeadingRow,
  shown: readonly ShownColumn[],
  ids: readonly string[],
): Markup {
  const cells = shown.map(({ total }, nth) => markup`<td id="${ids[nth]}">${total}</td>`);
  return markup`
    <tbody class="together"><tr><td></td><th scope="row">${counted(records.length + earlier, 'record')} together</th>${cells}</tr></tbody>`;
}

/** What is long ago, in one line. */
function earlierLine(
  { reading: { table }, leads, at }: LeadingRow,
  figures: readonly FigureLead[],
  minorDigits: number,
): Markup {
  const { before = '', brought = {} } = table.earlier ?? {};
  const cells = figures.map(({ column }) => {
    const figure = brought[column.key]?.()[at] ?? null;
    const alone: Table = { ...table, minorDigits, rows: [{ [column.key]: figure }] };
    return markup`<td>${shownColumn(alone, column, plainly).cells[0]}</td>`;
  });
  return markup`
    <tr><td></td><td>${counted(leads.earlier, 'earlier record')}, before ${before}</td>${cells}</tr>`;
}

/** A record may be behind many rows, also of several pages. */
const items = new WeakMap<RecordLine, { readonly placeOf: LineAddress; readonly item: Markup }>();

function recordCells({ placeOf = besidePage }: ReportPage, record: RecordLine): Markup {
  const known = items.get(record);
  if (known?.placeOf === placeOf) return known.item;
  const item = newCells(placeOf, record);
  items.set(record, { placeOf, item });
  return item;
}

function newCells(placeOf: LineAddress, record: RecordLine): Markup {
  const { id, kind, date, what, file, line } = record;
  const at = line === undefined ? file : `${file}:${line}`;
  const day = date === undefined ? NO_MARKUP : markup`<time>${date}</time>`;
  return markup`<td>${day}</td><td>${kind}: ${what} <span class="id">${id}</span> <a class="at" href="${placeOf(file, line)}">${at}</a></td>`;
}
