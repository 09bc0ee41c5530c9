/** The record in its file, as much of it as there are rows for, with the line that is typed in its place. */
import { visible } from '../escape.ts';
import { broken, cutTo, type FrameRow, type TypedRows } from './frame-rows.ts';

/** The record in its file. */
export interface RecordView {
  readonly above: readonly string[];
  readonly lines: readonly string[];
  /** Which line the field is in, and what of it comes before and after what is typed; of a choice, only which. */
  readonly at: number | undefined;
  readonly typed: { readonly before: string; readonly after: string } | undefined;
  readonly lift: number;
}

interface RecordSpace {
  readonly width: number;
  /** Beside those that are typed in. */
  readonly rows: number;
  readonly isWide: boolean;
}

interface RecordRows {
  readonly rows: readonly FrameRow[];
  /** Which of them is the first that is typed in, or that is marked. */
  readonly cursor: number;
}

/** So many lines of the file stand above the record, where there is room. */
const CONTEXT = 2;
const MARGIN = '  ';
const MARK = '> ';

/** The rows about the field that is filled, and as many of the others as there is room for. */
export function recordRows(record: RecordView, typed: TypedRows, space: RecordSpace): RecordRows {
  const { lines, at, above } = record;
  const from = at ?? lines.length;
  const plain = (some: readonly string[]): FrameRow[] =>
    some.flatMap((line) => lineRows(line, space.width, MARGIN));
  const marked = record.typed
    ? typed.rows
    : lines.slice(from, from + 1).flatMap((line) => lineRows(line, space.width, MARK));
  const context = above.slice(-CONTEXT).flatMap((line) => quiet(line, space.width));
  const before = [...context, ...plain(lines.slice(0, from))];
  const after = plain(lines.slice(from + 1));
  const room = space.rows - (record.typed ? 0 : marked.length);
  const shown = windowOf({ before, after, lift: record.lift }, room, space.isWide);
  return { rows: [...shown.before, ...marked, ...shown.after], cursor: shown.before.length };
}

function lineRows(line: string, width: number, mark: string): FrameRow[] {
  const rows = broken(visible(line), width - MARGIN.length);
  return rows.map((text, index) => [{ text: (index === 0 ? mark : MARGIN) + text }]);
}

function quiet(line: string, width: number): FrameRow[] {
  return [[{ text: cutTo(MARGIN + visible(line), width), paint: 'quiet' }]];
}

interface RecordSides {
  readonly before: readonly FrameRow[];
  readonly after: readonly FrameRow[];
  readonly lift: number;
}

/** The nearest rows on both sides; where the record is moved down, its earlier ones. */
function windowOf(
  { before, after, lift }: RecordSides,
  room: number,
  isWide: boolean,
): Omit<RecordSides, 'lift'> {
  const below = Math.min(after.length, Math.max(Math.min(2, room), room - before.length));
  const space = Math.max(room - below, 0);
  const end = Math.max(before.length - lift, Math.min(space, before.length));
  const start = Math.max(end - space, 0);
  return {
    before: withSign(before.slice(start, end), start, isWide),
    after: after.slice(0, Math.max(below, 0)),
  };
}

/** Says on the first row how many are above it. */
function withSign(rows: readonly FrameRow[], cut: number, isWide: boolean): readonly FrameRow[] {
  if (cut === 0 || rows.length < 2) return rows;
  const text = `${MARGIN}${isWide ? '…' : '...'} ${cut + 1} lines above`;
  return [[{ text, paint: 'quiet' }], ...rows.slice(1)];
}
