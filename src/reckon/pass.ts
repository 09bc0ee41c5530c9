/** A run through the events of a book: what it has come to so far, and how it goes on after months that are known. */
import type { Days, Facts } from '../among.ts';
import type { Book, Day } from '../book.ts';
import type { FiringCost } from './kilns/firing-cost.ts';
import type { GlazedLot, GlazedLots } from './kilns/firing-draws.ts';
import { minutesOfGood } from './costs/lot-steps.ts';
import { cached, lazyMap, madeOnce } from '../once.ts';
import {
  factsBefore,
  glazedBefore,
  lotsBefore,
  soldBefore,
  type Before,
  type FactsBefore,
} from './months/before.ts';
import { sure } from './months/columns.ts';
import { putStockBack, putWareBack, type Ledgers } from './months/end.ts';
import { openStore } from './stock/stock.ts';
import type { SoldSale } from './sales/earned.ts';
import { noTaxes, nothingOpen } from './open.ts';
import { type Ware, emptyWare, standingNow } from './ware/ware.ts';
import type { LotState } from './ware/lot.ts';
import type { Flows, WareFlow } from './flows.ts';

/** What is kept while the events are gone through. */
export interface Pass extends Ledgers {
  readonly glazed: GlazedLots;
  readonly firings: FiringCost[];
  readonly sales: SoldSale[];
  /** What happened before this run. */
  readonly before: FactsBefore | undefined;
  readonly now: MonthNow;
}

/** The month that the run is in. */
interface MonthNow {
  /** Empty before the first event. */
  month: string;
  last: Day;
  /** How many there were of each when it began. */
  movements: number;
  facts: number;
  sales: number;
  firings: number;
  /** Lots by id of which a good piece took more or less work in the months of this run before it. */
  readonly worked: Map<string, LotState>;
  /** What became of the glazing of lots in it. */
  glazed: Map<string, GlazedLot>;
}

/** A run from the first event on. */
export function newPass(book: Book, isValued: boolean): Pass {
  const [store, ware] = [openStore(book, isValued), emptyWare(book, isValued)];
  return passWith({ store, ware, taxes: noTaxes(), open: nothingOpen() });
}

/** A run that goes on at the end of months that are known. */
export function passAfter(before: Before): Pass {
  const { book, known, heads } = before;
  const end = known.read(heads.at(-1)?.month ?? '', 'end');
  const store = openStore(book, true);
  putStockBack(store, end);
  const ware: Ware = {
    ...emptyWare(book, true),
    lots: lotsBefore(before, [...end.standing.keys()]),
    standing: end.standing,
    soldEarlier: (product) => sold(product),
  };
  const sold = soldBefore(before, ware);
  putWareBack(ware, end);
  return passWith({ store, ware, taxes: end.taxes, open: end.open }, before);
}

function passWith(ledgers: Ledgers, earlier?: Before): Pass {
  const counts = { movements: 0, facts: 0, sales: 0, firings: 0 };
  const now = { month: '', last: '', ...counts, worked: new Map(), glazed: new Map() };
  const before = earlier && factsBefore(earlier);
  const glazed = glazedLots(now, earlier && glazedBefore(earlier));
  return { ...ledgers, before, glazed, firings: [], sales: [], now };
}

function glazedLots(now: MonthNow, then: GlazedLots['get'] = () => undefined): GlazedLots {
  const since = new Map<string, GlazedLot>();
  return {
    get: (lot) => since.get(lot) ?? then(lot),
    set: (lot, glazed) => {
      since.set(lot, glazed);
      now.glazed.set(lot, glazed);
    },
  };
}

/** What the run has come to by a day. */
export function flowsOf(pass: Pass, asOf: Day): Flows {
  const { store, ware, firings, sales, taxes, open, before } = pass;
  const { isValued, pools, movements, sums, shortfalls } = store;
  const { lots, glazes, unglazed, facts, openGlazes, shortfalls: tooFew } = ware;
  return {
    stock: {
      asOf,
      isValued,
      pools,
      movements: bothFacts(before?.movements, movements),
      sums,
      shortfalls,
    },
    ware: {
      asOf,
      lots,
      standing: madeOnce(() => standingNow(ware)),
      minutesOf: minutesIn(pass),
      glazes,
      unglazed,
      firings: bothFirings(before?.firings, firings),
      sales: bothFacts(before?.sales, sales),
      facts: bothFacts(before?.ware, facts),
      sums: ware.sums,
      openGlazes,
      shortfalls: tooFew,
    },
    taxes,
    open,
    shortfalls: [...shortfalls, ...tooFew],
  };
}

/** The minutes of each lot are asked for again and again, by every line that has any of it. */
function minutesIn({ store: { book }, ware, before, now }: Pass): WareFlow['minutesOf'] {
  const worked = new Map(now.worked);
  for (const state of ware.worked) worked.set(state.lot.id, state);
  return cached((lot) => {
    const state = worked.get(lot);
    return state ? minutesOfGood(book, state) : before?.minutes(lot);
  });
}

function bothFacts<T>(before: Required<Facts<T>> | undefined, now: readonly T[]): Facts<T> {
  if (!before) return now;
  const during = duringBoth(before, now);
  return { during, [Symbol.iterator]: () => during({})[Symbol.iterator]() };
}

function duringBoth<T>(before: Required<Facts<T>>, now: readonly T[]): (days: Days) => Iterable<T> {
  return function* (days) {
    yield* before.during(days);
    yield* now;
  };
}

function bothFirings(
  before: FactsBefore['firings'] | undefined,
  now: readonly FiringCost[],
): WareFlow['firings'] {
  const since = new Map(now.map((cost) => [cost.firing.id, cost]));
  if (!before) return since;
  const find = (id: string): FiringCost => sure(since.get(id) ?? before.get(id), id);
  return Object.assign(lazyMap([...before.ids, ...since.keys()], find), {
    during: duringBoth(before.costs, now),
  });
}
