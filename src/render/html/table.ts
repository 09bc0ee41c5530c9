/** A table as HTML: heads in scope, figures at the right that lead to their records, parts under heads of their own. */
import { plainly } from '../paint.ts';
import type { Alert, Table } from '../../report/table.ts';
import {
  NOTHING_TO_SHOW,
  type TableToRead,
  isFigure,
  isZero,
  rowAlone,
  shownColumn,
} from '../shown.ts';
import { type PageColumn, figureSigns, isWide, pageColumns } from './columns.ts';
import { markup, lines, NO_MARKUP, type Markup } from './markup.ts';

/** Where a table stands on its page. */
interface TablePlace {
  /** Counted from 1; ids on the page are made of it. */
  readonly number: number;
  /** Whether the table's title stands above it already. */
  readonly titled: boolean;
  /** Whether the records behind a row are listed further down. */
  readonly hasRecords: (row: number) => boolean;
  /** Whether a figure there says what it is made of; of no row, that of the totals. */
  readonly leads: (column: string, row: number | undefined) => boolean;
  /** Whether the names of so many rows would be too many stops for the Tab key; their lists are reached below. */
  readonly isLong?: boolean;
  /** Whether a row adds up others of the table. */
  readonly isSum: (row: number) => boolean;
  /** How much a row asks for. */
  readonly alert?: (row: number) => Alert | undefined;
  /** The picture that stands in a cell, where there is one. */
  readonly picture?: (column: string, row: number) => Markup | undefined;
  /** Whether each row has a box to tick. */
  readonly toTick?: boolean;
}

const TICK_BOX = markup`<span class="tick" aria-hidden="true"></span> `;

/** The id of a row: what its list of records leads back to. */
export function rowId(table: number, row: number): string {
  return `t-${table}-${row + 1}`;
}

/**
 * The id of the list of a row's records, or without a row of all lists of the table; with a column's key
 * that of its figure there, which says what it adds up.
 */
export function recordsId(table: number, row?: number, column?: string): string {
  const list = row === undefined ? `r-${table}` : `r-${table}-${row + 1}`;
  return column === undefined ? list : `${list}-${column}`;
}

/** What a list of records is called on paper, where nothing can be followed: the row's number, after the table's. */
export function listNumber(table: number, row: number): string {
  return table === 1 ? String(row + 1) : `${table}.${row + 1}`;
}

/** The id of the head of a part of a table: what the page's contents lead to. */
export function partId(table: number, part: number): string {
  return `p-${table}-${part + 1}`;
}

/**
 * The table in a region of its own that scrolls where it is wider than the page: a caption, heads with
 * scope, the first column as heads of the rows, the totals in the last row; a sentence where there are
 * no rows.
 */
export function tableMarkup(reading: TableToRead, place: TablePlace): Markup {
  if (reading.table.rows.length === 0) return markup`<p>${NOTHING_TO_SHOW}</p>`;
  return markup`<div class="scroll" role="region" aria-labelledby="caption-${place.number}" tabindex="0">
    ${bareTableMarkup(reading, place)}
  </div>`;
}

/** The table itself, without a region. */
export function bareTableMarkup(reading: TableToRead, place: TablePlace): Markup {
  const { table } = reading;
  const columns = pageColumns(table);
  const caption = captionOf(table, place);
  return markup`<table${looksOf(columns)}>
      <caption id="caption-${place.number}"><span class="said">${caption}</span></caption>
      <thead>
        <tr>${columns.map(headCell)}</tr>
      </thead>
      ${bodies(reading, columns, place)}
    </table>`;
}

/** Whether it wants paper that lies, and whether money comes first on a phone. */
function looksOf(columns: readonly PageColumn[]): Markup {
  const isTurned = columns.some((column) => column.isTurned);
  const width = isTurned ? markup` style="--signs: ${figureSigns(columns)}"` : NO_MARKUP;
  return markup`${classOf(isWide(columns) ? 'wide' : '', isTurned ? 'money-first' : '')}${width}`;
}

function classOf(...names: readonly string[]): Markup {
  const given = names.filter((name) => name !== '');
  return given.length === 0 ? NO_MARKUP : markup` class="${given.join(' ')}"`;
}

function captionOf(table: Table, { titled, hasRecords }: TablePlace): Markup {
  const title = titled
    ? markup`<span class="unseen">${table.title}. </span>`
    : markup`${table.title}. `;
  const hasMoney = table.columns.some(({ type }) => type === 'money' || type === 'rate');
  const money = hasMoney && table.currency !== '' ? `Amounts in ${table.currency}. ` : '';
  const leads = table.rows.some((_, at) => hasRecords(at));
  return markup`${title}${money}${leads ? 'Each figure leads to the records it comes from.' : ''}`;
}

function headCell({ look, head }: PageColumn): Markup {
  const words = head === '' ? markup`<span class="unseen">What</span>` : markup`${head}`;
  return markup`<th scope="col" class="${look}">${words}</th>`;
}

function bodies(reading: TableToRead, columns: readonly PageColumn[], place: TablePlace): Markup {
  const { table } = reading;
  const parts = partsOf(reading);
  const totals = table.totals === undefined ? [] : [totalBody(columns, place, table)];
  return lines([...parts.map((part, nth) => partBody(part, columns, { place, nth })), ...totals]);
}

/** Rows that stand together, by their numbers; without a title where the table has no parts. */
export interface TablePart {
  readonly title: string | undefined;
  readonly rows: readonly number[];
}

/** The parts of a table, in their order; one without a title where it has none. */
export function partsOf({ table, headings }: TableToRead): readonly TablePart[] {
  const numbers = [...table.rows.keys()];
  if (headings.size === 0) return [{ title: undefined, rows: numbers }];
  const starts = [...headings];
  return starts.map(([from, title], index) => {
    const to = starts[index + 1]?.[0] ?? numbers.length;
    return { title, rows: numbers.slice(from, to) };
  });
}

function partBody(
  { title, rows }: TablePart,
  columns: readonly PageColumn[],
  { place, nth }: { readonly place: TablePlace; readonly nth: number },
): Markup {
  const head =
    title === undefined
      ? NO_MARKUP
      : markup`<tr class="part" id="${partId(place.number, nth)}"><th scope="rowgroup" colspan="${columns.length}"><span>${title}</span></th></tr>
          `;
  return markup`<tbody>
    ${head}${lines(rows.map((at) => rowMarkup(columns, at, place)))}
  </tbody>`;
}

function rowMarkup(columns: readonly PageColumn[], at: number, place: TablePlace): Markup {
  const [first, ...others] = columns;
  const head = first === undefined ? NO_MARKUP : rowHead(first, at, place);
  const cells = others.map((shown) => {
    const seen = place.picture?.(shown.column.key, at);
    if (seen) return markup`<td class="${shown.look}">${seen}</td>`;
    const isNothing = shown.zeros.has(at);
    return cell(shown, { text: shown.cells[at] ?? '', isNothing, row: at }, place);
  });
  const look = classOf(place.isSum(at) ? 'sum' : '', place.alert?.(at) ?? '');
  return markup`<tr id="${rowId(place.number, at)}"${look}>${head}${cells}</tr>`;
}

/** What a row is about; nothing heads a row whose first cell has no words. */
function rowHead({ look, cells, ids }: PageColumn, at: number, place: TablePlace): Markup {
  const text = cells[at] ?? '';
  const box = place.toTick && !place.isSum(at) ? TICK_BOX : NO_MARKUP;
  const id = ids?.[at] ? markup` <small>${ids[at]}</small>` : NO_MARKUP;
  if (text === '') return markup`<td class="${look}">${box}</td>`;
  const name = place.hasRecords(at) ? nameLink(text, at, place) : markup`${text}`;
  return markup`<th scope="row" class="${look}">${box}${name}${id}</th>`;
}

/** A row's name leads to its records, on paper by the number of their list. */
function nameLink(text: string, at: number, { number, isLong }: TablePlace): Markup {
  const stop = isLong ? markup` tabindex="-1"` : NO_MARKUP;
  return markup`<a href="#${recordsId(number, at)}"${stop}>${text}</a><sup class="on-paper">${listNumber(number, at)}</sup>`;
}

interface CellText {
  readonly text: string;
  /** Whether it is a zero, which is seen as a dash and read aloud as it is. */
  readonly isNothing: boolean;
  /** The number of its row; undefined in the totals. */
  readonly row: number | undefined;
}

/** A row is reached by its name, so that not every figure stops the Tab key. */
function cell(
  { column, look }: PageColumn,
  { text, isNothing, row }: CellText,
  { leads, number }: TablePlace,
): Markup {
  const isLink = text !== '' && isFigure(column) && leads(column.key, row);
  const content = isLink
    ? markup`<a href="#${recordsId(number, row, column.key)}" tabindex="-1">${text}</a>`
    : markup`${text}`;
  return markup`<td class="${look}${isNothing ? ' zero' : ''}">${content}</td>`;
}

function totalBody(columns: readonly PageColumn[], place: TablePlace, { totals }: Table): Markup {
  const [first, ...others] = columns;
  const head =
    first === undefined
      ? NO_MARKUP
      : markup`<th scope="row" class="${first.look}">${first.total}</th>`;
  const cells = others.map((shown) => {
    const isNothing = isZero(totals?.[shown.column.key] ?? null);
    return cell(shown, { text: shown.total, isNothing, row: undefined }, place);
  });
  return markup`<tbody class="total">
    <tr>${head}${cells}</tr>
  </tbody>`;
}

/** What a row is about, in words: the heading above it, and its texts before the first figure. */
export function rowLabel({ table, headings }: TableToRead, row: number): string {
  const columns = table.columns.filter(({ dataOnly }) => dataOnly !== true);
  const before = columns.findIndex(isFigure);
  const alone = rowAlone(table, row);
  const texts = columns
    .slice(0, before < 0 ? 1 : Math.max(1, before))
    .flatMap((column) => shownColumn(alone, column, plainly).cells);
  return [headingOf({ headings }, row), ...texts].filter((text) => text !== '').join(', ');
}

/** The heading of the part that a row is in; empty where the table has no parts. */
export function headingOf({ headings }: Pick<TableToRead, 'headings'>, row: number): string {
  return [...headings].findLast(([from]) => from <= row)?.[1] ?? '';
}
