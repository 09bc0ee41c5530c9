/** The days of a plan: which are worked on, and how long ware takes from a stage to being packed. */
import type { FiringKind } from '../../book.ts';
import { dayFromNumber, weekdayOf } from '../../number/date.ts';
import { cached } from '../../once.ts';
import type { KilnAhead } from './kilns-ahead.ts';
import { waitBefore, type Waits } from './waits.ts';
import type { WareSort } from './ware-sort.ts';

/** What all steps of a plan go by. Days are numbers, as `dayNumber` gives them. */
export interface Calendar {
  readonly today: number;
  readonly isRest: (day: number) => boolean;
  readonly waits: Waits;
  readonly kilns: readonly KilnAhead[];
  /** The fewest days that a firing of the kind keeps ware in a kiln; undefined where none fires it. */
  readonly cycleOf: (kind: FiringKind) => number | undefined;
  /** The fewest days from loading ware that has had so many firings until it is packed. */
  readonly daysLeft: (sort: WareSort, stage: number) => number;
}

/** The calendar from a day on. */
export function calendarFrom(
  today: number,
  restDays: readonly string[],
  { kilns, waits }: Pick<Calendar, 'kilns' | 'waits'>,
): Calendar {
  const rest = new Set(restDays);
  const cycleOf = cached((kind: FiringKind) => {
    const cycles = kilns.filter(({ roomFor }) => roomFor(kind) > 0).map(({ cycle }) => cycle);
    return cycles.length === 0 ? undefined : Math.min(...cycles);
  });
  const isRest = cached((number: number) => {
    const day = dayFromNumber(number);
    return rest.has(day) || rest.has(weekdayOf(day));
  });
  const daysLeft = ({ fired }: WareSort, stage: number): number => {
    const firings = fired.slice(stage).map((kind) => cycleOf(kind) ?? 1);
    const between = fired.map((_, at) => waits[waitBefore(fired, at)].days).slice(stage + 1);
    return [...firings, ...between].reduce((sum, days) => sum + days, waits.packing.days);
  };
  return { today, isRest, waits, kilns, cycleOf, daysLeft };
}

/** The first day from a day on that is worked on; the day itself where a year has none. */
export function workDayFrom({ isRest }: Calendar, day: number): number {
  for (let each = day; each < day + DAYS_TRIED; each += 1) if (!isRest(each)) return each;
  return day;
}

/** The last day before a day that is worked on, from the first one on; the day itself where there is none. */
export function workDayBefore({ isRest }: Calendar, day: number, first: number): number {
  for (let each = day - 1; each >= first; each -= 1) if (!isRest(each)) return each;
  return day;
}

const DAYS_TRIED = 366;

/** The last day on which ware can be made that is packed on its due day. */
export function lastStart(calendar: Calendar, sort: WareSort, due: number): number {
  return due - calendar.daysLeft(sort, 0) - calendar.waits.drying.days;
}
