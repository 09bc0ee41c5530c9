/** What of a schedule comes too late, and what would make it fit: tried, one after the other. */
import { countIn } from '../../grouping.ts';
import { boundOf, type Bound } from './bound.ts';
import { scheduleOf, type PiecesDue, type Schedule, type WorkAhead } from './schedule.ts';

/** Pieces of one sort that are not packed on their due day. */
export interface Late extends PiecesDue {
  readonly due: number;
  /** The day the last of them is packed; undefined where the schedule ends before. */
  readonly packed: number | undefined;
}

/** What would make everything fit that is due by the day of what is late. */
export type Remedy =
  | { readonly how: 'loads'; readonly more: number }
  | { readonly how: 'hours' }
  | { readonly how: 'loads-and-hours' }
  | { readonly how: 'fewer'; readonly count: number; readonly of: number };

/** A schedule, and how it fits. */
export interface Fitting {
  readonly schedule: Schedule;
  /** By due day. */
  readonly late: readonly Late[];
  readonly remedies: readonly Remedy[];
  /** Shown by a bound: it can't be done at all. */
  readonly bound: Bound | undefined;
}

/** The schedule of the work ahead; where something is late, with what would help. */
export function fittingOf(ahead: WorkAhead): Fitting {
  const schedule = scheduleOf(ahead);
  const late = lateIn(schedule);
  const bound = late.length > 0 ? boundOf(ahead) : undefined;
  const [first] = late;
  return { schedule, late, remedies: first ? remediesFor(ahead, first, schedule) : [], bound };
}

/** What is late in a schedule, by due day, then by how late it is. */
export function lateIn({ packed, left }: Schedule): Late[] {
  const late = new Map<string, Late>();
  const note = ({ sort, count, due }: PiecesDue, day: number | undefined): void => {
    if (due === undefined || (day !== undefined && day <= due)) return;
    const key = `${due} ${sort.name}`;
    const known = late.get(key) ?? { sort, due, count: 0, packed: day };
    const last = later(known.packed, day);
    late.set(key, { ...known, count: known.count + count, packed: last });
  };
  for (const each of packed) note(each, each.day);
  for (const each of left) note(each, undefined);
  return [...late.values()].sort(
    (one, other) => one.due - other.due || (other.packed ?? NEVER) - (one.packed ?? NEVER),
  );
}

const NEVER = Number.MAX_SAFE_INTEGER;

function later(one: number | undefined, other: number | undefined): number | undefined {
  return one === undefined || other === undefined ? undefined : Math.max(one, other);
}

function remediesFor(ahead: WorkAhead, first: Late, before: Schedule): Remedy[] {
  const sooner = { ...ahead, fullEnough: 0 };
  const longer = { ...ahead, minutesADay: undefined };
  const fits = (some: WorkAhead): Schedule | undefined => {
    const schedule = scheduleOf(some);
    return isInTime(schedule, first.due) ? schedule : undefined;
  };
  const loads = fits(sooner);
  if (loads)
    return [{ how: 'loads', more: loadsUntil(loads, first.due) - loadsUntil(before, first.due) }];
  if (ahead.minutesADay !== undefined && fits(longer)) return [{ how: 'hours' }];
  if (ahead.minutesADay !== undefined && fits({ ...sooner, ...longer, fullEnough: 0 }))
    return [{ how: 'loads-and-hours' }];
  return fewerOf(sooner, first);
}

function isInTime(schedule: Schedule, due: number): boolean {
  return lateIn(schedule).every((each) => each.due > due);
}

function loadsUntil({ loads }: Schedule, due: number): number {
  return loads.filter(({ day }) => day <= due).length;
}

/** So many of what is late as come in time, where that is more than none. */
function fewerOf(ahead: WorkAhead, { sort, due }: Late): Remedy[] {
  const isMeant = (pieces: PiecesDue): boolean => pieces.sort === sort && pieces.due === due;
  const of = countIn(ahead.toMake.filter(isMeant));
  const fits = (count: number): boolean => {
    const toMake = ahead.toMake.flatMap((pieces) =>
      isMeant(pieces) ? (count === 0 ? [] : [{ ...pieces, count }]) : [pieces],
    );
    return isInTime(scheduleOf({ ...ahead, toMake }), due);
  };
  let [low, high] = [0, of];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low === 0 || low === of ? [] : [{ how: 'fewer', count: low, of }];
}
