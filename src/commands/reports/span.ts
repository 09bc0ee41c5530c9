/** The days that are asked for: `--as-of`, `--year`, `--from` and `--to`. */
import type { Book, Day } from '../../book.ts';
import { dayMeant, isDay, yearOf, yearSpan, type Span } from '../../number/date.ts';
import type { FindingOptions, SpanOptions } from '../options.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** A stretch of days, both ends within; an absent start is the book's. */
interface AskedSpan {
  readonly from: Day | undefined;
  readonly to: Day;
}

/** The day that the book is looked at: `--as-of`, else today. */
export function askedDay({ asOf }: Pick<FindingOptions, 'asOf'>, { today }: World): Day | Refusal {
  return asOf === undefined ? today : (dayMeant(asOf, today) ?? notADay('--as-of', asOf));
}

/**
 * The span of a report: `--year` as the studio's business year, or `--from` and `--to`; up to the day
 * that the book is looked at when nothing is asked.
 */
export function askedSpan(asked: SpanOptions, book: Book, asOf: Day): AskedSpan | Refusal {
  const { year, from, to = asOf } = asked;
  if (year !== undefined) return yearAsked(asked, book, year);
  if (from !== undefined && !isDay(from)) return notADay('--from', from);
  if (!isDay(to)) return notADay('--to', to);
  if (from !== undefined && from > to)
    return { refused: `--from ${from} is after --to ${to}; swap them` };
  return { from, to };
}

/** The same, but of the business year that the day falls in when nothing is asked. */
export function askedYear(asked: SpanOptions, book: Book, asOf: Day): Span | Refusal {
  const { yearStarts } = book.studio;
  if ((asked.year ?? asked.from ?? asked.to) === undefined)
    return yearSpan(yearOf(asOf, yearStarts), yearStarts);
  const span = askedSpan(asked, book, asOf);
  return isRefusal(span) ? span : { from: span.from ?? '0000-01-01', to: span.to };
}

function yearAsked({ from, to }: SpanOptions, book: Book, year: string): AskedSpan | Refusal {
  if (!/^\d{4}$/.test(year))
    return { refused: `--year takes a year of four digits, such as 2026, and not "${year}"` };
  if ((from ?? to) !== undefined)
    return { refused: '--year already says from when to when; leave out --from and --to' };
  return yearSpan(year, book.studio.yearStarts);
}

/** Says that an option's text is not a day. */
export function notADay(option: string, text: string): Refusal {
  return { refused: `${option} takes a day such as 2026-03-08, and not "${text}"` };
}
