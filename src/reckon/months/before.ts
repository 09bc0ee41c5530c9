/** What is known of a book's months from an earlier run: what happened in each, and how things stood at its end. */
import type { Days, Facts } from '../../among.ts';
import type { Book, Day } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { cached, lazyMap, cachedFor } from '../../once.ts';
import { addDays, endOfMonth, monthOf } from '../../number/date.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import { NO_PIECES } from '../costs/cost.ts';
import type { SoldSale } from '../sales/earned.ts';
import { lastMeetingOf } from '../sales/enrolment.ts';
import type { FiringCost } from '../kilns/firing-cost.ts';
import type { GlazedLot } from '../kilns/firing-draws.ts';
import { soldKey } from '../ware/selling.ts';
import type { Movement } from '../stock/stock.ts';
import type { Lots, SoldPieces, Ware, WareFact } from '../ware/ware.ts';
import type { LotState } from '../ware/lot.ts';
import type { KeptEnd } from './end.ts';
import { lotKept, type KeptLot } from './lots.ts';
import {
  type KeptFiring,
  type KeptMovements,
  type KeptSales,
  type KeptWare,
  firingsKept,
  movementsKept,
  salesKept,
  soldKept,
  wareKept,
} from './movements.ts';
import { sure } from './columns.ts';

/** What is known of a month without a look into it. */
export interface MonthHead {
  /** `2026-03` */
  readonly month: string;
  /** The last day on which something happened. */
  readonly last: Day;
  /** Lots that are no longer as they were, the new ones in the order in which they were made. */
  readonly lots: readonly string[];
  /** Lots of which more was glazed, or lost before it. */
  readonly glazed: readonly string[];
  readonly firings: readonly string[];
  /** The first and the last day of its sales and their payments, and what was taught; none without sales. */
  readonly sales:
    { readonly first: Day; readonly last: Day; readonly classes: readonly string[] } | undefined;
  /** Lots of which a good piece takes more or less work than before. */
  readonly worked: readonly string[];
}

/** A month as it is kept. */
export interface MonthParts {
  readonly movements: KeptMovements;
  readonly ware: KeptWare;
  readonly sales: KeptSales;
  readonly firings: readonly KeptFiring[];
  /** Minutes of work behind a good piece of those lots, as texts; none where they aren't known. */
  readonly minutes: ReadonlyMap<string, string | undefined>;
  readonly lots: readonly KeptLot[];
  readonly glazed: ReadonlyMap<string, GlazedLot>;
  /** All lots of which pieces are anywhere, of the month in which a run ended; none of others. */
  readonly standing: readonly KeptLot[];
  readonly end: KeptEnd;
}

/** The months that are known, without a gap from the first on. */
export interface KnownMonths {
  readonly heads: readonly MonthHead[];
  /** A part of a month: a copy that nobody else changes. */
  readonly read: <P extends keyof MonthParts>(month: string, part: P) => MonthParts[P];
  /** Keeps the month that comes next; what it is given is copied. */
  readonly keep: (head: MonthHead, parts: MonthParts) => void;
}

/** Months that are kept for as long as the program runs. */
export function monthsOfThisRun(): KnownMonths {
  const heads: MonthHead[] = [];
  const kept = new Map<string, MonthParts>();
  return {
    heads,
    read: (month, part) => structuredClone(sure(kept.get(month), month)[part]),
    keep: (head, parts) => {
      heads.push(head);
      kept.set(head.month, structuredClone(parts));
    },
  };
}

/** The months from which a run goes on, at the end of the last of them. */
export interface Before {
  readonly book: Book;
  readonly known: KnownMonths;
  readonly heads: readonly MonthHead[];
}

/** Those of which all happened by a day; undefined where there are none. */
export function monthsBefore(book: Book, known: KnownMonths, asOf: Day): Before | undefined {
  const heads = known.heads.filter(({ last }) => last <= asOf);
  return heads.length === 0 ? undefined : { book, known, heads };
}

/** The first day of the month after them. */
export function firstAfter({ heads }: Before): Day {
  return addDays(endOfMonth(sure(heads.at(-1)?.last, 'a month')), 1);
}

/** The lots as they stood at the end of those months, of which those had any pieces. */
export function lotsBefore(before: Before, standing: readonly string[]): Lots {
  const { heads } = before;
  const ids = heads.flatMap(({ lots }) => lots);
  const find = finder(before, {
    idsIn: ({ lots }) => lots,
    read: lotsIn(before.known),
  });
  const there = cached((month: string) => byId(before.known.read(month, 'standing')));
  const last = heads.at(-1)?.month ?? '';
  // What was looked at in this run may have been changed by it.
  const looked = new Set<string>();
  const kept = (id: string): KeptLot => sure(there(last).get(id) ?? find(id), id);
  const lots = lazyMap(ids, (id) => {
    looked.add(id);
    return lotKept(before.book, kept(id));
  });
  const earlier = new Set(ids);
  function* some(wanted: ReadonlySet<string>): Generator<LotState> {
    for (const id of lots.keys())
      if (wanted.has(id) || looked.has(id) || !earlier.has(id)) yield sure(lots.get(id), id);
  }
  return Object.assign(lots, {
    asKept: (id: string) => (earlier.has(id) && !looked.has(id) ? kept(id) : undefined),
    standing: () => some(new Set(standing)),
    during: ({ from = '', to = LAST }: Days) => {
      const months = heads.filter(({ month }) => month >= monthOf(from) && month <= monthOf(to));
      return some(new Set(months.flatMap((head) => head.lots)));
    },
  });
}

/** They are only looked at, so the runs to several days of one book read those of a month once. */
const lotsIn = cachedFor((known: KnownMonths) =>
  cached((month: string) => byId(known.read(month, 'lots'))),
);

function byId(lots: readonly KeptLot[]): ReadonlyMap<string, KeptLot> {
  return new Map(lots.map((lot) => [lot.id, lot]));
}

/** Minutes of work behind a good piece of a lot by then; undefined where they aren't known. */
function minutesBefore(before: Before): (lot: string) => Decimal | undefined {
  const find = finder(before, {
    idsIn: ({ worked }) => worked,
    read: (month) => before.known.read(month, 'minutes'),
  });
  return (lot) => {
    const text = find(lot);
    return text === undefined ? undefined : decimal(text);
  };
}

/** How much of a lot was glazed by then. */
export function glazedBefore(before: Before): (lot: string) => GlazedLot | undefined {
  return finder(before, {
    idsIn: ({ glazed }) => glazed,
    read: (month) => before.known.read(month, 'glazed'),
  });
}

/** Where to look for something that was kept in the last month in which it changed. */
interface Where<T> {
  readonly idsIn: (head: MonthHead) => readonly string[];
  readonly read: (month: string) => ReadonlyMap<string, T>;
}

function finder<T>({ heads }: Before, { idsIn, read }: Where<T>): (id: string) => T | undefined {
  const months = new Map<string, string>();
  for (const head of heads) for (const id of idsIn(head)) months.set(id, head.month);
  const known = cached(read);
  return (id) => {
    const month = months.get(id);
    return month === undefined ? undefined : known(month).get(id);
  };
}

/** What happened in those months. */
export interface FactsBefore {
  readonly movements: Required<Facts<Movement>>;
  readonly ware: Required<Facts<WareFact>>;
  readonly sales: Required<Facts<SoldSale>>;
  readonly firings: FiringsBefore;
  readonly minutes: (lot: string) => Decimal | undefined;
}

/** What firings cost, by their ids. */
interface FiringsBefore {
  readonly ids: readonly string[];
  readonly get: (id: string) => FiringCost | undefined;
  readonly costs: Required<Facts<FiringCost>>;
}

/** What happened in those months. */
export function factsBefore(before: Before): FactsBefore {
  const { book, known } = before;
  const read = <T>(unpack: (month: string) => readonly T[]): Required<Facts<T>> =>
    byMonth(before, cached(unpack));
  return {
    movements: read((month) => movementsKept(known.read(month, 'movements'))),
    ware: read((month) => wareKept(known.read(month, 'ware'))),
    sales: salesBefore(before),
    minutes: minutesBefore(before),
    firings: firingsBefore(
      before,
      cached((month) => firingsKept(known.read(month, 'firings'), book)),
    ),
  };
}

/** Among some days are the sales of the months of which any counts then; classes count when they meet. */
function salesBefore({ book, heads, known }: Before): Required<Facts<SoldSale>> {
  const salesOf = cached((month: string) => salesKept(known.read(month, 'sales')));
  const lastMeeting = cached((id: string) => lastMeetingOf(book.classes.get(id)));
  function* during({ from = '', to = LAST }: Days): Generator<SoldSale> {
    for (const { month, sales } of heads) {
      if (!sales || sales.first > to) continue;
      if (sales.last >= from || sales.classes.some((id) => lastMeeting(id) >= from))
        yield* salesOf(month);
    }
  }
  return { during, [Symbol.iterator]: () => during({}) };
}

function byMonth<T>(
  { heads }: Before,
  factsOf: (month: string) => Iterable<T>,
): Required<Facts<T>> {
  function* during({ from = '', to = LAST }: Days): Generator<T> {
    for (const { month } of heads)
      if (month >= monthOf(from) && month <= monthOf(to)) yield* factsOf(month);
  }
  return { during, [Symbol.iterator]: () => during({}) };
}

/** After every day that a book can hold. */
const LAST = '9999-12-31';

function firingsBefore(
  before: Before,
  costsOf: (month: string) => ReadonlyMap<string, FiringCost>,
): FiringsBefore {
  const months = new Map(
    before.heads.flatMap(({ month, firings }) => firings.map((id) => [id, month] as const)),
  );
  return {
    ids: [...months.keys()],
    get: (id) => {
      const month = months.get(id);
      return month === undefined ? undefined : costsOf(month).get(id);
    },
    costs: byMonth(before, (month) => costsOf(month).values()),
  };
}

/** What was sold in those months, so that it can come back; the lots are those of the run that goes on. */
export function soldBefore(
  { heads, known }: Before,
  ware: Pick<Ware, 'lots' | 'returned'>,
): Ware['soldEarlier'] {
  const read = cached((month: string) => soldIn(month, known.read(month, 'ware'), ware));
  return function* (product) {
    for (const { month } of heads.toReversed()) {
      const sold = read(month).get(product);
      if (sold) yield sold;
    }
  };
}

function soldIn(
  month: string,
  kept: KeptWare,
  { lots, returned }: Pick<Ware, 'lots' | 'returned'>,
): ReadonlyMap<string, readonly SoldPieces[]> {
  const sold = soldKept(kept).map(({ product, fact: { lot, count, cost } }, at) => {
    const key = soldKey(month, at);
    const pieces = {
      get lot() {
        return sure(lots.get(lot), lot);
      },
      count,
      cost,
      gone: returned.get(key) ?? NO_PIECES,
      key,
    };
    return { product, pieces };
  });
  const groups = grouped(sold, ({ product }) => product);
  return new Map([...groups].map(([product, all]) => [product, all.map(({ pieces }) => pieces)]));
}
