/** Lays columns out for a terminal: heads, a thin rule, rows, a thin rule, totals. */
import { GAP } from './fit.ts';
import type { Paint, Paints } from './paint.ts';
import { displayWidth, wrap } from './width.ts';

/** One column of a laid-out table; its texts are safe for a terminal. */
export interface GridColumn {
  readonly width: number;
  readonly right: boolean;
  /** Whether some cell or the total is wider than the column. */
  readonly tight: boolean;
  readonly head: string;
  readonly cells: readonly string[];
  readonly total: string;
}

/** A text for each column, none wider than its column. */
interface GridRow {
  readonly paint: Paint;
  readonly texts: readonly string[];
}

/** A line of the table: texts, a heading over all columns, or a rule. */
export type GridLine = GridRow | { readonly heading: string } | 'rule';

/** What a table has beside its columns. */
export interface GridParts {
  readonly totals: boolean;
  /** Row → the lines of the heading above it. */
  readonly headings?: ReadonlyMap<number, readonly string[]>;
}

export interface Grid {
  readonly columns: readonly GridColumn[];
  readonly lines: readonly GridLine[];
  readonly paints: Paints;
}

/** cli-table3 takes time by the square of the rows: 10 ms for 50, 190 ms for 1,000. */
const LONGEST_PAGE = 100;

/** Signs that cli-table3's own measure of width and ours count alike, as one cell. */
const COUNTED_ALIKE = /^[\x20-\x7e\u00a0-\u02ff\u2010-\u20cf\u2100-\u22ff\u2500-\u259f]*$/;

function plain(text: string): string {
  return text;
}

/** One row of texts as the lines that it takes when each text is wrapped in its column. */
function wrapped(texts: readonly string[], columns: readonly GridColumn[]): string[][] {
  const each = columns.map(({ width }, at) => {
    const text = texts[at] ?? '';
    return displayWidth(text) <= width ? [text] : wrap(text, { width });
  });
  const height = Math.max(...each.map((lines) => lines.length));
  return Array.from({ length: height }, (_, line) => each.map((lines) => lines[line] ?? ''));
}

/** The same for a row of cells, of which most fit: measuring is what costs time in long tables. */
function rowLines(texts: string[], columns: readonly GridColumn[]): string[][] {
  const fits = columns.every(
    ({ tight, width }, at) => !tight || displayWidth(texts[at] ?? '') <= width,
  );
  return fits ? [texts] : wrapped(texts, columns);
}

/** Heads stand on the rule: the shorter ones have their empty lines above. */
function headLines(columns: readonly GridColumn[]): string[][] {
  const upward = wrapped(
    columns.map(({ head }) => head),
    columns,
  );
  const heights = columns.map((_, at) => upward.filter((line) => line[at] !== '').length);
  return upward.map((_, line) =>
    heights.map((height, at) => upward[line - upward.length + height]?.[at] ?? ''),
  );
}

/** The table's lines. Heads are quiet, headings and totals strong where there is colour. */
export function gridOf(
  columns: readonly GridColumn[],
  { totals, headings }: GridParts,
  paints: Paints,
): Grid {
  const painted = (texts: string[], paint: Paint): GridLine => ({ texts, paint });
  const height = Math.max(0, ...columns.slice(0, 1).map(({ cells }) => cells.length));
  const rows = Array.from({ length: height }, (_, at) =>
    columns.map(({ cells }) => cells[at] ?? ''),
  );
  const sums = totals
    ? rowLines(
        columns.map(({ total }) => total),
        columns,
      )
    : [];
  return {
    columns,
    paints,
    lines: [
      ...headLines(columns).map((texts) => painted(texts, paints.quiet)),
      // A heading above the first row draws a rule of its own.
      ...(headings?.has(0) === true ? [] : (['rule'] as const)),
      ...rows.flatMap((texts, at) => [
        ...headingLines(headings?.get(at), at, { columns, paints }),
        ...rowLines(texts, columns).map((line) => painted(line, plain)),
      ]),
      ...(totals ? (['rule'] as const) : []),
      ...sums.map((texts) => painted(texts, paints.strong)),
    ],
  };
}

/** A heading goes on as a rule to the table's end. An empty line stands above each but the first. */
function headingLines(
  lines: readonly string[] | undefined,
  row: number,
  { columns, paints }: Pick<Grid, 'columns' | 'paints'>,
): GridLine[] {
  if (lines === undefined) return [];
  const texts = lines.map((line, at) => {
    const room = at === lines.length - 1 ? widthOf(columns) - displayWidth(line) - 1 : 0;
    const rule = room > 0 ? ` ${paints.quiet('─'.repeat(room))}` : '';
    return { heading: paints.strong(line) + rule };
  });
  return row === 0 ? texts : [{ heading: '' }, ...texts];
}

/** Whether cli-table3 may lay this table out: without headings, not too long, and no sign that it would count otherwise. */
export function readsAsPage({ lines }: Grid): boolean {
  if (lines.length > LONGEST_PAGE) return false;
  return lines.every(
    (line) =>
      line === 'rule' || ('texts' in line && line.texts.every((text) => COUNTED_ALIKE.test(text))),
  );
}

/** A thin rule as wide as the table. */
export function ruleOf({ columns, paints }: Grid): string {
  return paints.quiet('─'.repeat(widthOf(columns)));
}

function widthOf(columns: readonly GridColumn[]): number {
  const widths = columns.reduce((total, { width }) => total + width, 0);
  return widths + GAP * Math.max(0, columns.length - 1);
}

function filled(text: string, column: GridColumn, paint: Paint): string {
  const space = ' '.repeat(Math.max(0, column.width - displayWidth(text)));
  return column.right ? space + paint(text) : paint(text) + space;
}

/** The table as plain padded columns, any number of rows, without spaces at line ends. */
export function padded(grid: Grid): string {
  const gap = ' '.repeat(GAP);
  const rule = ruleOf(grid);
  const drawn = (line: GridRow): string =>
    grid.columns
      .map((column, at) => filled(line.texts[at] ?? '', column, line.paint))
      .join(gap)
      .trimEnd();
  const lineOf = (line: GridLine): string => {
    if (line === 'rule') return rule;
    return 'heading' in line ? line.heading : drawn(line);
  };
  return grid.lines.map(lineOf).join('\n');
}
