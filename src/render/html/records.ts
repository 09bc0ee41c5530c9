/** The records behind a page's figures: for each row of a table a list that names file and line. */
import { setApart } from '../../in-words.ts';
import { NO_MONEY, less, moneyText, total, type Money } from '../../number/money.ts';
import {
  chartTables,
  type LineAddress,
  type ReportPage,
  type RecordLine,
} from '../../report/page.ts';
import type { RecordAmounts, Reckoning, Table } from '../../report/table.ts';
import { forReading, type TableToRead } from '../shown.ts';
import { besidePage } from './address.ts';
import { markup, NO_MARKUP, type Markup } from './markup.ts';
import { headingOf, recordsId, rowId, rowLabel } from './table.ts';

/** What leads on from a row: records, and other rows. */
interface Leads {
  /** Ids of records; some may be in no list of the page. */
  readonly records: readonly string[];
  readonly further: readonly string[];
  readonly reckoned: Reckoning | undefined;
  /** What records bring to the figure, and what they bring beside that to the further one. */
  readonly brought: RecordAmounts;
  readonly besides: RecordAmounts;
}

function leadsFrom({ table }: TableToRead, row: number): Leads {
  const { behind, further, reckoned, brought = {} } = table;
  const [own, ofFurther] = Object.values(brought).map((rows) => rows()[row]);
  const isSeen = table.columns.some(
    ({ key, dataOnly }) => dataOnly !== true && further?.columns.includes(key),
  );
  return {
    records: behind?.()?.[row] ?? [],
    further: (isSeen ? further?.behind()?.[row] : undefined) ?? [],
    reckoned: reckoned?.[row],
    brought: own,
    besides: own && ofFurther && besides(ofFurther, own),
  };
}

/** What is in the one beside what is in the other. */
function besides(
  all: NonNullable<RecordAmounts>,
  own: NonNullable<RecordAmounts>,
): NonNullable<RecordAmounts> {
  return new Map([...all].map(([id, amount]) => [id, less(amount, own.get(id) ?? NO_MONEY)]));
}

/** The records that are known, by day and then id; what has no day comes last. */
function knownOf({ records }: ReportPage, ids: readonly string[]): readonly RecordLine[] {
  const known = [...new Set(ids)].flatMap((id) => {
    const record = records.get(id);
    return record === undefined ? [] : [record];
  });
  return known.sort(byDay);
}

function byDay(a: RecordLine, b: RecordLine): number {
  if (a.date === b.date) return a.id < b.id ? -1 : 1;
  return (a.date ?? '~') < (b.date ?? '~') ? -1 : 1;
}

/** Whether the page says what is behind a row: records of the book, or other rows. */
export function leadsOn(page: ReportPage, reading: TableToRead, row: number): boolean {
  const { records, further, reckoned } = leadsFrom(reading, row);
  const isKnown = (id: string): boolean => page.records.has(id);
  if (records.some(isKnown) || further.some(isKnown)) return true;
  if (reckoned === undefined) return false;
  return reckoned.words !== undefined || rowsReckoned(reckoned).length > 0;
}

function rowsReckoned({ plus, less, of }: Reckoning): readonly number[] {
  return [...plus, ...less, ...of];
}

/** The section at the page's end, piece by piece; nothing where no table names any records. */
export function* recordsSection(page: ReportPage): Generator<Markup> {
  const tables = page.tables.map((table, at) => rowsLeading(page, table, at + 1));
  const charts = chartTables(page).map(({ table, number }) => rowsLeading(page, table, number));
  if ([...tables, ...charts].every((rows) => rows.length === 0)) return;
  yield markup`
  <section aria-labelledby="records" class="records">
    <h2 id="records">Records</h2>
    <p>
      The records that each row's figures come from, with the file and the line where each begins, or
      the rows that it is worked out from. The name of a row leads back to it.
    </p>
    `;
  yield* recordsOfTables(page, tables);
  yield markup`
    <div class="of-charts">`;
  yield* recordsOfTables(page, charts);
  yield markup`</div>
  </section>`;
}

/** The rows of a table from which something leads on. */
function rowsLeading(page: ReportPage, table: Table, number: number): readonly RowPlace[] {
  const reading = forReading(table);
  const rows = [...reading.table.rows.keys()].filter((at) => leadsOn(page, reading, at));
  return rows.map((at) => ({ reading, number, at }));
}

/** A line for each table. */
function* recordsOfTables(
  page: ReportPage,
  tables: readonly (readonly RowPlace[])[],
): Generator<Markup> {
  for (const [nth, rows] of tables.entries()) {
    if (nth > 0) yield LINE_BREAK;
    for (const [at, place] of rows.entries()) {
      yield at === 0 ? markup`<div id="${recordsId(place.number)}">` : LINE_BREAK;
      yield* rowRecords(page, place);
    }
    if (rows.length > 0) yield markup`</div>`;
  }
}

const LINE_BREAK = markup`
`;

interface RowPlace {
  readonly reading: TableToRead;
  readonly number: number;
  readonly at: number;
}

function* rowRecords(page: ReportPage, place: RowPlace): Generator<Markup> {
  const { reading, number, at } = place;
  const { reckoned, brought, besides: more, ...ids } = leadsFrom(reading, at);
  const [records, further] = [knownOf(page, ids.records), knownOf(page, ids.further)];
  const label = rowLabel(reading, at);
  const all = records.length + further.length;
  const count = all === 1 ? '1 record' : `${all} records`;
  yield markup`<h3 id="${recordsId(number, at)}">
      <a href="#${rowId(number, at)}">${label === '' ? 'Row' : label}</a>${all === 0 ? NO_MARKUP : markup` <small>${count}</small>`}
    </h3>`;
  if (reckoned) yield reckonedFrom(reckoned, place);
  const { table } = reading;
  yield* recordList(page, { records, amounts: brought, table });
  if (further.length > 0)
    yield markup`
    <p class="further">${reading.table.further?.words}:</p>`;
  yield* recordList(page, { records: further, amounts: more, table });
}

/** Records with what each brings, where that is known. */
interface BroughtList {
  readonly records: readonly RecordLine[];
  readonly amounts: RecordAmounts;
  readonly table: Table;
}

function* recordList(
  page: ReportPage,
  { records, amounts, table }: BroughtList,
): Generator<Markup> {
  if (records.length === 0) return;
  const shown = (amount: Money): string => setApart(moneyText(amount, table.minorDigits));
  yield markup`
    <ul${amounts ? markup` class="amounts"` : NO_MARKUP}>`;
  for (const record of records) {
    const amount = amounts?.get(record.id);
    const figure = amount === undefined ? NO_MARKUP : amountMarkup(shown(amount));
    yield markup`
    <li>${recordItem(page, record)}${figure}</li>`;
  }
  if (amounts && records.length > 1)
    yield markup`
    <li class="together"><span></span> <span>Together</span> <span></span>${amountMarkup(shown(total(records.map(({ id }) => amounts.get(id) ?? NO_MONEY))))}</li>`;
  yield markup`
    </ul>`;
}

function amountMarkup(figure: string): Markup {
  return markup` <span class="amount">${figure}</span>`;
}

/** The rows that a row is reckoned from, each leading on to where it stands. */
function reckonedFrom(reckoning: Reckoning, place: RowPlace): Markup {
  const { plus, less, of, words } = reckoning;
  const all = [
    ...plus.map((row, at) => rowLink(at === 0 ? '' : 'plus ', row, place)),
    ...less.map((row) => rowLink('less ', row, place)),
    ...of.map((row) => rowLink('', row, place)),
  ];
  if (all.length === 0)
    return words === undefined
      ? NO_MARKUP
      : markup`
    <p class="worked-out">It rests on: ${words}.</p>`;
  const how = words === undefined ? '' : `, ${words}`;
  return markup`
    <p class="worked-out">Worked out from: ${all.map((each, at) => markup`${at === 0 ? '' : '; '}${each}`)}${how}.</p>`;
}

/** The row's name, with the part that it is in where that is another; some say themselves that they go off. */
function rowLink(sign: string, row: number, { reading, number, at }: RowPlace): Markup {
  const heading = headingOf(reading, row);
  const label = rowLabel(reading, row);
  const name = heading === '' ? label : label.slice(heading.length + 2);
  const part = heading === headingOf(reading, at) ? '' : ` (${heading})`;
  const said = name.startsWith('Less ') ? '' : sign;
  return markup`${said}<a href="#${rowId(number, row)}">${name}</a>${part}`;
}

/** A record may be behind many rows, also of several pages. */
const items = new WeakMap<RecordLine, { readonly placeOf: LineAddress; readonly item: Markup }>();

function recordItem({ placeOf = besidePage }: ReportPage, record: RecordLine): Markup {
  const known = items.get(record);
  if (known?.placeOf === placeOf) return known.item;
  const item = newItem(placeOf, record);
  items.set(record, { placeOf, item });
  return item;
}

function newItem(placeOf: LineAddress, record: RecordLine): Markup {
  const { id, kind, date, what, file, line } = record;
  const at = line === undefined ? file : `${file}:${line}`;
  const day = date === undefined ? '' : markup`<time datetime="${date}">${date}</time>`;
  return markup`<span class="day">${day}</span> <span><b>${kind}</b> ${what} <span class="id">${id}</span></span> <a class="at" href="${placeOf(file, line)}">${at}</a>`;
}
