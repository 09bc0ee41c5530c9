/** The calendar on ISO texts: days counted and shifted without clocks or time zones. */

/** ISO calendar date, `2026-03-08`: compares as text. */
export type Day = string;

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

/** A day of the week, in three letters. */
export type Weekday = (typeof WEEKDAYS)[number];

const DAY = /^(\d{4})-(\d\d)-(\d\d)$/;
const TIME = /^(?:[01]\d|2[0-3]):[0-5]\d$/;
const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function isLeap(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

function monthLength(year: number, month: number): number {
  return month === 2 && isLeap(year) ? 29 : (MONTH_LENGTHS[month - 1] ?? 0);
}

/** Whether a text is a real date of the (proleptic) Gregorian calendar, written `2026-03-08`. */
export function isDay(text: string): boolean {
  const [, year, month, day] = DAY.exec(text) ?? [];
  return Number(day) >= 1 && Number(day) <= monthLength(Number(year), Number(month));
}

/** Whether a text is a time of day, `00:00` to `23:59`. */
export function isTime(text: string): boolean {
  return TIME.test(text);
}

/** Minutes since midnight of a time like `06:30`. */
export function minutesOf(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
}

const DAYS_IN_ERA = 146_097;
const DAYS_TO_1970 = 719_468;

/**
 * Days since 1970-01-01 of a year, month and day, counted in years that begin in March and eras of
 * 400 years. A day past the month's end runs on into the next month.
 * Source: H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", days_from_civil.
 */
function numberOf(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * DAYS_IN_ERA + dayOfEra - DAYS_TO_1970;
}

const FIRST_DAY = numberOf(0, 1, 1);
const LAST_DAY = numberOf(9999, 12, 31);

/** Days since 1970-01-01 (negative before) of a day that `isDay` accepts. */
export function dayNumber(day: Day): number {
  return numberOf(digitsIn(day, 0, 4), digitsIn(day, 5, 7), digitsIn(day, 8, 10));
}

const ZERO_CODE = 48;

/** The number that some digits of a text write; quicker than to cut them out. */
function digitsIn(text: string, from: number, to: number): number {
  let number = 0;
  for (let at = from; at < to; at++) number = number * 10 + text.charCodeAt(at) - ZERO_CODE;
  return number;
}

/**
 * The day that is a whole number of days after 1970-01-01, held within 0000-01-01 and 9999-12-31,
 * beyond which dates no longer compare as text.
 * Source: H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", civil_from_days.
 */
export function dayFromNumber(number: number): Day {
  const shifted = Math.min(Math.max(number, FIRST_DAY), LAST_DAY) + DAYS_TO_1970;
  const era = Math.floor(shifted / DAYS_IN_ERA);
  const dayOfEra = shifted - era * DAYS_IN_ERA;
  const yearOfEra = yearWithin(dayOfEra);
  const leapDays = Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100);
  const dayOfYear = dayOfEra - yearOfEra * 365 - leapDays;
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const year = era * 400 + yearOfEra + (month <= 2 ? 1 : 0);
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

function yearWithin(dayOfEra: number): number {
  const leap = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524);
  return Math.floor((dayOfEra - leap - Math.floor(dayOfEra / 146_096)) / 365);
}

function padded(value: number, width: number): string {
  return String(value).padStart(width, '0');
}

/** The day so many days later (earlier when negative), within the years 0000 to 9999. */
export function addDays(day: Day, days: number): Day {
  return dayFromNumber(dayNumber(day) + days);
}

/** How many days from one day to another; negative when `to` is earlier. */
export function daysBetween(from: Day, to: Day): number {
  return dayNumber(to) - dayNumber(from);
}

/** The earlier of two days: a span's last day that is not after the day known so far. */
export function earlierDay(day: Day, other: Day): Day {
  return day < other ? day : other;
}

/** The day of the week. 1970-01-01 was a Thursday. */
export function weekdayOf(day: Day): Weekday {
  return WEEKDAYS[weekdayNumber(day)] ?? 'mon';
}

/** From 0 for Monday. */
function weekdayNumber(day: Day): number {
  return (((dayNumber(day) + 3) % 7) + 7) % 7;
}

/**
 * The day that somebody means by words: a date as it is written, `today`, `yesterday`, a weekday (the
 * last one before today), `3 days ago`, `2 weeks ago`. Undefined for anything else.
 */
export function dayMeant(words: string, today: Day): Day | undefined {
  const said = words.trim().toLowerCase();
  if (isDay(said)) return said;
  if (said === 'today') return today;
  if (said === 'yesterday') return addDays(today, -1);
  const weekday = WEEKDAYS.findIndex((name, at) => said === name || said === WEEKDAY_NAMES[at]);
  if (weekday >= 0) return addDays(today, -1 - ((weekdayNumber(today) + 6 - weekday) % 7));
  const [, count, unit] = AGO.exec(said) ?? [];
  return unit === undefined ? undefined : addDays(today, -Number(count) * (unit === 'day' ? 1 : 7));
}

const WEEKDAY_NAMES = 'monday tuesday wednesday thursday friday saturday sunday'.split(' ');
const AGO = /^(\d{1,4}) (day|week)s? ago$/;

/** How many of some words, from the first on, name a day; 0 for none. */
export function dayWordsIn(words: readonly string[]): number {
  const fits = (count: number): boolean =>
    dayMeant(words.slice(0, count).join(' '), '2000-01-01') !== undefined;
  return fits(1) ? 1 : words.length >= 3 && fits(3) ? 3 : 0;
}

/** The month of a day: `2026-03`. */
export function monthOf(day: Day): string {
  return day.slice(0, 7);
}

/** The last day of a day's month. */
export function endOfMonth(day: Day): Day {
  const next = addDays(`${monthOf(day)}-28`, 4);
  return addDays(`${monthOf(next)}-01`, -1);
}

/** From and to, both within the span. */
export interface Span {
  readonly from: Day;
  readonly to: Day;
}

/**
 * The business year that starts in a calendar year, on the `MM-DD` of `yearStarts` (absent means
 * 01-01): 2025 and `04-06` give 2025-04-06 to 2026-04-05. A start on 02-29 is 03-01 in other years.
 */
export function yearSpan(year: string, yearStarts = '01-01'): Span {
  const [month = 1, day = 1] = yearStarts.split('-').map(Number);
  const from = numberOf(Number(year), month, day);
  const to = numberOf(Number(year) + 1, month, day) - 1;
  return { from: dayFromNumber(from), to: dayFromNumber(to) };
}

/** The business year that a day falls in, named by the calendar year that it starts in. */
export function yearOf(day: Day, yearStarts = '01-01'): string {
  const year = day.slice(0, 4);
  return day < yearSpan(year, yearStarts).from ? padded(Number(year) - 1, 4) : year;
}
