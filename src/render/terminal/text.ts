/** A table for a terminal: light, aligned, and never wider than the line. */
import type { Column, Table } from '../../report/table.ts';
import { barWithLimit, LIMIT } from './bars.ts';
import { visible } from '../escape.ts';
import { linesBelow } from './below.ts';
import { GAP, fit, type Fitted, type FittedColumn } from './fit.ts';
import { gridOf, padded, type Grid, type GridColumn } from './grid.ts';
import { paints, plainly, type Paint, type Paints } from '../paint.ts';
import {
  type Headings,
  NOTHING_TO_SHOW,
  type ShownColumn,
  caption,
  drawnSize,
  exactColumn,
  forReading,
  isFigure,
  shownTable,
} from '../shown.ts';
import { wrap } from './width.ts';

const LONGEST_BAR = 20;
const SHORTEST_BAR = 6;
/** Sentences get hard to read on longer lines, however wide the terminal is. */
const WIDEST_NOTE = 80;

export interface TextOptions {
  /** Cells of a line of the terminal; anything but a whole number above zero means 80. */
  readonly width: number;
  /** Whether it may be coloured; other formats than text never are. */
  readonly colour: boolean;
  /** Whether it is seen on a terminal, and goes into no pipe or file. */
  readonly terminal?: boolean;
  /** Lines of the terminal, where it is seen on one. */
  readonly height?: number | undefined;
}

function gridColumn({ shown, width, tight }: FittedColumn, weight: Weight): GridColumn {
  const { column, head, cells, total } = shown;
  const paintOf = (row: number): Paint => weight(column, row);
  return { width, right: isFigure(column), tight, head, cells, total, paintOf };
}

/** How a column's text is set off in a row. */
type Weight = (column: Column, row: number) => Paint;

/** The word that says why a row asks for something, and the row's name where it does so now. */
function weightOf({ alerts, columns }: Table, { strong, error, warning }: Paints): Weight {
  if (!alerts) return () => plainly;
  const urgent: Paint = (text) => strong(error(text));
  return ({ key, isName }, row) => {
    const alert = alerts.of[row];
    if (alert === undefined) return plainly;
    if (key === alerts.column) return alert === 'now' ? urgent : warning;
    return alert === 'now' && (isName === true || key === columns[0]?.key) ? strong : plainly;
  };
}

function barColumn(table: Table, shown: ShownColumn, width: number): GridColumn {
  const sizes = (column: Column): number[] =>
    exactColumn(table, column).cells.map((cell) => drawnSize(cell, table) ?? 0);
  const values = sizes(shown.column);
  const marked = table.columns.filter(({ key }) => key === shown.column.barLimit);
  const limits = marked.flatMap(sizes);
  const head = marked.map(({ title }) => `${LIMIT} ${title}`).join('');
  const largest = [...values, ...limits].reduce((most, value) => Math.max(most, value), 0);
  const cells = values.map((value, at) =>
    barWithLimit(value, { limit: limits[at] ?? 0, largest, cells: width }),
  );
  return { width, right: false, tight: false, head, cells, total: '' };
}

/** The lines below rows, with the word that says why a row asks for something set off where it is there. */
function setOffBelow(table: Table, { below, linesBelow }: FittedLines, look: Paints): LinesBelow {
  const word = below.find(({ column }) => column.key === table.alerts?.column);
  if (!word) return linesBelow;
  const paintOf = weightOf(table, look);
  return (row) => {
    const said = row === 'total' ? '' : (word.cells[row] ?? '');
    if (row === 'total' || said === '') return linesBelow(row);
    const text = `${word.head} ${said}`;
    return linesBelow(row).map((line) => line.replace(text, paintOf(word.column, row)));
  };
}

/** Bars stand beside their figures where the line has room left for them. */
function withBars(table: Table, { columns, spare }: Fitted, weight: Weight): GridColumn[] {
  const count = columns.filter(({ shown }) => shown.column.bar === true).length;
  const width = Math.min(LONGEST_BAR, Math.floor(spare / count) - GAP);
  return columns.flatMap((column) =>
    column.shown.column.bar === true && width >= SHORTEST_BAR
      ? [gridColumn(column, weight), barColumn(table, column.shown, width)]
      : [gridColumn(column, weight)],
  );
}

/** More rows than a screen has are padded by our own hand: cli-table3's time grows by their square. */
const MOST_DRAWN = 40;

/** Whoever sees it on a terminal has it drawn by cli-table3, which is loaded only then. */
async function laidOut(grid: Grid, isSeen: boolean): Promise<string> {
  const rows = grid.columns[0]?.cells.length ?? 0;
  if (!isSeen || rows > MOST_DRAWN) return padded(grid);
  const { drawnTable } = await import('./cli-table.ts');
  return drawnTable(grid);
}

async function bodyOf(
  whole: Table,
  { width, colour, terminal = false }: TextOptions,
): Promise<string> {
  const { table, headings } = forReading(whole);
  const columns = columnsOf(table);
  if (table.rows.length === 0 || columns.length === 0) return NOTHING_TO_SHOW;
  const fitted = linesFitting(table, columns, width);
  const look = paints(colour);
  const parts = {
    totals: table.totals !== undefined,
    headings: wrappedHeadings(headings, width),
    below: setOffBelow(table, fitted, look),
  };
  const grid = gridOf(withBars(table, fitted, weightOf(table, look)), parts, look);
  return laidOut(grid, terminal);
}

function columnsOf(table: Table): ShownColumn[] {
  return shownTable(table, visible).filter(saysSomething);
}

/** What is side by side on a line, and the lines below each row. */
interface FittedLines extends Fitted {
  readonly linesBelow: LinesBelow;
}

type LinesBelow = (row: number | 'total') => readonly string[];

/** The columns; where a row of them is taller than two lines, the narrow ones where there are any. */
function linesFitting(table: Table, columns: readonly ShownColumn[], width: number): FittedLines {
  const lines = fittedLines(table, columns, width);
  const { narrow, rows } = table;
  const isTall = (row: number | 'total'): boolean =>
    heightOf(lines, row) + lines.linesBelow(row).length > 2;
  if (!narrow || !(isTall('total') || rows.some((_, row) => isTall(row)))) return lines;
  const folded = { ...table, ...narrow };
  return fittedLines(folded, columnsOf(folded), width);
}

function fittedLines(table: Table, columns: readonly ShownColumn[], width: number): FittedLines {
  const fitted = fit(columns, width, table.sums);
  return { ...fitted, linesBelow: linesOf(table, fitted, width) };
}

/** How many lines a row takes side by side. */
function heightOf({ columns }: Fitted, row: number | 'total'): number {
  return Math.max(
    ...columns.map(({ shown, width, tight }) => {
      const text = (row === 'total' ? shown.total : shown.cells[row]) ?? '';
      return tight ? wrap(text, { width }).length : 1;
    }),
  );
}

/** Whether a column has anything in it, or is the first. */
function saysSomething({ cells, total }: ShownColumn, at: number): boolean {
  return at === 0 || total !== '' || cells.some((text) => text !== '');
}

function linesOf({ sums = [] }: Table, { below: columns }: Fitted, width: number): LinesBelow {
  const said = { columns, sums, width };
  if (columns.length === 0) return () => [];
  return (row) =>
    linesBelow(said, ({ cells, total }) => (row === 'total' ? total : (cells[row] ?? '')));
}

function wrappedHeadings(headings: Headings, width: number): ReadonlyMap<number, string[]> {
  return new Map([...headings].map(([at, text]) => [at, wrap(visible(text), { width })]));
}

function paragraph(text: string, width: number, paint: Paint): string {
  return wrap(visible(text), { width }).map(paint).join('\n');
}

/** Notes begin at the margin and go on indented, so that each is seen to begin. */
function noteLines(note: string, width: number): string {
  const room = Math.min(width, WIDEST_NOTE);
  return wrap(visible(note), { first: room, width: room - 2 }).join('\n  ');
}

function notesOf({ notes }: Table, width: number): string {
  return notes.map((note) => noteLines(note, width)).join('\n');
}

/** What matters, where there is something; its figures are in the table, and large only on a page. */
function verdictOf({ verdict }: Table, width: number, { strong }: Paints): string {
  return verdict ? paragraph(verdict.sentence, Math.min(width, WIDEST_NOTE), strong) : '';
}

function headingOf(table: Table, width: number, { strong, quiet }: Paints): string {
  const below = caption(table);
  const title = paragraph(table.title, width, strong);
  return below === '' ? title : `${title}\n${paragraph(below, width, quiet)}`;
}

/**
 * A table for a terminal, with a line end: title, whose figures of which day, what matters, the table with
 * figures at the right and totals below a rule, notes. No line is wider than `width` (only a figure that is
 * wider by itself): heads wrap, text wraps, and what the line has no room for is said below each row.
 * Figures are never cut, and nothing is left out. Colour only sets off what is there. What matters is said
 * again at the end where the beginning has gone off the terminal.
 */
export async function renderText(table: Table, options: TextOptions): Promise<string> {
  const { width, height = Infinity } = options;
  const look = paints(options.colour);
  const body = await bodyOf(table, options);
  const verdict = verdictOf(table, width, look);
  const blocks = [headingOf(table, width, look), verdict, body, notesOf(table, width)];
  const text = `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
  // The line after the last one is the shell's.
  const isLonger = text.split('\n').length > height;
  return isLonger && verdict !== '' ? `${text}\n${verdict}\n` : text;
}
