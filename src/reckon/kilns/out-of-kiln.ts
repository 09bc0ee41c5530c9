/** When the pieces of a firing are out of the kiln: on the day it was unloaded, else on its own. */
import { isAmong, recordsDuring, type Days } from '../../among.ts';
import type { Book, Day, Firing, LoadLine } from '../../book.ts';
import { turnAfter, type Turn } from '../timeline.ts';

/** What came out of a load line; undefined while it is still in the kiln. */
interface Outcome {
  readonly first: number;
  readonly second: number;
  readonly lost: number;
}

/** The outcome that a load line states; a count that is left out is zero once another is there. */
export function outcomeOf(line: LoadLine): Outcome | undefined {
  const { first, second, lost } = line;
  if (first === undefined && second === undefined && lost === undefined) return undefined;
  return { first: first ?? 0, second: second ?? 0, lost: lost ?? 0 };
}

/** The day from which on what came out of a firing counts. */
export function outOn({ date, unloaded = date }: Firing): Day {
  return unloaded > date ? unloaded : date;
}

/** The outcome of a load line as it is known at the end of a day. */
export function outcomeBy(asOf: Day, firing: Firing, line: LoadLine): Outcome | undefined {
  return outOn(firing) <= asOf ? outcomeOf(line) : undefined;
}

/** A kiln that is unloaded on a later day than it was fired. */
export interface Unloading extends Turn {
  readonly kind: 'unloaded';
  readonly record: Firing;
}

// Before the day's losses and firings, so that what came out can be lost and fired on the same day.
const UNLOADED = turnAfter('pieces') - 0.25;

/** The unloadings on those days of what was not unloaded on the day of its firing. */
export function unloadings(book: Book, days: Days): Unloading[] {
  const found: Unloading[] = [];
  for (const record of recordsDuring(book.firings, days)) {
    if (record.unloaded === undefined) continue;
    const day = outOn(record);
    if (day === record.date || !isAmong(day, days)) continue;
    found.push({ kind: 'unloaded', day, turn: UNLOADED, id: record.id, record });
  }
  return found;
}
