/** Rows of an entry's screen: parts of a line that are painted, and texts that are broken to fit. */
import { visible } from '../escape.ts';
import type { Paints } from '../paint.ts';
import { displayWidth, wrap } from './width.ts';

/** A row in parts; a paint only sets off what can be told without it. */
export type FrameRow = readonly FramePart[];

interface FramePart {
  readonly text: string;
  readonly paint?: keyof Paints;
}

/** The rows that are typed in, and where in them the cursor is. */
export interface TypedRows {
  readonly rows: readonly FrameRow[];
  readonly row: number;
  readonly column: number;
}

/** A row without its paints. */
export function rowText(row: FrameRow): string {
  return row.map(({ text }) => text).join('');
}

/** A text in rows that fit, a mark before the first; none for an empty text. */
export function wrappedRows(
  text: string,
  {
    mark,
    width,
    paint,
  }: { readonly mark: string; readonly width: number } & Pick<FramePart, 'paint'>,
): readonly FrameRow[] {
  if (text === '') return [];
  return wrap(visible(text), { width: width - mark.length }).map((line, index) => [
    { text: (index === 0 ? mark : ' '.repeat(mark.length)) + line, ...(paint ? { paint } : {}) },
  ]);
}

/** A text in rows of so many cells, broken wherever one is full, spaces kept. */
export function broken(text: string, width: number): string[] {
  const rows: string[] = [];
  let row = '';
  for (const sign of text) {
    if (displayWidth(row + sign) > width) {
      rows.push(row);
      row = '';
    }
    row += sign;
  }
  return [...rows, row];
}

/** As much of a text as one row has room for. */
export function cutTo(text: string, width: number): string {
  return width < 1 ? '' : (broken(text, width)[0] ?? '');
}
