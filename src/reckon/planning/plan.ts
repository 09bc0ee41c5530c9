/** A plan: what to start now so that all that is wanted is there in time, when to load it, and from what. */
import type { Book, Day, Lot } from '../../book.ts';
import { recordsDated } from '../../among.ts';
import { bookOn } from '../../in-force.ts';
import { grouped } from '../../grouping.ts';
import { addDays, dayNumber, isDay } from '../../number/date.ts';
import type { Flows } from '../flows.ts';
import { minutesOfLot } from '../ware/lot-making.ts';
import { calendarFrom, type Calendar } from './calendar.ts';
import { demandsOf, unplannedOf, type Demand, type Unplanned } from './demands.ts';
import { fittingOf, type Fitting } from './fitting.ts';
import { goalsOf, type WareGoal } from './goals.ts';
import { kilnsAhead, type KilnsAhead } from './kilns-ahead.ts';
import { shoppingFor, type Shopping } from './shopping.ts';
import { underWayOf } from './under-way.ts';
import { waitsOf } from './waits.ts';
import { wareSorts } from './ware-sort.ts';
import { yieldsOf, type Yields } from './yields.ts';

/** What a plan is asked for. */
export interface PlanAsked {
  /** The chance with which enough is to come through, as a fraction of 1. */
  readonly assurance: number;
  /** What is due after this day is left out; undefined: nothing is. */
  readonly until: Day | undefined;
  /** What is wanted beside orders, fairs and what is kept ready. */
  readonly asked: readonly Demand[];
}

/** Hours in which ware can be made, and what that goes by. */
export interface HoursAhead {
  readonly aWeek: number;
  readonly from: 'settings' | 'lots';
}

/** A plan from the end of a day on. Days are numbers, as `dayNumber` gives them. */
export interface WorkPlan {
  readonly calendar: Calendar;
  readonly goals: readonly WareGoal[];
  /** Wanted as seconds, and not there: nobody makes those. */
  readonly seconds: readonly Demand[];
  readonly unplanned: readonly Unplanned[];
  readonly fitting: Fitting;
  readonly shopping: Shopping;
  readonly hours: HoursAhead | undefined;
  readonly othersShare: KilnsAhead['othersShare'];
  readonly yields: Yields;
}

/** A load goes from here on, as a share of the room (common practice: a kiln that is nearly full fires evenly). */
const FULL_ENOUGH = 0.8;

/** How sure it is to be that enough come through, where nothing else is asked for. */
export const USUAL_ASSURANCE = 0.9;

/** The usual plan; undefined where nothing is wanted. */
export function plannedWork(book: Book, flows: Flows): WorkPlan | undefined {
  const { asOf } = flows.stock;
  if (demandsOf(bookOn(book, asOf), asOf, []).length === 0) return undefined;
  return planOf(book, flows, { assurance: USUAL_ASSURANCE, until: undefined, asked: [] });
}

/** The plan for everything that is wanted; nothing of it is recorded. */
export function planOf(
  whole: Book,
  flows: Flows,
  { assurance, until, asked }: PlanAsked,
): WorkPlan {
  const { asOf } = flows.stock;
  const book = bookOn(whole, asOf);
  const yields = yieldsOf(whole, flows);
  const waits = waitsOf(book, flows);
  const { kilns, othersShare } = kilnsAhead(book, flows);
  const calendar = calendarFrom(dayNumber(asOf), book.studio.restDays ?? [], { kilns, waits });
  const sortOf = wareSorts(book);
  const underWay = underWayOf(whole, flows, { kilns, waits, sortOf });
  const demands = demandsOf(book, asOf, asked).filter(
    ({ due }) => until === undefined || due === undefined || due <= until,
  );
  const grounds = { book, flows, underWay, yields, sortOf, assurance };
  const { goals, spare } = goalsOf(grounds, demands);
  const hours = hoursAhead(book, asOf);
  const fitting = fittingOf({
    calendar,
    toMake: goals.flatMap(({ toMake }) => toMake),
    waiting: [...goals.flatMap(({ waiting }) => waiting), ...spare],
    minutesADay: hours && (hours.aWeek * MINUTES) / workDaysAWeek(book),
    fullEnough: FULL_ENOUGH,
  });
  const { schedule } = fitting;
  const shopping = shoppingFor(book, flows, { calendar, schedule, goals });
  const seconds = demands.filter(({ grade }) => grade === 'second');
  const unplanned = unplannedOf(book, asOf);
  return { calendar, goals, seconds, unplanned, fitting, shopping, hours, othersShare, yields };
}

const MINUTES = 60;
/** Days of a week. */
export const DAYS_A_WEEK = 7;

/** How many of the days of a usual week are worked; one at least. */
function workDaysAWeek({ studio: { restDays = [] } }: Book): number {
  return Math.max(1, DAYS_A_WEEK - restDays.filter((day) => !isDay(day)).length);
}

const LOOKED_BACK = 365;

/** By the settings, else what nine of ten weeks of the last year took no more than. */
function hoursAhead(book: Book, asOf: Day): HoursAhead | undefined {
  const { hoursAWeek } = book.studio;
  if (hoursAWeek) return { aWeek: hoursAWeek.toNumber(), from: 'settings' };
  const lots = recordsDated(book.pieces, { from: addDays(asOf, -LOOKED_BACK), to: asOf });
  const weeks = [...grouped(lots, ({ date }) => weekOf(dayNumber(date))).values()];
  const minutes = weeks
    .map((some) => some.reduce((sum, lot) => sum + minutesIn(book, lot), 0))
    .filter((each) => each > 0)
    .sort((one, other) => one - other);
  const busy = minutes[Math.ceil(minutes.length * BUSY) - 1];
  return busy === undefined ? undefined : { aWeek: busy / MINUTES, from: 'lots' };
}

const BUSY = 0.9;

function minutesIn(book: Book, lot: Lot): number {
  return minutesOfLot({ book }, lot)?.toNumber() ?? 0;
}

/** The Monday of a day's week. */
export function weekOf(day: number): number {
  // 1970-01-01, day 0, was a Thursday.
  return day - ((day + 3) % DAYS_A_WEEK);
}
