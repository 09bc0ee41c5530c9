/** Tables of a screen's length on a terminal, drawn by cli-table3 in our own light look; loaded only for one. */
import CliTable from 'cli-table3';
import { GAP } from './fit.ts';
import { padded, widthOf, type Grid, type GridLine } from './grid.ts';
import { displayWidth } from './width.ts';

const BARE = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: ' ',
} as const;

/** Signs that cli-table3's own measure of width and ours count alike, as one cell. */
const COUNTED_ALIKE = /^[\n\x20-\x7e\u00a0-\u02ff\u2010-\u20cf\u2100-\u22ff\u2500-\u259f]*$/;

// eslint-disable-next-line no-control-regex -- what paints a text takes no cell
const PAINT = /\u001b\[\d+m/g;

/** Whether cli-table3 measures all of a table as we do, and no heading is wider than the table. */
export function countsAlike({ columns, lines }: Grid): boolean {
  const width = widthOf(columns);
  return lines.every((line) => {
    if (!('across' in line)) return line.texts.every((text) => COUNTED_ALIKE.test(text));
    const text = line.across.replaceAll(PAINT, '');
    return COUNTED_ALIKE.test(text) && displayWidth(text) <= width;
  });
}

/** The table without spaces at line ends: the same bytes as `padded`, which draws what counts otherwise. */
export function drawnTable(grid: Grid): string {
  if (!countsAlike(grid)) return padded(grid);
  const { columns, lines } = grid;
  const table = new CliTable({
    chars: BARE,
    style: { 'padding-left': 0, 'padding-right': GAP - BARE.middle.length, head: [], border: [] },
    colWidths: columns.map(({ width }) => width + GAP - BARE.middle.length),
    colAligns: columns.map(({ right }) => (right ? 'right' : 'left')),
  });
  table.push(...lines.map((line) => cellsIn(line, columns.length)));
  const drawn = table.toString().split('\n');
  return drawn.map((line) => line.trimEnd()).join('\n');
}

function cellsIn(line: GridLine, columns: number): CliTable.Cell[] {
  if ('across' in line) return [{ colSpan: columns, content: line.across, hAlign: 'left' }];
  const vAlign = line.onFoot === true ? 'bottom' : 'top';
  return line.texts.map((text, at) => ({
    content: text.split('\n').map(line.paintAt(at)).join('\n'),
    vAlign,
  }));
}
