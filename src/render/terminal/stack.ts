/** Rows one below the other, a line for each column: for a terminal too narrow for the table. */
import { GAP } from './fit.ts';
import { abreast, type GridParts } from './grid.ts';
import { plainly, type Paint, type Paints } from '../paint.ts';
import { isFigure, type ShownColumn } from '../shown.ts';
import { displayWidth, wrap } from './width.ts';

interface StackLook {
  readonly width: number;
  readonly paints: Paints;
}

function labelWidth(columns: readonly ShownColumn[], width: number): number {
  const longest = Math.max(1, ...columns.map(({ head }) => displayWidth(head)));
  return Math.max(1, Math.min(longest, Math.floor(width / 2) - GAP));
}

/**
 * Every column of every row on a line of its own, head beside text, rows and headings parted by an
 * empty line, totals below a thin rule. What is missing is left out. Only a figure wider than the line is longer.
 */
export function stacked(
  columns: readonly ShownColumn[],
  { totals, headings }: GridParts,
  look: StackLook,
): string {
  const label = labelWidth(columns, look.width);
  const room = { width: Math.max(1, look.width - label - GAP) };
  const sides = [label, room.width].map((width) => ({ width, right: false }));
  // Head and text side by side; text wraps, a figure stays whole.
  const entry = ({ head, column }: ShownColumn, text: string, paint: Paint): string[] => {
    const said = isFigure(column) ? text : wrap(text, room).join('\n');
    const texts = [wrap(head, { width: label }).join('\n'), said];
    return abreast({ texts }, sides, (at) => (at === 0 ? look.paints.quiet : paint));
  };
  const block = (textOf: (shown: ShownColumn) => string, paint: Paint): string =>
    columns
      .filter((shown) => textOf(shown) !== '')
      .flatMap((shown) => entry(shown, textOf(shown), paint))
      .join('\n');
  const height = columns[0]?.cells.length ?? 0;
  const rows = Array.from({ length: height }, (_, at) => [
    (headings?.get(at) ?? []).map(look.paints.strong).join('\n'),
    block(({ cells }) => cells[at] ?? '', plainly),
  ]).flat();
  const rule = look.paints.quiet('─'.repeat(look.width));
  const sums = totals ? [`${rule}\n${block(({ total }) => total, look.paints.strong)}`] : [];
  return [...rows, ...sums].filter((text) => text !== '').join('\n\n');
}
