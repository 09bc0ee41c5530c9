/** The whole book run through once: stock first, then the ware that it went into. */
import type { Book, Day } from '../book.ts';
import { stockFlow, type StockFlow } from './stock-flow.ts';
import type { Shortfall } from './stock.ts';
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

/** Runs every event up to and with the day; never throws, whatever the book lacks. */
export function flow(book: Book, asOf: Day): Flows {
  const days = known.get(book) ?? new Map<Day, Flows>();
  known.set(book, days);
  const flows = days.get(asOf) ?? runThrough(book, asOf);
  days.set(asOf, flows);
  return flows;
}

function runThrough(book: Book, asOf: Day): Flows {
  const stock = stockFlow(book, asOf);
  const ware = wareFlow(book, stock);
  return { stock, ware, shortfalls: [...stock.shortfalls, ...ware.shortfalls] };
}
