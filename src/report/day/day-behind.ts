/** The records behind the rows of a day's end: its page leads to them. */
import { EVENT_KINDS, KINDS, type Book, type Day } from '../../book.ts';
import { recordsDated, type Records } from '../../among.ts';
import type { DayFigures } from '../../reckon/day.ts';
import type { Row } from '../table.ts';
import type { DayView } from './day-sections.ts';

/** Ids of the records that a row is told from. */
export function behindDayRow(view: DayView, row: Row): string[] {
  const isKnown = (id: string): boolean => KINDS.some((kind) => view.book[kind].has(id));
  return namedBy(view, row).filter(isKnown);
}

/** What a row names; some of it may be words that name no record. */
function namedBy({ book, figures }: DayView, row: Row): string[] {
  const what = String(row['what'] ?? '');
  if (row['section'] === 'recorded') return datedOf(book, what, figures.asOf);
  if (row['section'] === 'kiln-load') return [what, ...waitingFor(figures, row['kind'])];
  return what === '' ? [] : [what];
}

/** The records of a kind that are dated on the day; none of what only happened to earlier ones. */
function datedOf(book: Book, what: string, day: Day): string[] {
  const kind = EVENT_KINDS.find((each) => each === what);
  if (kind === undefined) return [];
  const records: Records<{ readonly id: string; readonly date: Day }> = book[kind];
  return recordsDated(records, { from: day, to: day }).map(({ id }) => id);
}

function waitingFor({ waiting }: DayFigures, kind: unknown): string[] {
  return waiting.filter(({ next }) => next === kind).map(({ lot }) => lot);
}
