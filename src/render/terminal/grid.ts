/** The layout of a table for a terminal, whoever draws it: heads, a thin rule, rows, a thin rule, totals. */
import { GAP } from './fit.ts';
import { plainly, type Paint, type Paints } from '../paint.ts';
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
  /** How a row's text is painted, where it is set off. */
  readonly paintOf?: (row: number) => Paint;
}

/** A text for each column, in lines of which none is wider than it. */
interface GridRow {
  readonly texts: readonly string[];
  readonly paintAt: (column: number) => Paint;
  /** Whether shorter texts stand at the foot of the row: heads stand on the rule. */
  readonly onFoot?: boolean;
}

/** A row of the table, or a line over all columns: a rule or a heading, painted. */
export type GridLine = GridRow | { readonly across: string };

/** What a table has beside its columns. */
export interface GridParts {
  readonly totals: boolean;
  /** Row → the lines of the heading above it. */
  readonly headings?: ReadonlyMap<number, readonly string[]>;
  /** The lines below a row, or below the totals, with what its line has no room for. */
  readonly below?: (row: number | 'total') => readonly string[];
}

/** A table with its lines from top to bottom. */
export interface Grid {
  readonly columns: readonly GridColumn[];
  readonly lines: readonly GridLine[];
}

/** Each text folded where it is wider than its column. */
function folded(texts: readonly string[], columns: readonly GridColumn[]): string[] {
  return texts.map((text, at) => {
    const width = columns[at]?.width ?? 0;
    return displayWidth(text) <= width ? text : wrap(text, { width }).join('\n');
  });
}

/** The layout. Heads are quiet, headings and totals strong where there is colour. */
export function gridOf(
  columns: readonly GridColumn[],
  { totals, headings, below = () => [] }: GridParts,
  { quiet, strong }: Paints,
): Grid {
  const rule = { across: quiet('─'.repeat(widthOf(columns))) };
  const heads = columns.map(({ head }) => head);
  // Measuring is what costs time in long tables, and most columns are wide enough.
  const isTight = columns.some(({ tight }) => tight);
  const rowAt = (at: number): GridRow => {
    const texts = columns.map(({ cells }) => cells[at] ?? '');
    const paintAt = (column: number): Paint => columns[column]?.paintOf?.(at) ?? plainly;
    return { texts: isTight ? folded(texts, columns) : texts, paintAt };
  };
  const all = (paint: Paint) => (): Paint => paint;
  const sums = columns.map(({ total }) => total);
  return {
    columns,
    lines: [
      { texts: folded(heads, columns), paintAt: all(quiet), onFoot: true },
      // A heading above the first row draws a rule of its own.
      ...(headings?.has(0) === true ? [] : [rule]),
      ...(columns[0]?.cells ?? []).flatMap((_, at) => [
        ...headingLines(headings?.get(at), at, { columns, quiet, strong }),
        rowAt(at),
        ...acrossAll(below(at), plainly),
      ]),
      ...(totals ? [rule, { texts: folded(sums, columns), paintAt: all(strong) }] : []),
      ...(totals ? acrossAll(below('total'), strong) : []),
    ],
  };
}

function acrossAll(lines: readonly string[], paint: Paint): GridLine[] {
  return lines.map((line) => ({ across: paint(line) }));
}

/** A heading goes on as a rule to the table's end. An empty line stands above each but the first. */
function headingLines(
  lines: readonly string[] = [],
  row: number,
  { columns, quiet, strong }: Pick<Grid, 'columns'> & Pick<Paints, 'quiet' | 'strong'>,
): GridLine[] {
  const texts = lines.map((line, at) => {
    const room = at === lines.length - 1 ? widthOf(columns) - displayWidth(line) - 1 : 0;
    const rule = room > 0 ? ` ${quiet('─'.repeat(room))}` : '';
    return { across: strong(line) + rule };
  });
  return row === 0 || texts.length === 0 ? texts : [{ across: '' }, ...texts];
}

/** Cells of a line that the columns take. */
export function widthOf(columns: readonly Pick<GridColumn, 'width'>[]): number {
  const widths = columns.reduce((total, { width }) => total + width, 0);
  return widths + GAP * Math.max(0, columns.length - 1);
}

/** Texts side by side, each in its column, as lines without spaces at their ends. */
export function abreast(
  { texts, onFoot = false }: Pick<GridRow, 'texts' | 'onFoot'>,
  columns: readonly Pick<GridColumn, 'width' | 'right'>[],
  paintAt: (column: number) => Paint = () => plainly,
): string[] {
  const each = texts.map((text) => text.split('\n'));
  const height = Math.max(...each.map(({ length }) => length));
  const cell = (at: number, line: number): string => {
    const lines = each[at] ?? [];
    const text = lines[onFoot ? line - height + lines.length : line] ?? '';
    const { width = 0, right = false } = columns[at] ?? {};
    const space = ' '.repeat(Math.max(0, width - displayWidth(text)));
    return right ? space + paintAt(at)(text) : paintAt(at)(text) + space;
  };
  return Array.from({ length: height }, (_, line) =>
    texts
      .map((_text, at) => cell(at, line))
      .join(' '.repeat(GAP))
      .trimEnd(),
  );
}

/** The table as plain padded columns, any number of rows, without spaces at line ends. */
export function padded({ columns, lines }: Grid): string {
  return lines
    .flatMap((line) => ('across' in line ? [line.across] : abreast(line, columns, line.paintAt)))
    .join('\n');
}
