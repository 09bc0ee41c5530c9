/** A page as one HTML document that needs nothing else: no scripts, no outside resources, printable. */
import { bareTable, type ReportPage } from '../../report/page.ts';
import type { Reckoning, Table } from '../../report/table.ts';
import { caption, forReading } from '../shown.ts';
import { chartsSection } from './charts.ts';
import { contentsMarkup } from './contents.ts';
import { documentOf } from './document.ts';
import { footOf } from './foot.ts';
import { markup, lines, NO_MARKUP, type Markup } from './markup.ts';
import { figureLeads, hasLeads, leadsOn, tableLeads } from './leads.ts';
import { recordsSection } from './records.ts';
import { sheetMarkup } from './sheet.ts';
import { recordsId, rowId, tableMarkup } from './table.ts';
import { verdictSection } from './verdict.ts';

/**
 * The whole document, with a line end: a header that says whose figures they are, what matters in them,
 * the charts with their figures, each table with its notes, the records behind each row, a footer. Light or dark as the
 * reader's screen is; black on white on paper. Everything from the book is escaped, and the same page
 * gives the same bytes.
 */
export function renderPage(page: ReportPage): string {
  return [...pageInPieces(page)].join('');
}

/** The same in pieces, so that of a long book it need not be there all at once. */
export function pageInPieces(page: ReportPage): Generator<string> {
  const [main] = page.tables;
  const parts = {
    title: pageTitle(main),
    heading: main.title,
    caption: main.sheet?.title ?? caption(main),
    skip: { to: 'table-1', words: 'Skip to the figures' },
    footer: footOf(main),
  };
  const hasPictures = page.tables.some(({ pictures }) => pictures !== undefined);
  return documentOf({ ...parts, hasPictures, up: page.up }, sectionsOf(page));
}

/** The page of a table alone, with nothing that leads to its records. */
export function renderTablePage(table: Table): string {
  return renderPage(bareTable(table));
}

function pageTitle({ title, studio }: Table): string {
  return studio === '' ? title : `${title} · ${studio}`;
}

/** What matters, then pictures, which are looked at before figures are read, and what these come from last. */
function* sectionsOf(page: ReportPage): Generator<Markup> {
  const sections = [
    verdictSection(page.tables[0]),
    contentsMarkup(
      page,
      page.tables.some((table) => leadsAnywhere(page, table)),
    ),
    chartsSection(page),
    ...page.tables.map((table, at) => tableSection(page, table, at + 1)),
  ];
  yield lines(sections.filter(({ markup }) => markup !== ''));
  yield* recordsSection(page);
}

/** Rows whose names stop the Tab key. */
const MOST_STOPS = 40;

function leadsAnywhere(page: ReportPage, table: Table): boolean {
  return tableLeads(page, table).rows.some(hasLeads);
}

function tableSection(page: ReportPage, table: Table, number: number): Markup {
  const isFirst = number === 1;
  const reading = forReading(table);
  const hasRecords = (row: number): boolean => leadsOn(page, table, row);
  const isSum = (row: number): boolean =>
    reading.table.emphases?.[row]?.strong ?? addsUp(reading.table.reckoned?.[row]);
  const body = table.sheet
    ? sheetMarkup(table.sheet, (row) =>
        hasRecords(row) ? { to: recordsId(number, row), id: rowId(number, row) } : undefined,
      )
    : tableMarkup(reading, {
        number,
        titled: true,
        isLong: reading.table.rows.length > MOST_STOPS,
        hasRecords,
        leads: (column, row) => figureLeads(page, table, { column, row }),
        isSum,
        alert: (row) => reading.table.alerts?.of[row],
        toTick: table.toTick === true,
        picture: (column, row) => pictureMarkup(table, column, row),
      });
  const head = isFirst
    ? markup`<h2 id="table-1" class="unseen">Figures</h2>`
    : markup`<h2 id="table-${number}">${table.title}</h2>`;
  return markup`<section aria-labelledby="table-${number}">
    ${head}
    ${table.notesFirst ? lines([notesOf(table.notes.slice(1)), body]) : lines([body, notesOf(table.notes)])}
  </section>`;
}

const PICTURE_WIDTH = 240;

function pictureMarkup({ pictures }: Table, column: string, row: number): Markup | undefined {
  const picture = pictures?.column === column ? pictures.of[row] : undefined;
  if (!picture) return undefined;
  const { type, data, alt } = picture;
  return markup`<img width="${PICTURE_WIDTH}" alt="${alt}" src="data:${type};base64,${data}"/>`;
}

function addsUp(reckoning: Reckoning | undefined): boolean {
  return reckoning !== undefined && reckoning.plus.length + reckoning.less.length > 1;
}

function notesOf(notes: readonly string[]): Markup {
  if (notes.length === 0) return NO_MARKUP;
  return markup`<ul class="notes">
    ${lines(notes.map((note) => markup`<li>${note}</li>`))}
  </ul>`;
}
