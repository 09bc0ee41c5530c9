/** Rows one below the other, a line for each column: for a terminal too narrow for the table. */
import { GAP } from './fit.ts';
import type { GridParts } from './grid.ts';
import type { Paint, Paints } from './paint.ts';
import { isFigure } from './shown.ts';
import type { ShownColumn } from './shown.ts';
import { displayWidth, wrap } from './width.ts';

interface Look {
  readonly width: number;
  readonly paints: Paints;
}

interface Entry {
  readonly shown: ShownColumn;
  readonly text: string;
}

function labelWidth(columns: readonly ShownColumn[], width: number): number {
  const longest = Math.max(1, ...columns.map(({ head }) => displayWidth(head)));
  return Math.max(1, Math.min(longest, Math.floor(width / 2) - GAP));
}

/** Head and text side by side; text wraps, a figure stays whole. */
function entryLines(
  { shown, text }: Entry,
  label: number,
  look: Look & { paint: Paint },
): string[] {
  const heads = wrap(shown.head, { width: label });
  const room = { width: Math.max(1, look.width - label - GAP) };
  const texts = isFigure(shown.column) ? [text] : wrap(text, room);
  return Array.from({ length: Math.max(heads.length, texts.length) }, (_, at) => {
    const space = ' '.repeat(GAP + label - displayWidth(heads[at] ?? ''));
    return `${look.paints.quiet(heads[at] ?? '')}${space}${look.paint(texts[at] ?? '')}`.trimEnd();
  });
}

/**
 * Every column of every row on a line of its own, head beside text, rows and headings parted by an
 * empty line, totals below a thin rule. What is missing is left out. Only a figure wider than the line is longer.
 */
export function stacked(
  columns: readonly ShownColumn[],
  { totals, headings }: GridParts,
  look: Look,
): string {
  const label = labelWidth(columns, look.width);
  const block = (textOf: (shown: ShownColumn) => string, paint: Paint): string =>
    columns
      .map((shown) => ({ shown, text: textOf(shown) }))
      .filter(({ text }) => text !== '')
      .flatMap((entry) => entryLines(entry, label, { ...look, paint }))
      .join('\n');
  const height = columns[0]?.cells.length ?? 0;
  const rows = Array.from({ length: height }, (_, at) => [
    (headings?.get(at) ?? []).map(look.paints.strong).join('\n'),
    block(
      ({ cells }) => cells[at] ?? '',
      (text) => text,
    ),
  ]).flat();
  const rule = look.paints.quiet('─'.repeat(look.width));
  const sums = totals ? [`${rule}\n${block(({ total }) => total, look.paints.strong)}`] : [];
  return [...rows, ...sums].filter((text) => text !== '').join('\n\n');
}
