/** Dates that are a year off from what stands around them. */
import { EVENT_KINDS, type Day, type Entry } from '../../book.ts';
import { dayNumber } from '../../number/date.ts';
import { spot, type Say } from '../finding.ts';
import { inFile, type Rule } from '../rule.ts';

/** Kinds of what happens on a day of its own. */
export type DatedKind = Exclude<(typeof EVENT_KINDS)[number], 'filed'>;

// A filing is of a period that was over before.
export const DATED_KINDS = EVENT_KINDS.filter((kind): kind is DatedKind => kind !== 'filed');

/** Days that neighbours in a file are from each other at the most, and a date from both that is a year off. */
const NEAR = 45;
const YEAR = 366;

/** So many records in the order of their days make a file that is kept in order. */
const LEAST = 6;

/** In a file that is kept in order, a date about a year from the one before it and the one after it. */
function lookAtNeighbours(records: readonly DatedEntry[], say: Say): void {
  if (records.length < LEAST || isInOrder(records)) return;
  const days = records.map(({ date }) => dayNumber(date));
  records.forEach((record, at) => {
    const [before = NaN, day = NaN, after = NaN] = [days[at - 1], days[at], days[at + 1]];
    const isOff = isYearOff(day - before) && isYearOff(day - after);
    const isBetween = isOff && Math.abs(after - before) <= NEAR;
    if (!isBetween || !isInOrder(records.toSpliced(at, 1))) return;
    const { date: figure } = record;
    const side = day > before ? 'after' : 'before';
    const message = `the date ${figure} is a year ${side} the records before and after it`;
    say({ at: spot(record, 'date'), message, hint: 'correct it', figure });
  });
}

function isInOrder(records: readonly DatedEntry[]): boolean {
  return records.every(({ date }, at) => (records[at - 1]?.date ?? '') <= date);
}

function isYearOff(days: number): boolean {
  return Math.abs(Math.abs(days) - YEAR) <= NEAR;
}

/** The name of the rule on years. */
export const YEAR_RULE = 'year-slip';

const yearSlip: Rule = {
  name: YEAR_RULE,
  severity: 'warning',
  isDoubt: true,
  about:
    "A date is a year off from its record's id, the name of its file, the records before and after it in the file, or, while it is typed, today.",
  looks: [inFile(DATED_KINDS, lookAtYears), inFile(DATED_KINDS, lookAtNeighbours)],
};

type DatedEntry = Entry & { readonly date: Day };

const DAY_IN_ID = /^[a-z](\d\d)(\d\d)(\d\d)[a-z]*$/;
const MONTH_IN_PATH = /(?:^|\/)(\d{4})-(\d\d)\.yaml$/;

/** Ids and files that `add` makes say the day and the month. */
function lookAtYears(records: readonly DatedEntry[], say: Say): void {
  const [, year = '', month] = MONTH_IN_PATH.exec(records[0]?.file ?? '') ?? [];
  for (const record of records) {
    const { date } = record;
    const inId = yearInId(record);
    if (inId !== undefined) tell(record, { year: inId, where: 'id' }, say);
    else if (date.slice(5, 7) === month && date.slice(0, 4) !== year)
      tell(record, { year, where: "file's name" }, say);
  }
}

/** The year in an id that says the same day of another year. */
function yearInId({ id, date }: DatedEntry): string | undefined {
  if (id.slice(1, 3) === date.slice(2, 4)) return undefined;
  const [, year, month, day] = DAY_IN_ID.exec(id) ?? [];
  return year !== undefined && date.slice(5) === `${month}-${day}` ? `20${year}` : undefined;
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
