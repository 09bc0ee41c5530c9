/** Lays out a table of page length with cli-table3, in our own light look. */
import CliTable from 'cli-table3';
import { GAP } from './fit.ts';
import { ruleOf } from './grid.ts';
import type { Grid, GridLine } from './grid.ts';

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

function rowOf(line: GridLine, grid: Grid): CliTable.Cell[] {
  if (line === 'rule') return [{ colSpan: grid.columns.length, content: ruleOf(grid) }];
  if ('heading' in line) return [{ colSpan: grid.columns.length, content: line.heading }];
  return line.texts.map((text) => line.paint(text));
}

/**
 * The table as cli-table3 lays it out, without spaces at line ends: the same bytes as `padded`. Only
 * for grids that `readsAsPage` accepts.
 */
export function page(grid: Grid): string {
  const table = new CliTable({
    chars: BARE,
    style: { 'padding-left': 0, 'padding-right': GAP - BARE.middle.length, head: [], border: [] },
    colWidths: grid.columns.map(({ width }) => width + GAP - BARE.middle.length),
    colAligns: grid.columns.map(({ right }) => (right ? 'right' : 'left')),
  });
  table.push(...grid.lines.map((line) => rowOf(line, grid)));
  const lines = table.toString().split('\n');
  return lines.map((line) => line.trimEnd()).join('\n');
}
