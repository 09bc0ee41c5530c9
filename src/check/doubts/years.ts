/** Dates that are a year off from what stands around them. */
import { EVENT_KINDS, type Day, type Entry } from '../../book.ts';
import { dayNumber } from '../../number/date.ts';
import { spot, type Say } from '../finding.ts';
import { each, usual, type Rule } from '../rule.ts';
import type { Yardstick } from './figure.ts';

type DatedKind = Exclude<(typeof EVENT_KINDS)[number], 'filed'>;

// A filing is of a period that was over before.
const DATED_KINDS = EVENT_KINDS.filter((kind): kind is DatedKind => kind !== 'filed');

/** Days that neighbours in a file are from each other at the most, and a date from both that is a year off. */
const NEAR = 45;
const YEAR = 366;

/** So many records in the order of their days make a file that is kept in order. */
const LEAST = 6;

/** In a file that is kept in order, a date about a year from the one before it and the one after it. */
const BY_NEIGHBOURS: Yardstick = {
  far: ({ sizes }) =>
    sizes.length < LEAST
      ? []
      : sizes.flatMap((size, at) => {
          const [before = NaN, after = NaN] = [sizes[at - 1], sizes[at + 1]];
          const isOff = isYearOff(size - before) && isYearOff(size - after);
          const isBetween = isOff && Math.abs(after - before) <= NEAR;
          const isDoubted = isBetween && isInOrder(sizes.filter((_, other) => other !== at));
          return isDoubted ? [{ at, usual: { low: before, middle: before, high: after } }] : [];
        }),
  words: (size, { middle }) => `a year ${size > middle ? 'after' : 'before'}`,
};

function isInOrder(days: readonly number[]): boolean {
  return days.every((day, at) => at === 0 || (days[at - 1] ?? 0) <= day);
}

function isYearOff(days: number): boolean {
  return Math.abs(Math.abs(days) - YEAR) <= NEAR;
}

const yearSlip: Rule = {
  name: 'year-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    "A date is a year off from its record's id, the name of its file, or the records before and after it in the file.",
  looks: [
    each(DATED_KINDS, (record, { say }) => {
      lookAtYear(record, say);
    }),
    usual(
      DATED_KINDS,
      { measure: BY_NEIGHBOURS, what: 'the date', than: 'the records before and after it' },
      ({ date, file }, { note }) => {
        note({ like: file, size: dayNumber(date), day: date, path: ['date'], text: () => date });
      },
    ),
  ],
};

type DatedEntry = Entry & { readonly date: Day };

const DAY_IN_ID = /^[a-z](\d\d)(\d\d)(\d\d)[a-z]*$/;
const MONTH_IN_PATH = /(?:^|\/)(\d{4})-(\d\d)\.yaml$/;

/** Ids and files that `add` makes say the day and the month. */
function lookAtYear(record: DatedEntry, say: Say): void {
  const { id, file, date } = record;
  const [, shortYear = '', month = '', day = ''] = DAY_IN_ID.exec(id) ?? [];
  const inId = shortYear !== '' && date.slice(5) === `${month}-${day}`;
  if (inId && date.slice(2, 4) !== shortYear) {
    tell(record, { year: `20${shortYear}`, where: 'id' }, say);
    return;
  }
  const [, year = '', ofYear] = MONTH_IN_PATH.exec(file) ?? [];
  const isOfFile = ofYear !== undefined && date.slice(5, 7) === ofYear;
  if (isOfFile && year !== date.slice(0, 4)) tell(record, { year, where: "file's name" }, say);
}

interface OtherYear {
  readonly year: string;
  readonly where: string;
}

function tell(record: DatedEntry, { year, where }: OtherYear, say: Say): void {
  const { date } = record;
  say({
    at: spot(record, 'date'),
    message: `the date is ${date}, but its ${where} says ${year}`,
    hint: `write ${year}${date.slice(4)}`,
    figure: date,
  });
}

/** The rule on years. */
export const YEAR_DOUBTS: readonly Rule[] = [yearSlip];
