/**
 * A schedule: what to make on which day, and which kiln to load with what. Forward from today, what is due
 * first comes first; a load goes when it is full enough, when a due day forces it, or when no more comes
 * and it is half full, or as late as may be for a lost load to be made again.
 */
import type { FiringKind } from '../../book.ts';
import type { Cone } from '../../number/cone.ts';
import { grouped } from '../../grouping.ts';
import { lastStart, workDayFrom, type Calendar } from './calendar.ts';
import type { KilnAhead } from './kilns-ahead.ts';
import { waitBefore } from './waits.ts';
import { coneIn, roomOfAll, type WareSort } from './ware-sort.ts';

/** Pieces of a sort with one due day. */
export interface PiecesDue {
  readonly sort: WareSort;
  readonly count: number;
  /** The day on which they have to be packed; undefined for none. */
  readonly due: number | undefined;
}

/** Pieces that wait for a firing: after so many, from a day on. */
export interface WaitingPieces extends PiecesDue {
  readonly stage: number;
  readonly ready: number;
}

/** What there is to do, and in how much time. */
export interface WorkAhead {
  readonly calendar: Calendar;
  readonly toMake: readonly PiecesDue[];
  readonly waiting: readonly WaitingPieces[];
  /** Minutes of making on each day that is worked; undefined for no limit. */
  readonly minutesADay: number | undefined;
  /** From which share of a kiln's room on a load goes, as a fraction of 1. */
  readonly fullEnough: number;
}

/** Something that is done on a day. */
export interface MadeOn extends PiecesDue {
  readonly day: number;
}

/** One load of a kiln. */
export interface PlannedLoad {
  readonly day: number;
  /** The day it is unloaded. */
  readonly out: number;
  readonly kiln: KilnAhead;
  readonly kind: FiringKind;
  readonly cone: Cone | undefined;
  readonly pieces: readonly WaitingPieces[];
  /** In millionths of the unit of space. */
  readonly taken: number;
  readonly room: number;
}

/** What is done when. */
export interface Schedule {
  readonly making: readonly MadeOn[];
  readonly loads: readonly PlannedLoad[];
  /** Pieces that are packed, with the day of it. */
  readonly packed: readonly MadeOn[];
  /** What is still to be made, or waits, at the end. */
  readonly left: readonly (PiecesDue | WaitingPieces)[];
}

/** The schedule as it grows. */
interface Course extends WorkAhead {
  toMake: PiecesDue[];
  waiting: WaitingPieces[];
  readonly freeOn: Map<KilnAhead, number>;
  minutes: number;
  readonly making: MadeOn[];
  readonly loads: PlannedLoad[];
  readonly packed: MadeOn[];
}

const LONGEST_PLAN = 250;

/** Schedules all that can be done within the next 250 days. */
export function scheduleOf(ahead: WorkAhead): Schedule {
  const { calendar } = ahead;
  const course: Course = {
    ...ahead,
    toMake: ahead.toMake.toSorted(
      (one, other) => startBy(calendar, one) - startBy(calendar, other),
    ),
    waiting: [],
    freeOn: new Map(calendar.kilns.map((kiln) => [kiln, kiln.freeOn])),
    ...{ minutes: 0, making: [], loads: [], packed: [] },
  };
  for (const pieces of ahead.waiting) arrive(course, pieces);
  const end = calendar.today + LONGEST_PLAN;
  for (let day = calendar.today; day < end && !isAllDone(course); day += 1) {
    if (calendar.isRest(day)) continue;
    for (const kiln of calendar.kilns) loadKiln(course, kiln, day);
    makeOn(course, day);
  }
  const { making, loads, packed, toMake, waiting } = course;
  return { making, loads, packed, left: [...toMake, ...waiting] };
}

function isAllDone({ toMake, waiting }: Course): boolean {
  return toMake.length === 0 && waiting.length === 0;
}

function startBy(calendar: Calendar, { sort, due }: PiecesDue): number {
  return due === undefined ? Number.MAX_SAFE_INTEGER : lastStart(calendar, sort, due);
}

/** The last day on which waiting pieces can be loaded to be packed in time. */
function loadBy({ daysLeft }: Calendar, { sort, due, stage }: WaitingPieces): number {
  return due === undefined ? Number.MAX_SAFE_INTEGER : due - daysLeft(sort, stage);
}

function makeOn(course: Course, day: number): void {
  const { minutesADay, calendar } = course;
  course.minutes = course.toMake.length === 0 ? 0 : course.minutes + (minutesADay ?? 0);
  for (const pieces of [...course.toMake]) {
    const { sort, count } = pieces;
    const isFree = minutesADay === undefined || sort.minutes === 0;
    const made = isFree ? count : Math.min(count, Math.floor(course.minutes / sort.minutes));
    if (made === 0 || isScrap(course, { ...pieces, day }, made)) return;
    if (!isFree) course.minutes -= made * sort.minutes;
    course.making.push({ ...pieces, count: made, day });
    const ready = day + calendar.waits.drying.days;
    arrive(course, { ...pieces, count: made, stage: 0, ready });
    course.toMake = withLess(course.toMake, pieces, made);
    if (made < count) return;
  }
}

/** Nobody begins something else for the last bit of a day. */
function isScrap(
  { minutesADay = 0, making }: Course,
  { sort, count, day }: MadeOn,
  made: number,
): boolean {
  const isBegun = making.some((each) => each.day === day);
  return isBegun && made < count && made * sort.minutes * 4 < minutesADay;
}

/** Pieces come to a stage: they wait for its firing, or are packed after the last. */
function arrive(course: Course, pieces: WaitingPieces): void {
  const { sort, stage, ready } = pieces;
  if (stage >= sort.fired.length) course.packed.push({ ...pieces, day: ready });
  else course.waiting.push(pieces);
}

/** The list with fewer of some pieces; without them where none is left. */
function withLess<P extends PiecesDue>(list: readonly P[], pieces: P, taken: number): P[] {
  return list.flatMap((each) => {
    if (each !== pieces) return [each];
    return each.count > taken ? [{ ...each, count: each.count - taken }] : [];
  });
}

/** Ware that could go into a kiln together. */
interface Loadable {
  readonly kind: FiringKind;
  readonly cone: Cone | undefined;
  readonly pieces: readonly WaitingPieces[];
}

function loadKiln(course: Course, kiln: KilnAhead, day: number): void {
  if ((course.freeOn.get(kiln) ?? 0) > day) return;
  const going = loadables(course, kiln, day).filter((each) => isToGo(course, { kiln, each, day }));
  const first = going.sort((one, other) => urgency(course, one) - urgency(course, other))[0];
  if (first) fire(course, kiln, { ...first, day });
}

/** The last day of its most urgent pieces. */
function urgency({ calendar }: Course, { pieces }: Loadable): number {
  return Math.min(...pieces.map((each) => loadBy(calendar, each)));
}

function loadables({ waiting }: Course, { roomFor }: KilnAhead, day: number): Loadable[] {
  const ready = waiting.filter((pieces) => {
    const kind = nextKind(pieces);
    return pieces.ready <= day && pieces.sort.roomOf(kind) <= roomFor(kind);
  });
  const groups = grouped(ready, (pieces) => `${nextKind(pieces)} ${coneOf(pieces) ?? ''}`);
  return [...groups.values()].flatMap((pieces) => {
    const [first] = pieces;
    return first ? [{ kind: nextKind(first), cone: coneOf(first), pieces }] : [];
  });
}

function nextKind({ sort, stage }: WaitingPieces): FiringKind {
  return sort.fired[stage] ?? 'test';
}

function coneOf(pieces: WaitingPieces): Cone | undefined {
  return coneIn(pieces.sort, nextKind(pieces));
}

interface Candidate {
  readonly kiln: KilnAhead;
  readonly each: Loadable;
  readonly day: number;
}

function isToGo(course: Course, going: Candidate): boolean {
  const { calendar, fullEnough } = course;
  const { kiln, each, day } = going;
  // Another load may have to go first, and the day after may be a day of rest.
  const slack = Math.max(...calendar.kilns.map(({ cycle }) => cycle)) + 1;
  if (urgency(course, each) - slack <= day) return true;
  const room = kiln.roomFor(each.kind);
  const taken = roomOfAll(each.pieces, each.kind);
  if (taken >= room * fullEnough)
    return fullEnough === 0 || !isFillingUp(course, going, room - taken);
  const isWanted = each.pieces.some(({ due }) => due !== undefined);
  const isHalfFull = taken * 2 >= room;
  return (
    isWanted && (isHalfFull || isLastSafe(course, going, slack)) && !isMoreToCome(course, going)
  );
}

/** Whether a load that is lost on a later day could not be made again in time. */
function isLastSafe({ calendar }: Course, { each, day }: Candidate, slack: number): boolean {
  return each.pieces.some((pieces) => {
    const again = calendar.waits.drying.days + calendar.daysLeft(pieces.sort, 0);
    return loadBy(calendar, pieces) - again - slack <= day;
  });
}

/** Nobody fires today what could go with more ware in a day or two. */
const PATIENCE = 3;

function isFillingUp({ waiting }: Course, { each, day }: Candidate, left: number): boolean {
  return waiting.some(
    (some) =>
      some.ready > day &&
      some.ready <= day + PATIENCE &&
      nextKind(some) === each.kind &&
      coneOf(some) === each.cone &&
      some.sort.roomOf(each.kind) <= left,
  );
}

/** Whether other ware will wait for the same kind of firing and cone. */
function isMoreToCome({ toMake, waiting }: Course, { each, day }: Candidate): boolean {
  const needs = (sort: WareSort, from: number): boolean =>
    sort.fired.slice(from).some((kind) => kind === each.kind && coneIn(sort, kind) === each.cone);
  return (
    toMake.some(({ sort }) => needs(sort, 0)) ||
    waiting.some((some) => needs(some.sort, some.stage + (some.ready > day ? 0 : 1)))
  );
}

function fire(course: Course, kiln: KilnAhead, load: Loadable & { readonly day: number }): void {
  const { calendar } = course;
  const { kind, cone, day } = load;
  const room = kiln.roomFor(kind);
  const out = workDayFrom(calendar, day + kiln.cycle);
  const pieces = filled(course, load, room);
  const taken = roomOfAll(pieces, kind);
  course.loads.push({ day, out, kiln, kind, cone, pieces, taken, room });
  course.freeOn.set(kiln, out);
  for (const each of pieces) arrive(course, { ...each, ...afterFiring(calendar, each, out) });
}

/** Takes as many of the waiting pieces as there is room for, the most urgent first. */
function filled(course: Course, { kind, pieces }: Loadable, room: number): WaitingPieces[] {
  let left = room;
  const inTurn = pieces.toSorted(
    (one, other) =>
      loadBy(course.calendar, one) - loadBy(course.calendar, other) || one.ready - other.ready,
  );
  return inTurn.flatMap((each) => {
    const one = each.sort.roomOf(kind);
    const count = one === 0 ? each.count : Math.min(each.count, Math.floor(left / one));
    if (count === 0) return [];
    left -= count * one;
    course.waiting = withLess(course.waiting, each, count);
    return [{ ...each, count }];
  });
}

function afterFiring(
  { waits }: Calendar,
  { sort, stage }: WaitingPieces,
  out: number,
): Pick<WaitingPieces, 'stage' | 'ready'> {
  const next = stage + 1;
  const wait = next >= sort.fired.length ? 'packing' : waitBefore(sort.fired, next);
  return { stage: next, ready: out + waits[wait].days };
}
