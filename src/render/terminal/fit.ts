/** Chooses which columns of a table a terminal shows, and how wide each is. */
import type { ShownColumn } from '../shown.ts';
import { displayWidth } from './width.ts';

/** Cells between two columns. */
export const GAP = 2;

/** Columns are left out before a text column gets narrower than this. */
const COMFORTABLE = 24;

/** Text narrower than this is no longer readable: the rows are stacked instead. */
const LEAST = 8;

/** A column and the cells of a terminal that it gets. */
export interface FittedColumn {
  readonly shown: ShownColumn;
  readonly width: number;
  /** Whether a cell or the total is wider than that and must be wrapped. */
  readonly tight: boolean;
}

/** One column that can take the place of several, whose figures it sums. */
export interface ShownSum {
  readonly shown: ShownColumn;
  /** Keys of the columns that it takes the place of. */
  readonly of: readonly string[];
}

export interface Fitted {
  readonly columns: readonly FittedColumn[];
  readonly leftOut: readonly ShownColumn[];
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
  const width = flexible ? Math.min(whole, COMFORTABLE) : whole;
  return { shown, body, head: displayWidth(shown.head), flexible, width };
}

function widthTaken(columns: readonly MeasuredColumn[]): number {
  const widths = columns.reduce((total, column) => total + column.width, 0);
  return widths + GAP * Math.max(0, columns.length - 1);
}

/** The column that goes first: the highest `drop`, of equal ones the last. */
function mostDroppable(columns: readonly MeasuredColumn[]): MeasuredColumn | undefined {
  return columns
    .filter(({ shown }) => shown.column.drop !== undefined)
    .reduce<MeasuredColumn | undefined>((found, next) => {
      const rank = found?.shown.column.drop ?? -Infinity;
      return (next.shown.column.drop ?? -Infinity) >= rank ? next : found;
    }, undefined);
}

function leaveOut(columns: readonly MeasuredColumn[], width: number): readonly MeasuredColumn[] {
  const next = widthTaken(columns) > width ? mostDroppable(columns) : undefined;
  if (next === undefined) return columns;
  return leaveOut(
    columns.filter((column) => column !== next),
    width,
  );
}

/** Takes cell by cell from the widest text column until the line fits or no text can give more. */
function narrow(columns: readonly MeasuredColumn[], width: number): void {
  const flexible = columns.filter((column) => column.flexible);
  for (let over = widthTaken(columns) - width; over > 0; over -= 1) {
    const giver = flexible.reduce<MeasuredColumn | undefined>(
      (found, next) => (next.width > (found?.width ?? LEAST) ? next : found),
      undefined,
    );
    if (giver === undefined) return;
    giver.width -= 1;
  }
}

/** Gives what is left of the line to text first, then to heads that would stand on one line with it. */
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

function fitAsTheyAre(all: readonly ShownColumn[], room: number): Fitted | undefined {
  const kept = leaveOut(all.map(measure), room);
  narrow(kept, room);
  if (widthTaken(kept) > room) return undefined;
  widen(kept, room);
  const stay = new Set(kept.map((column) => column.shown));
  return {
    columns: kept.map(({ shown, width, body }) => ({ shown, width, tight: body > width })),
    leftOut: all.filter((column) => !stay.has(column)),
    spare: room - widthTaken(kept),
  };
}

function summedUp(all: readonly ShownColumn[], { shown, of }: ShownSum): ShownColumn[] {
  const isPart = ({ column }: ShownColumn): boolean => of.includes(column.key);
  const first = all.find(isPart);
  return all.flatMap((each) => (each === first ? [shown] : isPart(each) ? [] : [each]));
}

/**
 * The columns that fit a line of so many cells: heads wrap first, then columns with `drop` are left
 * out, the highest first, then text columns get narrower, then one sum after the other takes the place
 * of its columns. Undefined when figures alone are too wide or text would be too narrow to read.
 */
export function fit(
  all: readonly ShownColumn[],
  room: number,
  sums: readonly ShownSum[] = [],
): Fitted | undefined {
  const [next, ...others] = sums;
  return fitAsTheyAre(all, room) ?? (next && fit(summedUp(all, next), room, others));
}
