/** A table for a terminal: light, aligned, and never wider than the line. */
import type { Table } from '../../report/table.ts';
import { bar } from './bars.ts';
import { visible } from '../escape.ts';
import { GAP, fit, type Fitted, type FittedColumn, type ShownSum } from './fit.ts';
import { gridOf, padded, type Grid, type GridColumn } from './grid.ts';
import { paints, type Paint, type Paints } from '../paint.ts';
import {
  type Headings,
  NOTHING_TO_SHOW,
  type ShownColumn,
  caption,
  drawnSize,
  exactColumn,
  forReading,
  isFigure,
  shownColumn,
  shownTable,
} from '../shown.ts';
import { stacked } from './stack.ts';
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
}

interface Body {
  readonly text: string;
  /** What is said below of how the table was made to fit. */
  readonly notes: readonly string[];
}

function gridColumn({ shown, width, tight }: FittedColumn): GridColumn {
  const { column, head, cells, total } = shown;
  return { width, right: isFigure(column), tight, head, cells, total };
}

function barColumn(table: Table, shown: ShownColumn, width: number): GridColumn {
  const values = exactColumn(table, shown.column).cells.map((cell) => drawnSize(cell, table) ?? 0);
  const largest = values.reduce((most, value) => Math.max(most, value), 0);
  const cells = values.map((value) => bar(value, { largest, cells: width }));
  return { width, right: false, tight: false, head: '', cells, total: '' };
}

/** Bars stand beside their figures where the line has room left for them. */
function withBars(table: Table, { columns, spare }: Fitted): GridColumn[] {
  const count = columns.filter(({ shown }) => shown.column.bar === true).length;
  const width = Math.min(LONGEST_BAR, Math.floor(spare / count) - GAP);
  return columns.flatMap((column) =>
    column.shown.column.bar === true && width >= SHORTEST_BAR
      ? [gridColumn(column), barColumn(table, column.shown, width)]
      : [gridColumn(column)],
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
): Promise<Body> {
  const { table, headings } = forReading(whole);
  const columns = shownTable(table, visible);
  if (table.rows.length === 0 || columns.length === 0) return { text: NOTHING_TO_SHOW, notes: [] };
  const fitted = fit(columns, width, sumsOf(table));
  const parts = { totals: table.totals !== undefined, headings: wrappedHeadings(headings, width) };
  const look = { width, paints: paints(colour) };
  if (fitted === undefined) return { text: stacked(columns, parts, look), notes: [] };
  const grid = gridOf(withBars(table, fitted), parts, look.paints);
  return { text: await laidOut(grid, terminal), notes: fittingNotes(table, fitted, width) };
}

function sumsOf(table: Table): ShownSum[] {
  return (table.sums ?? []).map(({ column, of }) => ({
    of,
    shown: shownColumn(table, column, visible),
  }));
}

function fittingNotes(table: Table, { columns, leftOut }: Fitted, width: number): string[] {
  const shown = new Set(columns.map((each) => each.shown.column));
  const summed = (table.sums ?? []).filter(({ column }) => shown.has(column));
  const titles = leftOut.map(({ head }) => head).join(', ');
  const missing = titles === '' ? [] : [`Left out to fit ${width} columns: ${titles}.`];
  return [...summed.map(({ words }) => words), ...missing];
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

function notesOf(table: Table, { notes }: Body, width: number): string {
  return [...table.notes, ...notes].map((note) => noteLines(note, width)).join('\n');
}

function headingOf(table: Table, width: number, { strong, quiet }: Paints): string {
  const below = caption(table);
  const title = paragraph(table.title, width, strong);
  return below === '' ? title : `${title}\n${paragraph(below, width, quiet)}`;
}

/**
 * A table for a terminal, with a line end: title, whose figures of which day, the table with figures
 * at the right and totals below a rule, notes. No line is wider than `width` (only a figure that is
 * wider by itself): heads wrap, columns with `drop` are left out and named in a note, text wraps,
 * sums take the place of their columns, and at last the rows are stacked. Figures are never cut. Colour only sets off what stands there.
 */
export async function renderText(table: Table, options: TextOptions): Promise<string> {
  const body = await bodyOf(table, options);
  const blocks = [
    headingOf(table, options.width, paints(options.colour)),
    body.text,
    notesOf(table, body, options.width),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}
