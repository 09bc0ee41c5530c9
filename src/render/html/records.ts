/** The records behind a page's figures: for each row of a table a list that names file and line. */
import type { Page, RecordLine } from '../../report/page.ts';
import { forReading, type Reading } from '../reading.ts';
import { markup, lines, NONE, type Markup } from './markup.ts';
import { recordsId, rowId, rowLabel } from './table.ts';

/** The records behind a row that are known, by day and then id; what has no day comes last. */
export function recordsBehind(page: Page, { table }: Reading, row: number): readonly RecordLine[] {
  const ids = [...new Set(table.behind?.[row] ?? [])];
  const known = ids.flatMap((id) => {
    const record = page.records.get(id);
    return record === undefined ? [] : [record];
  });
  return known.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
}

function keyOf({ date, id }: RecordLine): string {
  return `${date ?? '~'} ${id}`;
}

/** The section at the page's end; nothing where no table names any records. */
export function recordsSection(page: Page): Markup {
  const lists = page.tables.map((table, at) => recordsOf(page, forReading(table), at + 1));
  if (lists.every((list) => list.markup === '')) return NONE;
  return markup`<section aria-labelledby="records" class="records">
    <h2 id="records">Records</h2>
    <p>
      Behind each row, every record that its figures come from, with the file and the line where it
      begins. The name of a row leads back to it.
    </p>
    ${lines(lists)}
  </section>`;
}

function recordsOf(page: Page, reading: Reading, number: number): Markup {
  const rows = [...reading.table.rows.keys()].flatMap((at) => {
    const records = recordsBehind(page, reading, at);
    return records.length === 0 ? [] : [rowRecords(page, records, { reading, number, at })];
  });
  if (rows.length === 0) return NONE;
  return markup`<div id="${recordsId(number)}">${lines(rows)}</div>`;
}

interface RowPlace {
  readonly reading: Reading;
  readonly number: number;
  readonly at: number;
}

function rowRecords(
  page: Page,
  records: readonly RecordLine[],
  { reading, number, at }: RowPlace,
): Markup {
  const label = rowLabel(reading, at);
  const count = records.length === 1 ? '1 record' : `${records.length} records`;
  return markup`<h3 id="${recordsId(number, at)}">
      <a href="#${rowId(number, at)}">${label === '' ? 'Row' : label}</a> <small>${count}</small>
    </h3>
    <ul>
      ${lines(records.map((record) => recordItem(page, record)))}
    </ul>`;
}

function recordItem({ root }: Page, record: RecordLine): Markup {
  const { id, kind, date, what, file, line } = record;
  const at = line === undefined ? file : `${file}:${line}`;
  const href = root + fileHref(file) + (line === undefined ? '' : `#L${line}`);
  const day = date === undefined ? '' : markup`<time datetime="${date}">${date}</time>`;
  const about = markup`<b>${kind}</b> ${what} <span class="id">${id}</span>`;
  return markup`<li><span class="day">${day}</span> <span>${about}</span> <a class="at" href="${href}">${at}</a></li>`;
}

/** A path as a relative address; a first name with a colon would be read as a scheme. */
function fileHref(file: string): string {
  return `./${file.split('/').map(encodeName).join('/')}`;
}

/** Lone surrogates can't stand in an address. */
function encodeName(name: string): string {
  return encodeURIComponent(name.replace(/\p{Cs}/gu, '\ufffd')).replaceAll("'", '%27');
}
