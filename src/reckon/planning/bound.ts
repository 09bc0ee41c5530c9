/** What no schedule can do: the days left, the kilns' room or the hours are too few, however they are used. */
import type { FiringKind } from '../../book.ts';
import { lastStart, type Calendar } from './calendar.ts';
import type { PiecesDue, WaitingPieces, WorkAhead } from './schedule.ts';
import { waitBefore } from './waits.ts';
import { roomOfAll, type WareSort } from './ware-sort.ts';

/** Why ware can't be there on its due day. Days are numbers. */
export type Bound =
  /** It takes until `earliest`, whatever is done. */
  | {
      readonly why: 'days';
      readonly due: number;
      readonly sort: WareSort;
      readonly earliest: number;
    }
  /** All of a kind that is due by then needs so much room, and the kilns have so much until then. */
  | {
      readonly why: 'room';
      readonly due: number;
      readonly kind: FiringKind;
      readonly needed: number;
      readonly room: number;
    }
  /** Nobody fires the kind, or one piece is larger than every kiln that does. */
  | {
      readonly why: 'no-kiln';
      readonly due: number;
      readonly sort: WareSort;
      readonly kind: FiringKind;
    }
  /** Its making takes so many minutes, and there are so many until it has to be made. */
  | {
      readonly why: 'hours';
      readonly due: number;
      readonly needed: number;
      readonly there: number;
    };

/** Pieces with a firing before them, and between which days that can begin. */
interface Passing {
  readonly sort: WareSort;
  readonly count: number;
  readonly due: number;
  readonly kind: FiringKind;
  readonly earliest: number;
  readonly latest: number;
}

/** The first due day that can't be met by any schedule; undefined where nothing shows that. */
export function boundOf(ahead: WorkAhead): Bound | undefined {
  const passing = passingsOf(ahead);
  const dues = [...ahead.toMake, ...ahead.waiting].flatMap(({ due }) => due ?? []);
  for (const due of [...new Set(dues)].sort((one, other) => one - other)) {
    const until = passing.filter((each) => each.due <= due);
    const found =
      kilnBound(ahead, until) ??
      daysBound(until) ??
      hoursBound(ahead, due) ??
      roomBound(ahead, until);
    if (found) return { ...found, due };
  }
  return undefined;
}

function passingsOf({ toMake, waiting, calendar }: WorkAhead): Passing[] {
  const made = toMake.map((pieces): WaitingPieces => {
    return { ...pieces, stage: 0, ready: calendar.today + calendar.waits.drying.days };
  });
  return [...made, ...waiting].flatMap((pieces) => passings(calendar, pieces));
}

/** Each firing that pieces have before them. */
function passings(
  calendar: Calendar,
  { sort, count, due, stage, ready }: WaitingPieces,
): Passing[] {
  if (due === undefined) return [];
  let from = ready;
  return sort.fired.slice(stage).map((kind, at) => {
    if (at > 0) from += calendar.waits[waitBefore(sort.fired, stage + at)].days;
    const earliest = Math.max(from, firstFree(calendar, kind));
    from = earliest + (calendar.cycleOf(kind) ?? 1);
    return { sort, count, due, kind, earliest, latest: due - calendar.daysLeft(sort, stage + at) };
  });
}

function firstFree({ kilns, today }: Calendar, kind: FiringKind): number {
  const free = kilns.filter(({ roomFor }) => roomFor(kind) > 0).map(({ freeOn }) => freeOn);
  return free.length === 0 ? today : Math.min(...free);
}

function kilnBound({ calendar }: WorkAhead, passing: readonly Passing[]): Bound | undefined {
  const found = passing.find(({ sort, kind }) =>
    calendar.kilns.every(({ roomFor }) => roomFor(kind) === 0 || sort.roomOf(kind) > roomFor(kind)),
  );
  return found && { why: 'no-kiln', due: found.due, sort: found.sort, kind: found.kind };
}

function daysBound(passing: readonly Passing[]): Bound | undefined {
  const late = passing.filter(({ earliest, latest }) => earliest > latest);
  const worst = late.sort((one, other) => lateBy(other) - lateBy(one))[0];
  return (
    worst && { why: 'days', due: worst.due, sort: worst.sort, earliest: worst.due + lateBy(worst) }
  );
}

function lateBy({ earliest, latest }: Passing): number {
  return earliest - latest;
}

/** Room that all loads would have that can begin in time, against what the ware takes. */
function roomBound({ calendar }: WorkAhead, passing: readonly Passing[]): Bound | undefined {
  for (const kind of new Set(passing.map((each) => each.kind))) {
    const some = passing.filter((each) => each.kind === kind);
    const needed = roomOfAll(some, kind);
    const from = Math.min(...some.map(({ earliest }) => earliest));
    const to = Math.max(...some.map(({ latest }) => latest));
    const room = calendar.kilns.reduce((sum, { roomFor, cycle, freeOn }) => {
      const first = Math.max(from, freeOn);
      return sum + (first > to ? 0 : (Math.floor((to - first) / cycle) + 1) * roomFor(kind));
    }, 0);
    if (needed > room) return { why: 'room', due: 0, kind, needed, room };
  }
  return undefined;
}

function hoursBound(
  { calendar, toMake, minutesADay }: WorkAhead,
  until: number,
): Bound | undefined {
  if (minutesADay === undefined) return undefined;
  const due = toMake.filter((pieces): pieces is PiecesDue & { due: number } =>
    isDueBy(pieces, until),
  );
  const needed = due.reduce((sum, { sort, count }) => sum + sort.minutes * count, 0);
  const last = Math.max(...due.map((each) => lastStart(calendar, each.sort, each.due)));
  let there = 0;
  for (let day = calendar.today; day <= last; day += 1)
    if (!calendar.isRest(day)) there += minutesADay;
  return needed > there ? { why: 'hours', due: until, needed, there } : undefined;
}

function isDueBy({ due }: PiecesDue, day: number): boolean {
  return due !== undefined && due <= day;
}
