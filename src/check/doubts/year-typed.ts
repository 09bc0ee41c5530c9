/** A date that is typed a year too early, as happens most in January. */
import type { Book, Day, Kind } from '../../book.ts';
import { daysBetween } from '../../number/date.ts';
import type { Finding } from '../../problem.ts';
import { spot } from '../finding.ts';
import { DATED_KINDS, YEAR_RULE, type DatedKind } from './years.ts';

/** The book without what is entered and with it, and the day that it is entered on. */
interface Entering {
  readonly before: Book;
  readonly after: Book;
  readonly asOf: Day;
}

interface Entered {
  readonly kind: Kind;
  readonly id: string;
}

/** What is asked of records that are new, or get another date, about a year before the day of entry. */
export function yearsTyped(
  { before, after, asOf }: Entering,
  entered: readonly Entered[],
): readonly Finding[] {
  return entered.flatMap(({ kind, id }) => {
    const record = isDated(kind) ? after[kind].get(id) : undefined;
    const isNew = isDated(kind) && record?.date !== before[kind].get(id)?.date;
    if (!record || !isNew || !isYearBefore(record.date, asOf)) return [];
    if (record.checked?.[YEAR_RULE] !== undefined) return [];
    const { date: figure } = record;
    const meant = `${asOf.slice(0, 4)}${figure.slice(4)}`;
    return {
      ...{ rule: YEAR_RULE, severity: 'warning', at: spot(record, 'date'), figure },
      message: `the date is ${figure}, about a year before today, ${asOf}`,
      hint: `write ${meant}, unless it was a year ago`,
    };
  });
}

function isDated(kind: Kind): kind is DatedKind {
  return DATED_KINDS.some((each) => each === kind);
}

/** Days before and after the day a year ago that are taken for a slip. */
const ABOUT = 14;
const DAYS_A_YEAR = 365;

function isYearBefore(date: Day, asOf: Day): boolean {
  return Math.abs(daysBetween(date, asOf) - DAYS_A_YEAR) <= ABOUT;
}
