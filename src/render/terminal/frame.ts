/** Fits an entry to a terminal: lines of its width, as many as it has, and where the cursor is. */
import { visible } from '../escape.ts';
import { paints, type Paints } from '../paint.ts';
import { printed, printedLayout, together, type Printable } from '../printable.ts';
import { recordRows, type RecordView } from './frame-record.ts';
import {
  broken,
  cutTo,
  rowText,
  wrappedRows,
  type FrameRow,
  type TypedRows,
} from './frame-rows.ts';
import { displayWidth, pad } from './width.ts';

/** What is to be seen, from top to bottom. */
export interface FrameView {
  /** The file that the record goes to, and what it is. */
  readonly file: string;
  readonly title: string;
  readonly record: RecordView;
  readonly field: { readonly name: string; readonly about: string };
  readonly line: { readonly text: string; readonly at: number };
  /** What Enter takes on an empty line; empty for nothing. */
  readonly usual: string;
  readonly message: string;
  /** What else there is to say, in lines. */
  readonly notes: readonly string[];
  /** Pasted lines that wait. */
  readonly pasted: readonly string[];
  readonly offers: readonly { readonly label: string; readonly note: string }[];
  readonly picked: number | undefined;
  readonly effects: readonly string[];
  /** What keys do, the most needed first. */
  readonly keys: readonly string[];
}

/** Cells of a terminal, and what it can show. */
export interface FrameSpace {
  readonly columns: number;
  readonly rows: number;
  /** Whether it shows more signs than those of ASCII. */
  readonly isWide: boolean;
}

/** Lines for the terminal; row and column of the cursor count from 0. */
interface FittedFrame {
  readonly lines: readonly FrameRow[];
  readonly row: number;
  readonly column: number;
}

const MOST_OFFERS = 7;
const LEAST_RECORD = 4;
const MOST_EFFECTS = 4;
const MARK = '> ';
/** Before the choice that Enter takes. */
const CHOSEN = '* ';
/** With fewer rows than these, the file and what it is share one. */
const ROOMY = 16;
/** The foot is no further down than this, unless there is more above it. */
const FOOT = 30;

/**
 * The rows of an entry. The field, what is typed, what is wrong with it and the keys are there whatever
 * room there is; then come the file, the choices, what will change, and as much of the record as fits.
 */
export function fitFrame(shown: FrameView, { columns, rows, isWide }: FrameSpace): FittedFrame {
  // A sign in the last column makes some terminals break the line.
  const width = Math.max(columns - 1, 10);
  const left = { rows: Math.max(rows, 4) };
  const take = (more: readonly FrameRow[], most = left.rows): readonly FrameRow[] => {
    const taken = more.slice(0, Math.max(Math.min(most, left.rows), 0));
    left.rows -= taken.length;
    return taken;
  };
  const keys = take(keyRow(shown.keys, width));
  const typed = cutTyped(typedRows(shown, width), left.rows - 2);
  left.rows -= typed.rows.length;
  const message = take(
    wrappedRows(shown.message, { mark: '! ', width, paint: 'warning' }),
    left.rows - 1,
  );
  const field = take(fieldRows(shown, width), rows >= ROOMY ? 3 : 1);
  const head = take(headRows(shown, width, rows >= ROOMY), left.rows - 1);
  const rule = take([[{ text: (isWide ? '─' : '-').repeat(width), paint: 'quiet' }]]);
  const notes = shown.notes.flatMap((line) => wrappedRows(line, { mark: '', width }));
  const pasted = take([...notes, ...pastedRows(shown, width)], left.rows - 1);
  const offers = take(offerRows(shown, width, Math.min(MOST_OFFERS, left.rows - 1)));
  const effects = take(
    effectRows(shown, width, isWide),
    Math.min(MOST_EFFECTS, left.rows - LEAST_RECORD),
  );
  const record = recordRows(shown.record, typed, { width, rows: left.rows, isWide });
  const above = [...head, ...record.rows];
  const below = [...rule, ...field, ...message, ...pasted, ...offers];
  const foot = [...effects, ...keys];
  const space = Math.min(rows, FOOT) - above.length - below.length - foot.length;
  const gap = Array.from({ length: Math.max(space, 0) }, (): FrameRow => []);
  // Where nothing is typed, the cursor is at what is chosen.
  const chosen = offers.findIndex(([part]) => part?.text.startsWith(CHOSEN));
  const row = shown.record.typed
    ? head.length + record.cursor + typed.row
    : above.length + below.length - offers.length + Math.max(chosen, 0);
  return { lines: [...above, ...below, ...gap, ...foot], row, column: typed.column };
}

/** The control texts that put fitted lines on a terminal without clearing it first. */
export function paintFrame({ lines, row, column }: FittedFrame, colour: boolean): Printable {
  const look = paints(colour);
  const [first, ...others] = lines.map((line) => painted(line, look, colour));
  return together([
    printed`\u001b[H`,
    first ?? printed``,
    printed`\u001b[K`,
    ...others.flatMap((line) => [printed`\r\n`, line, printed`\u001b[K`]),
    printed`\u001b[J\u001b[${row + 1};${column + 1}H`,
  ]);
}

function painted(line: FrameRow, look: Paints, colour: boolean): Printable {
  const texts = line.map(({ text, paint }) => (paint ? look[paint](text) : text));
  return printedLayout(texts.join(''), { colour });
}

function headRows(
  { file, title }: FrameView,
  width: number,
  isRoomy: boolean,
): readonly FrameRow[] {
  const name = { text: cutTo(visible(file), width), paint: 'strong' } as const;
  const what = visible(title);
  if (isRoomy) return [[name], [{ text: cutTo(what, width) }], []];
  const rest = width - displayWidth(name.text) - 2;
  return [rest > 4 ? [name, { text: `  ${cutTo(what, rest)}` }] : [name]];
}

function keyRow(keys: readonly string[], width: number): readonly FrameRow[] {
  const fitting = keys.reduce((text, key) => {
    const longer = text === '' ? key : `${text}   ${key}`;
    return displayWidth(longer) <= width ? longer : text;
  }, '');
  return [[{ text: cutTo(fitting || (keys[0] ?? ''), width), paint: 'quiet' }]];
}

/** The line that is typed, at its place in the record. */
function typedRows({ record, line, usual }: FrameView, width: number): TypedRows {
  if (!record.typed) return { rows: [], row: 0, column: 0 };
  const { before, after } = record.typed;
  const lead = MARK + visible(before);
  const text = visible(line.text);
  const rows = broken(lead + text, width);
  const typed = broken(lead + visible(line.text.slice(0, line.at)), width);
  const column = displayWidth(typed.at(-1) ?? '');
  const isFull = column >= width;
  const row = typed.length - 1 + (isFull ? 1 : 0);
  const whole = row < rows.length ? rows : [...rows, ''];
  const last = whole.at(-1) ?? '';
  const hint = text === '' && usual !== '' ? `usual: ${visible(usual)}` : '';
  const rest = cutTo(`${hint}${visible(after)}`, Math.max(width - displayWidth(last), 0));
  const ends = [
    ...whole.slice(0, -1).map((each) => [{ text: each }]),
    [{ text: last }, { text: rest, paint: 'quiet' as const }],
  ];
  return { rows: ends, row, column: isFull ? 0 : column };
}

/** So many of the rows that are typed in, those about the cursor. */
function cutTyped(typed: TypedRows, most: number): TypedRows {
  const count = Math.max(most, 1);
  const from = Math.max(typed.row - count + 1, 0);
  return { ...typed, rows: typed.rows.slice(from, from + count), row: typed.row - from };
}

function fieldRows({ field: { name, about } }: FrameView, width: number): readonly FrameRow[] {
  const sign = name === '' || name.endsWith('?') ? '' : ':';
  const rows = wrappedRows([`${name}${about && sign}`, about].filter(Boolean).join(' '), {
    mark: '',
    width,
  });
  const [first = [], ...others] = rows;
  const [head, shown] = [rowText(first), visible(name)];
  if (name === '' || !head.startsWith(shown)) return rows;
  return [[{ text: shown, paint: 'strong' }, { text: head.slice(shown.length) }], ...others];
}

function pastedRows({ pasted }: FrameView, width: number): readonly FrameRow[] {
  const lines = pasted.filter((line) => line.trim() !== '');
  if (lines.length === 0) return [];
  const head = `${lines.length} pasted ${lines.length === 1 ? 'line waits' : 'lines wait'}; Enter on what is above goes on with ${lines.length === 1 ? 'it' : 'them'}:`;
  const rows = lines.slice(0, 3).map((line) => [{ text: cutTo(`  + ${visible(line)}`, width) }]);
  const more = lines.length > 3 ? [[{ text: `  and ${lines.length - 3} more` }]] : [];
  return [...wrappedRows(head, { mark: '', width }), ...rows, ...more];
}

function offerRows(
  { offers, picked }: FrameView,
  width: number,
  room: number,
): readonly FrameRow[] {
  if (room < 1 || offers.length === 0) return [];
  const fits = offers.length <= room;
  const count = fits ? offers.length : Math.max(room - 1, 1);
  const from = Math.min(Math.max((picked ?? 0) - count + 1, 0), offers.length - count);
  const labels = offers.slice(from, from + count);
  const column = Math.max(...labels.map(({ label }) => displayWidth(visible(label))));
  const rows = labels.map(({ label, note }, index): FrameRow => {
    const isPicked = from + index === picked;
    const name = `${isPicked ? CHOSEN : '  '}${pad(visible(label), column, false)}`;
    const text = cutTo(`${name}  ${visible(note)}`.trimEnd(), width);
    return [{ text, ...(isPicked ? { paint: 'strong' } : {}) }];
  });
  return fits || room < 2 ? rows : [...rows, [{ text: `  and ${offers.length - count} more` }]];
}

function effectRows({ effects }: FrameView, width: number, isWide: boolean): readonly FrameRow[] {
  if (effects.length === 0) return [];
  const text = `Saving changes: ${effects.join('; ')}`;
  return wrappedRows(isWide ? text : text.replaceAll('→', '->'), { mark: '', width });
}
