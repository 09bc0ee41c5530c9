/** The whole book run through once: stock first, then the ware that it went into. */
import type { Book, Day } from '../book.ts';
import { stockFlow, type StockFlow } from './stock-flow.ts';
import type { Shortfall } from './stock.ts';
import { TIMELINE_KINDS, timeline } from './timeline.ts';
import { wareFlow, type WareFlow } from './ware-flow.ts';

/** The two passes over a book up to one day. */
export interface Flows {
  readonly stock: StockFlow;
  readonly ware: WareFlow;
  /** Whatever was short on the way, of material or of pieces. */
  readonly shortfalls: readonly Shortfall[];
}

/** A book never changes, so what it comes to on a day is reckoned once for all that ask. */
const known = new WeakMap<Book, Map<Day, Flows>>();
const knownShortfalls = new WeakMap<Book, Map<Day, Flows>>();

/** Runs every event up to and with the day; never throws, whatever the book lacks. */
export function flow(book: Book, asOf: Day): Flows {
  return rememberedIn(known, { book, asOf, isValued: true });
}

/**
 * The same without any money, for those who ask only what was short: quantities, counts and days are
 * right, every value is zero. Takes the full flow where that was reckoned already.
 */
export function countsFlow(book: Book, asOf: Day): Flows {
  const full = known.get(book)?.get(asOf);
  return full ?? rememberedIn(knownShortfalls, { book, asOf, isValued: false });
}

/** Says that a book comes to the same counts as another one: what it has more of moves nothing. */
export function shareCounts(book: Book, other: Book): void {
  const days = knownShortfalls.get(other) ?? new Map<Day, Flows>();
  knownShortfalls.set(other, days);
  knownShortfalls.set(book, days);
}

interface Run {
  readonly book: Book;
  readonly asOf: Day;
  readonly isValued: boolean;
}

function rememberedIn(memory: WeakMap<Book, Map<Day, Flows>>, run: Run): Flows {
  const days = memory.get(run.book) ?? new Map<Day, Flows>();
  memory.set(run.book, days);
  const flows = days.get(run.asOf) ?? runThrough(run);
  days.set(run.asOf, flows);
  return flows;
}

function runThrough(run: Run): Flows {
  const happenings = timeline(run.book, run.asOf, TIMELINE_KINDS);
  const stock = stockFlow({ ...run, happenings });
  const ware = wareFlow(run.book, stock, happenings);
  return { stock, ware, shortfalls: [...stock.shortfalls, ...ware.shortfalls] };
}
