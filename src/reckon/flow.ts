/** The whole book run through once: stock, and the ware that it went into. */
import type { Book, Day, Firing, Lot, Sale } from '../book.ts';
import { filedDays } from './filed-days.ts';
import { firingCost, type FiringCost } from './firing-cost.ts';
import { drawFiring, type GlazedLots } from './firing-draws.ts';
import { consign } from './galleries.ts';
import { unloadKiln } from './kiln-load.ts';
import { leaveLot, loseFromLot, makeLot } from './lot-making.ts';
import { lotHappenings, type LotHappening } from './lot-happenings.ts';
import { openMaterials, openWare, nameLot } from './open-book.ts';
import { isBeforeStart, openings, wasThere, type Opening } from './opening.ts';
import { unloadings, type Unloading } from './out-of-kiln.ts';
import { drawPacking } from './packing.ts';
import { countPieces } from './selling.ts';
import {
  countMaterials,
  drawClay,
  drawUsed,
  mix,
  receiveBought,
  receiveReclaimed,
  type StockFlow,
} from './stock-flow.ts';
import { openStore, type Shortfall, type Store } from './stock.ts';
import { TIMELINE_KINDS, byTurn, happeningsOf, type Happening } from './timeline.ts';
import { fire, sell, type SoldSale, type WareFlow } from './ware-flow.ts';
import { emptyWare, type Ware } from './ware.ts';
import { noteValue } from './where.ts';

/** What a book comes to on one day. */
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

/** What is kept while the events are gone through. */
interface Pass {
  readonly store: Store;
  readonly glazed: GlazedLots;
  readonly ware: Ware;
  readonly firings: Map<string, FiringCost>;
  readonly sales: SoldSale[];
}

function runThrough({ book, asOf, isValued }: Run): Flows {
  const pass: Pass = {
    store: openStore(book, isValued),
    glazed: new Map(),
    ware: emptyWare(book, isValued),
    firings: new Map(),
    sales: [],
  };
  const stops = isValued ? filedDays(book, asOf).filter((day) => day < asOf) : [];
  let next = 0;
  for (const happening of allHappenings(book, asOf)) {
    for (; (stops[next] ?? LAST) < happening.day; next++) noteStop(pass, stops[next] ?? '');
    reckonHappening(pass, happening);
  }
  for (const day of stops.slice(next)) noteStop(pass, day);
  return flowsOf(pass, asOf);
}

/** After every day that a book can hold. */
const LAST = '9';

/** A filed period is looked at again and again: what it needs is taken along. */
function noteStop(pass: Pass, day: Day): void {
  noteValue(pass.store.book, day, flowsOf(pass, day));
}

function flowsOf({ store, ware, firings, sales }: Pass, asOf: Day): Flows {
  const { isValued, pools, movements, sums, shortfalls } = store;
  const { lots, facts, gone, openGlazes, shortfalls: tooFew } = ware;
  return {
    stock: { asOf, isValued, pools, movements, sums, shortfalls },
    ware: {
      asOf,
      lots,
      firings,
      sales,
      facts,
      sums: ware.sums,
      gone,
      openGlazes,
      shortfalls: tooFew,
    },
    shortfalls: [...shortfalls, ...tooFew],
  };
}

type Told = Happening | LotHappening | Opening | Unloading;

/** In their order; before the book begins lots are only named. */
function allHappenings(book: Book, asOf: Day): Told[] {
  const all: Told[] = [
    ...happeningsOf(book, asOf, TIMELINE_KINDS),
    ...lotHappenings(book, asOf),
    ...openings(book, asOf),
    ...unloadings(book, asOf),
  ];
  const told =
    book.studio.starts === undefined
      ? all
      : all.filter(({ kind, day }) => kind === 'pieces' || !isBeforeStart(book, day));
  return told.sort(byTurn);
}

function reckonHappening(pass: Pass, happening: Told): void {
  const { store, ware } = pass;
  switch (happening.kind) {
    case 'bought':
      receiveBought(store, happening.record);
      return;
    case 'reclaimed':
      receiveReclaimed(store, happening.record);
      return;
    case 'mixed':
      mix(store, happening.record);
      return;
    case 'opening':
      openMaterials(store, happening.record);
      openWare(ware, happening.record);
      return;
    case 'pieces':
      reckonLot(pass, happening.record);
      return;
    case 'unloaded':
      unloadKiln(ware, happening.record);
      return;
    case 'lost':
      loseFromLot(ware, happening.record, happening.index);
      return;
    case 'firings':
      reckonFiring(pass, happening.record);
      return;
    case 'used':
      drawUsed(store, happening.record);
      return;
    case 'gone':
      leaveLot(ware, happening.record, happening.index);
      return;
    case 'consigned':
      consign(ware, happening.record);
      return;
    case 'sales':
      reckonSale(pass, happening.record);
      return;
    case 'counted':
      countMaterials(store, happening.record);
      countPieces(ware, happening.record);
      return;
  }
}

function reckonLot({ store, ware }: Pass, lot: Lot): void {
  if (wasThere(ware.book, lot)) nameLot(ware, lot);
  else makeLot(ware, lot, drawClay(store, lot));
}

function reckonFiring({ store, glazed, ware, firings }: Pass, firing: Firing): void {
  const drawn = drawFiring(store, firing, glazed);
  const cost = store.isValued ? firingCost(store.book, drawn, firing) : undefined;
  if (cost) firings.set(firing.id, cost);
  fire(ware, firing, { glaze: drawn.glaze, cost });
}

/** Without money nobody asks what a line had cost. */
function reckonSale({ store, ware, sales }: Pass, sale: Sale): void {
  const lines = sell(ware, sale, drawPacking(store, sale));
  if (store.isValued) sales.push({ id: sale.id, lines });
}
