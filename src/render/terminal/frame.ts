/** Fits questions to a terminal: lines of its width, as many as it has, and where the cursor stands. */
import { visible } from '../escape.ts';
import { printed, together, type Printable } from '../printable.ts';
import { displayWidth, pad, wrap } from './width.ts';

interface Done {
  readonly left: string;
  readonly right: string;
}

/** What is to be seen, from top to bottom. */
export interface FrameView {
  readonly head: string;
  readonly done: readonly Done[];
  readonly prompt: string;
  readonly about: string;
  readonly line: { readonly text: string; readonly at: number };
  readonly message: string;
  readonly offers: readonly { readonly label: string; readonly note: string }[];
  readonly picked: number | undefined;
  readonly lift: number;
}

/** Cells of a terminal. */
interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** Lines for the terminal; row and column of the cursor count from 0. */
interface FittedFrame {
  readonly lines: readonly string[];
  readonly row: number;
  readonly column: number;
}

const MOST_OFFERS = 7;
const LEAST_DONE = 3;
const MARK = '> ';
/** From so many rows on, an empty one parts the question from what was answered. */
const ROOMY = 16;

/**
 * The lines of a frame: the head, as many of the last answers as there is room for, the question,
 * what is typed, what is wrong with it and what may be chosen. No line is wider than the terminal,
 * nor are there more than it has.
 */
export function fitFrame(shown: FrameView, { columns, rows }: Size): FittedFrame {
  // A sign in the last column makes some terminals break the line.
  const width = Math.max(columns - 1, 10);
  const head = wrapped(shown.head, width);
  const gap = rows >= ROOMY ? [''] : [];
  const question = [...gap, ...wrapped(shown.prompt, width), ...wrapped(shown.about, width)];
  const typed = typedRows(shown.line, width);
  const message = wrapped(shown.message, width);
  const fixed = head.length + question.length + typed.rows.length + message.length;
  const free = Math.max(rows - fixed, 0);
  const offers = offerRows(shown, { width, room: Math.min(MOST_OFFERS, free - LEAST_DONE) });
  const done = shown.done.flatMap((line) => doneRows(line, width));
  const above = [...head, ...lastRows(done, free - offers.length, shown.lift), ...question];
  const lines = [...above, ...typed.rows, ...message, ...offers];
  const cut = Math.max(lines.length - rows, 0);
  return {
    lines: lines.slice(cut),
    row: Math.max(above.length + typed.row - cut, 0),
    column: typed.column,
  };
}

/** The control texts that put fitted lines on a terminal without clearing it first. */
export function paintFrame({
  lines: [first = '', ...others],
  row,
  column,
}: FittedFrame): Printable {
  return together([
    printed`\u001b[H${first}\u001b[K`,
    ...others.map((line) => printed`\r\n${line}\u001b[K`),
    printed`\u001b[J\u001b[${row + 1};${column + 1}H`,
  ]);
}

function wrapped(text: string, width: number): string[] {
  return text === '' ? [] : wrap(visible(text), { width });
}

function doneRows({ left, right }: Done, width: number): string[] {
  const indent = /^ */.exec(left)?.[0] ?? '';
  const room = { width: width - indent.length };
  const rows = wrap(visible(left.trimStart()), room).map((row) => indent + row);
  if (right === '') return rows;
  const last = rows.at(-1) ?? '';
  const beside = width - displayWidth(last) - 2;
  const isBeside = displayWidth(right) <= beside;
  return isBeside
    ? [...rows.slice(0, -1), `${last}  ${pad(visible(right), beside, true)}`]
    : [...rows, ...wrapped(right, width).map((row) => pad(row, width, true))];
}

function lastRows(rows: readonly string[], room: number, lift: number): readonly string[] {
  if (rows.length <= room) return rows;
  if (room < 1) return [];
  const end = Math.max(rows.length - lift, room);
  const shown = rows.slice(end - room, end);
  return end > room ? [`… ${end - room + 1} more above`, ...shown.slice(1)] : shown;
}

interface TypedRows {
  readonly rows: readonly string[];
  readonly row: number;
  readonly column: number;
}

function typedRows({ text, at }: FrameView['line'], width: number): TypedRows {
  const rows = broken(MARK + visible(text), width);
  const before = broken(MARK + visible(text.slice(0, at)), width);
  const column = displayWidth(before.at(-1) ?? '');
  const isFull = column >= width;
  const row = before.length - 1 + (isFull ? 1 : 0);
  return { rows: row < rows.length ? rows : [...rows, ''], row, column: isFull ? 0 : column };
}

/** A text in rows of so many cells, broken wherever one is full, spaces kept. */
function broken(text: string, width: number): string[] {
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

function offerRows(
  { offers, picked }: FrameView,
  { width, room }: { readonly width: number; readonly room: number },
): readonly string[] {
  if (room < 1 || offers.length === 0) return [];
  const fits = offers.length <= room;
  const count = fits ? offers.length : Math.max(room - 1, 1);
  const from = Math.min(Math.max((picked ?? 0) - count + 1, 0), offers.length - count);
  const labels = offers.slice(from, from + count);
  const column = Math.max(...labels.map(({ label }) => displayWidth(visible(label))));
  const rows = labels.map(({ label, note }, index) => {
    const mark = from + index === picked ? MARK : '  ';
    const text = `${mark}${pad(visible(label), column, false)}  ${visible(note)}`;
    return broken(text.trimEnd(), width)[0] ?? '';
  });
  return fits || room < 2 ? rows : [...rows, `  and ${offers.length - count} more`];
}
