/** Shows the line of a file that a problem is about, with the marked text underlined. */
import type { Place } from '../../problem.ts';
import { visible } from '../escape.ts';
import type { Paint, Paints } from '../paint.ts';
import { displayWidth } from '../terminal/width.ts';

/** A tab has one width wherever it stands, so that the mark below keeps its place; and it is seen. */
const TAB = '→   ';
const ELLIPSIS = '…';

interface CellSpan {
  /** Cells of the line before it, and with it. */
  readonly from: number;
  readonly to: number;
}

interface Sign extends CellSpan {
  readonly text: string;
  readonly marked: boolean;
}

/** Columns are counted in UTF-16 code units, as editors count them. */
function signsOf({ source, column, width }: Place): Sign[] {
  let unit = 0;
  let cell = 0;
  return Array.from(source, (sign) => {
    const text = sign === '\t' ? TAB : visible(sign);
    const marked = unit + sign.length >= column && unit < column - 1 + width;
    const from = cell;
    unit += sign.length;
    cell += displayWidth(text);
    return { text, from, to: cell, marked };
  });
}

/** The cells that the mark covers; one past the line's end where it stands on no sign. */
function markOf(signs: readonly Sign[]): CellSpan {
  const from = signs.find(({ marked }) => marked)?.from ?? signs.at(-1)?.to ?? 0;
  const to = signs.findLast(({ marked }) => marked)?.to ?? 0;
  return { from, to: Math.max(from + 1, to) };
}

/** The part of a line to show: all of it, or what there is room for, from a little before the mark. */
function viewOf(length: number, mark: CellSpan, room: number): CellSpan {
  if (length <= room) return { from: 0, to: length };
  const from = Math.max(0, Math.min(mark.from - Math.floor(room / 3), length - room));
  return { from, to: from + room };
}

interface CutLine {
  readonly line: string;
  /** Cells before the mark, and the mark's own. */
  readonly before: number;
  readonly marked: number;
}

/** A line as far as it may be seen: of millions of characters, some to either side of the mark. */
function near({ source, column, width, ...place }: Place, room: number): Place {
  const reach = 4 * room;
  const from = Math.max(0, column - 1 - reach);
  const seen = source.slice(from, column - 1 + reach);
  return { ...place, source: seen, column: column - from, width: Math.min(width, reach) };
}

/** The line cut to the room, an ellipsis where something is missing, and where the mark falls in it. */
function cutLine(place: Place, room: number): CutLine {
  const signs = signsOf(near(place, room));
  const mark = markOf(signs);
  const length = Math.max(mark.from + 1, signs.at(-1)?.to ?? 0);
  const view = viewOf(length, mark, room);
  const [left, right] = [view.from > 0 ? ELLIPSIS : '', view.to < length ? ELLIPSIS : ''];
  const [first, last] = [view.from + left.length, view.to - right.length];
  const kept = signs.filter(({ from, to }) => from >= first && to <= last);
  return {
    line: left + kept.map(({ text }) => text).join('') + right,
    before: left.length + mark.from - (kept[0]?.from ?? mark.from),
    marked: Math.max(1, Math.min(mark.to, last) - mark.from),
  };
}

/** What the lines are made for: cells of a line, and the paints of the bar and of the mark. */
interface SourceLook {
  readonly width: number;
  readonly paints: Paints;
  readonly mark: Paint;
}

const LEAST_ROOM = 20;

/**
 * The source line with its number, and below it the marked columns underlined with `^`. Long lines
 * are cut around the mark; hidden signs are shown. Nothing when the line is empty.
 */
export function sourceLines(place: Place, look: SourceLook): string[] {
  if (place.source === '') return [];
  const gutter = `  ${String(place.line)} │ `;
  const { line, before, marked } = cutLine(place, Math.max(LEAST_ROOM, look.width - gutter.length));
  const blank = `${' '.repeat(gutter.length - 2)}│ `;
  return [
    `${look.paints.quiet(gutter)}${line}`.trimEnd(),
    look.paints.quiet(blank) + ' '.repeat(before) + look.mark('^'.repeat(marked)),
  ];
}
