/** Chooses which columns of a table are side by side on a line, how wide each is, and which go below their row. */
import type { AddedUp } from '../../report/table.ts';
import type { ShownColumn } from '../shown.ts';
import { displayWidth } from './width.ts';

/** Cells between two columns. */
export const GAP = 2;

/** Columns go below their rows before a text column gets narrower than this. */
const COMFORTABLE = 24;

/** The same of a column that names what the row is of. */
const COMFORTABLE_NAME = 34;

/** Text and ids narrower than this are no longer readable. */
const LEAST = { text: 8, id: 12 } as const;

/** A column and the cells of a terminal that it gets. */
export interface FittedColumn {
  readonly shown: ShownColumn;
  readonly width: number;
  /** Whether a cell or the total is wider than that and must be wrapped. */
  readonly tight: boolean;
}

/** Which columns are side by side, and which are said below each row. */
export interface Fitted {
  readonly columns: readonly FittedColumn[];
  readonly below: readonly ShownColumn[];
  /** Cells of a line that no column needs. */
  readonly spare: number;
}

interface MeasuredColumn {
  readonly shown: ShownColumn;
  /** The widest of the cells and the total. */
  readonly body: number;
  /** The head on one line. */
  readonly head: number;
  /** Text may be wrapped; figures, dates and flags never are. */
  readonly flexible: boolean;
  width: number;
}

function widest(texts: readonly string[]): number {
  return texts.reduce((most, text) => Math.max(most, displayWidth(text)), 0);
}

/** The narrowest column in which a head takes two lines at most. */
function narrowHead(head: string): number {
  const words = head.split(' ');
  const splits = words.map((_, at) =>
    widest([words.slice(0, at).join(' '), words.slice(at).join(' ')]),
  );
  return Math.min(...splits);
}

function measure(shown: ShownColumn): MeasuredColumn {
  const body = Math.max(widest(shown.cells), displayWidth(shown.total));
  const flexible = shown.column.type === 'text' || shown.column.type === 'id';
  const whole = Math.max(body, narrowHead(shown.head));
  const width = flexible
    ? Math.min(whole, shown.column.isName ? COMFORTABLE_NAME : COMFORTABLE)
    : whole;
  return { shown, body, head: displayWidth(shown.head), flexible, width };
}

function widthTaken(
  columns: readonly MeasuredColumn[],
  widthOf = ({ width }: MeasuredColumn): number => width,
): number {
  const widths = columns.reduce((total, column) => total + widthOf(column), 0);
  return widths + GAP * Math.max(0, columns.length - 1);
}

/** The narrowest that a column can be read in. */
function leastWidth({ width, shown }: MeasuredColumn): number {
  const { type } = shown.column;
  return type === 'text' || type === 'id' ? Math.min(width, LEAST[type]) : width;
}

/** Columns that leave the line together. */
type Leaving = ReadonlySet<string>;

/**
 * Which columns leave the line, one group after the other: those with `drop`, the highest first; those of
 * one number, and what adds up to a total, go together.
 */
function leavingInTurn(all: readonly ShownColumn[], sums: readonly AddedUp[]): readonly Leaving[] {
  const groups = new Map<string, { keys: Set<string>; rank: number }>();
  for (const { column } of all.toReversed()) {
    if (column.drop === undefined) continue;
    const sum = sums.find(({ plus, less = [] }) => [...plus, ...less].includes(column.key));
    const parts = sum ? [...sum.plus, ...(sum.less ?? [])] : [column.key];
    const unit = column.unitFrom === undefined ? [] : [column.unitFrom];
    const name = sum ? `sum of ${sum.total}` : String(column.drop);
    const known = groups.get(name);
    const rank = Math.max(column.drop, known?.rank ?? 0);
    groups.set(name, { keys: new Set([...(known?.keys ?? []), ...parts, ...unit]), rank });
  }
  const ranked = [...groups.values()].sort((one, other) => other.rank - one.rank);
  return ranked.map(({ keys }) => keys);
}

/** What leaves where even that is not enough: parts of totals, then one column after the other from the right. */
function leavingAtLast(all: readonly ShownColumn[], sums: readonly AddedUp[]): readonly Leaving[] {
  const [, ...others] = all.map(({ column }) => column.key);
  return [
    ...sums.map(({ plus, less = [] }) => new Set([...plus, ...less])),
    ...others.toReversed().map((key) => new Set([key])),
  ];
}

function lineWithout(
  columns: readonly MeasuredColumn[],
  leaving: Leaving,
): readonly MeasuredColumn[] {
  return columns.filter(({ shown }) => !leaving.has(shown.column.key));
}

/** The columns that stay on the line: what leaves it first comes back last, where there is room again. */
function staying(
  all: readonly ShownColumn[],
  room: number,
  sums: readonly AddedUp[],
): readonly MeasuredColumn[] {
  const whole = all.map(measure);
  const gone: Leaving[] = [];
  const leave = (groups: readonly Leaving[], widthOf?: typeof leastWidth): void => {
    for (const group of groups) {
      if (widthTaken(gone.reduce(lineWithout, whole), widthOf) <= room) return;
      gone.push(group);
    }
  };
  leave(leavingInTurn(all, sums));
  leave(leavingAtLast(all, sums), leastWidth);
  for (const group of gone.toReversed()) {
    const others = gone.filter((each) => each !== group);
    if (widthTaken(others.reduce(lineWithout, whole)) <= room) gone.splice(gone.indexOf(group), 1);
  }
  return gone.reduce(lineWithout, whole);
}

/** How much a column can give before it is hard to read. */
function spareOf(column: MeasuredColumn): number {
  return column.width - leastWidth(column);
}

/** Takes cell by cell from the widest text column until the line fits or no text can give more. */
function narrow(columns: readonly MeasuredColumn[], width: number): void {
  const flexible = columns.filter((column) => column.flexible);
  for (let over = widthTaken(columns) - width; over > 0; over -= 1) {
    const giver = flexible.reduce<MeasuredColumn | undefined>(
      (found, next) => (spareOf(next) > (found ? spareOf(found) : -Infinity) ? next : found),
      undefined,
    );
    if (giver === undefined || giver.width === 1) return;
    giver.width -= 1;
  }
}

/** Gives what is left of the line to text first, then to heads that would be on one line with it. */
function widen(columns: readonly MeasuredColumn[], width: number): void {
  for (const column of columns.filter(({ flexible }) => flexible)) {
    const room = width - widthTaken(columns);
    column.width += Math.max(0, Math.min(room, column.body - column.width));
  }
  for (const column of columns) {
    const wanted = column.head - column.width;
    if (wanted > 0 && wanted <= width - widthTaken(columns)) column.width = column.head;
  }
}

/**
 * The columns that fit a line of so many cells, and those that are said below each row instead: first
 * heads wrap, then columns with `drop` go below, the highest first, then text gets narrower, then what
 * adds up to a total goes below all together, and at last whatever is too much but the first column.
 * Nothing is left out.
 */
export function fit(
  all: readonly ShownColumn[],
  room: number,
  sums: readonly AddedUp[] = [],
): Fitted {
  const kept = staying(all, room, sums);
  narrow(kept, room);
  widen(kept, room);
  const stay = new Set(kept.map((column) => column.shown));
  return {
    columns: kept.map(({ shown, width, body }) => ({ shown, width, tight: body > width })),
    below: all.filter((column) => !stay.has(column)),
    spare: room - widthTaken(kept),
  };
}
