/** What a figure is made of, in a sentence of figures: `Net 2,898.44 = Gross 3,018.44 less Returns 120.00`. */
import { plainly } from '../paint.ts';
import type { AddedUp, Column, Reckoning, Table } from '../../report/table.ts';
import { isNothing, isSummable } from '../../number/summable.ts';
import { counted } from '../../in-words.ts';
import { rowAlone, shownColumn, unitInRow } from '../shown.ts';
import type { FigureLead, LeadingRow } from './leads.ts';
import { markup, NO_MARKUP, type Markup } from './markup.ts';
import { headingOf, recordsId, rowId, rowLabel } from './table.ts';

/** The figures of a row that its list of records doesn't add up, each with how it comes about. */
export function figureItems(row: LeadingRow): readonly Markup[] {
  const { leads, number, at } = row;
  const told = leads.figures.filter(({ brought }) => brought === undefined);
  const items = told.map((lead) => {
    const { column } = lead;
    return markup`
    <li id="${recordsId(number, at, column.key)}">${figureText(row.reading.table, column, at)}${howOf(row, lead)}</li>`;
  });
  const { reckoned } = leads;
  return [...items, ...(reckoned ? [workedOut(reckoned, row)] : [])];
}

/** The totals of these columns, each the sum of its rows. */
export function totalItems(
  table: Table,
  columns: readonly Column[],
  number: number,
): readonly Markup[] {
  return columns.map((column) => {
    const { total, head } = shownColumn(table, column, plainly);
    const id = recordsId(number, undefined, column.key);
    return markup`
    <li id="${id}">${head} ${total}: ${counted(table.rows.length, 'row')} of the table together</li>`;
  });
}

/** The head and the figure. */
function figureText(table: Table, column: Column, at: number): Markup {
  const { head, cells } = shownColumn(rowAlone(table, at), column, plainly);
  const unit = unitInRow(table, column, at);
  return markup`${head} ${cells[0]}${unit === undefined ? '' : ` ${unit}`}`;
}

function howOf(row: LeadingRow, { column, sum }: FigureLead): Markup {
  if (sum) return markup` = ${addedUp(row, sum)}`;
  if (column.from !== undefined) return markup` = ${column.from}`;
  const { plus = [], less = [] } = row.leads.reckoned ?? {};
  if (plus.length + less.length > 0) return rowsAddedUp(row, column);
  return row.leads.records.length > 0 ? markup`: from the records below` : NO_MARKUP;
}

/** The columns that make up a sum, but for those with nothing in them. */
function addedUp(row: LeadingRow, { plus, less = [] }: AddedUp): readonly Markup[] {
  const parts = [
    ...plus.map((key) => ({ key, sign: 'plus ' })),
    ...less.map((key) => ({ key, sign: 'less ' })),
  ].filter(({ key }) => isSomething(row, key));
  return parts.map(({ key, sign }, nth) => {
    const said = nth === 0 && sign === 'plus ' ? '' : `${nth === 0 ? '' : ' '}${sign}`;
    return markup`${said}${columnPart(row, key)}`;
  });
}

function isSomething({ reading, at }: LeadingRow, key: string): boolean {
  const cell = reading.table.rows[at]?.[key] ?? null;
  return isSummable(cell) && !isNothing(cell);
}

function columnPart({ reading: { table }, number, at }: LeadingRow, key: string): Markup {
  const column = table.columns.find((each) => each.key === key);
  if (column === undefined) return NO_MARKUP;
  return markup`<a href="#${recordsId(number, at, key)}">${figureText(table, column, at)}</a>`;
}

/** The rows that a figure adds up, with what each has in its column. */
function rowsAddedUp({ reading, leads, number, at }: LeadingRow, column: Column): Markup {
  const { plus = [], less = [] } = leads.reckoned ?? {};
  const texts = shownColumn(reading.table, column, plainly).cells;
  const part = (row: number, sign: string): Markup =>
    texts[row] === ''
      ? NO_MARKUP
      : markup`${sign}${rowLink(row, { reading, number, at })} ${texts[row]}`;
  const all = [
    ...plus.map((each, nth) => part(each, nth === 0 ? ' = ' : ' plus ')),
    ...less.map((each) => part(each, ' less ')),
  ];
  return markup`${all}`;
}

/** Rows that figures are made of in another way than by adding up. */
function workedOut({ of, words }: Reckoning, row: LeadingRow): Markup {
  if (of.length === 0)
    return words === undefined
      ? NO_MARKUP
      : markup`
    <li>It rests on: ${words}.</li>`;
  const how = words === undefined ? '' : `, ${words}`;
  const names = of.map((each, nth) => markup`${nth === 0 ? '' : '; '}${rowLink(each, row)}`);
  return markup`
    <li>Worked out from: ${names}${how}.</li>`;
}

/** The row's name, with the part that it is in where that is another. */
function rowLink(row: number, { reading, number, at }: Omit<LeadingRow, 'leads'>): Markup {
  const heading = headingOf(reading, row);
  const label = rowLabel(reading, row);
  const name = heading === '' ? label : label.slice(heading.length + 2);
  const part = heading === headingOf(reading, at) ? '' : ` (${heading})`;
  return markup`<a href="#${rowId(number, row)}">${name}</a>${part}`;
}
