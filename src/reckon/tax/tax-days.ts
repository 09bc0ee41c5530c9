/** Legal holidays of the United States as they move the days when tax is due. */
import type { Day } from '../../book.ts';
import { addDays, weekdayOf, type Weekday } from '../../number/date.ts';

/** A holiday on a day of the month, from the first year that it was kept. */
interface Fixed {
  readonly name: string;
  readonly day: string;
  readonly since?: number;
}

/** A holiday on the so-maniest weekday of a month; −1 for the last. */
interface Moving {
  readonly name: string;
  readonly month: string;
  readonly weekday: Weekday;
  readonly which: number;
}

/**
 * Legal holidays in the District of Columbia, which count for tax everywhere in the United States
 * (Internal Revenue Code, section 7503; District of Columbia Code, section 28-2701).
 */
const FIXED: readonly Fixed[] = [
  { name: "New Year's Day", day: '01-01' },
  { name: 'Emancipation Day', day: '04-16', since: 2007 },
  { name: 'Juneteenth', day: '06-19', since: 2021 },
  { name: 'Independence Day', day: '07-04' },
  { name: 'Veterans Day', day: '11-11' },
  { name: 'Christmas Day', day: '12-25' },
];

const MOVING: readonly Moving[] = [
  { name: 'Birthday of Martin Luther King, Jr.', month: '01', weekday: 'mon', which: 3 },
  { name: "Washington's Birthday", month: '02', weekday: 'mon', which: 3 },
  { name: 'Memorial Day', month: '05', weekday: 'mon', which: -1 },
  { name: 'Labor Day', month: '09', weekday: 'mon', which: 1 },
  { name: 'Columbus Day', month: '10', weekday: 'mon', which: 2 },
  { name: 'Thanksgiving Day', month: '11', weekday: 'thu', which: 4 },
];

/**
 * The holidays of a year on the days when they are observed, in their order: one on a Saturday is
 * observed on the Friday before, one on a Sunday on the Monday after. New Year's Day of the next year
 * stands with them when it is observed on 31 December; Inauguration Day comes every fourth year.
 */
export function legalHolidays(year: number): readonly { name: string; day: Day }[] {
  const fixed = [
    ...FIXED.filter(({ since = 0 }) => year >= since).map(({ name, day }) => ({
      name,
      day: observed(`${year}-${day}`),
    })),
    ...(year % 4 === 1 ? [{ name: 'Inauguration Day', day: observed(`${year}-01-20`) }] : []),
    { name: "New Year's Day", day: observed(`${year + 1}-01-01`) },
  ];
  const moving = MOVING.map(({ name, ...rule }) => ({ name, day: nthWeekday(year, rule) }));
  return [...fixed, ...moving]
    .filter(({ day }) => day.startsWith(`${year}-`))
    .sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** The day itself, or the next one that is no Saturday, Sunday or legal holiday. */
export function nextBusinessDay(day: Day): Day {
  const holidays = legalHolidays(Number(day.slice(0, 4)));
  const isOff =
    ['sat', 'sun'].includes(weekdayOf(day)) || holidays.some((each) => each.day === day);
  return isOff ? nextBusinessDay(addDays(day, 1)) : day;
}

function observed(day: Day): Day {
  const weekday = weekdayOf(day);
  if (weekday === 'sat') return addDays(day, -1);
  return weekday === 'sun' ? addDays(day, 1) : day;
}

function nthWeekday(year: number, { month, weekday, which }: Omit<Moving, 'name'>): Day {
  const start = `${year}-${month}-01`;
  const days = Array.from({ length: 31 }, (_, index) => addDays(start, index)).filter(
    (day) => day.startsWith(`${year}-${month}`) && weekdayOf(day) === weekday,
  );
  return days.at(which < 0 ? which : which - 1) ?? start;
}
