/** The whole book run through once: stock, and the ware that it went into. */
import type { Book, Day, Firing, Lot, Sale } from '../book.ts';
import { soldSale } from './sales/earned.ts';
import { firingCost } from './kilns/firing-cost.ts';
import { drawFiring } from './kilns/firing-draws.ts';
import { consign } from './ware/galleries.ts';
import { allHappenings, type AnyHappening } from './happenings.ts';
import { fire, unloadKiln } from './kilns/kiln-load.ts';
import { leaveLot, loseFromLot, makeLot } from './ware/lot-making.ts';
import { endOfMonth } from '../number/date.ts';
import { firstAfter, monthsBefore, monthsOfThisRun, type KnownMonths } from './months/before.ts';
import { closeLast, noteDay } from './months/close.ts';
import { openMaterials, openWare, nameLot } from './stock/open-book.ts';
import { isBeforeStart, wasThere } from './stock/opening.ts';
import { noteInKiln, noteOwed, noteTax } from './open.ts';
import type { Flows } from './flows.ts';
import { flowsOf, newPass, passAfter, type Pass } from './pass.ts';
import { countPieces, sell } from './ware/selling.ts';
import {
  countMaterials,
  drawClay,
  drawPacking,
  drawUsed,
  mix,
  receiveBought,
  receiveReclaimed,
} from './stock/stock-flow.ts';
import { cachedFor } from '../once.ts';

/** A book never changes, so what it comes to on a day is reckoned once for all that ask. */
const knownFlows = cachedFor<Book, Map<Day, Flows>>(() => new Map());
const knownCounts = cachedFor<Book, Map<Day, Flows>>(() => new Map());

/** Runs every event up to and with the day; never throws, whatever the book lacks. */
export function flow(book: Book, asOf: Day): Flows {
  return rememberedIn(knownFlows(book), { book, asOf, isValued: true });
}

/**
 * The same without any money, for those who ask only what was short: quantities, counts and days are
 * right, every value is zero. Takes the full flow where that was reckoned already.
 */
export function countsFlow(book: Book, asOf: Day): Flows {
  const isKnown = knownFlows(book).has(asOf) || months.get(book)?.heads.length;
  return isKnown
    ? flow(book, asOf)
    : rememberedIn(knownCounts(book), { book, asOf, isValued: false });
}

/** Months of a book that are known from before, or are to be. */
const months = new WeakMap<Book, KnownMonths>();

/** Lets a book's flows go on from months that are known; those that are reckoned are kept there. */
export function goOnFrom(book: Book, known: KnownMonths): void {
  months.set(book, known);
}

/** Where a second day is asked for, the months are kept from then on. */
function monthsFor({ book, isValued }: FlowAsked, isAgain: boolean): KnownMonths | undefined {
  if (!isValued) return undefined;
  const known = months.get(book) ?? (isAgain ? monthsOfThisRun() : undefined);
  if (known) months.set(book, known);
  return known;
}

interface FlowAsked {
  readonly book: Book;
  readonly asOf: Day;
  readonly isValued: boolean;
}

function rememberedIn(days: Map<Day, Flows>, run: FlowAsked): Flows {
  const flows = days.get(run.asOf) ?? runThrough(run, monthsFor(run, days.size > 0));
  days.set(run.asOf, flows);
  return flows;
}

/**
 * Goes on from the last month that is known to be over, and keeps those that are over now. Of the last
 * month all is kept only where nothing in it is later than the day.
 */
function runThrough({ book, asOf, isValued }: FlowAsked, known: KnownMonths | undefined): Flows {
  const before = known && monthsBefore(book, known, asOf);
  const pass = before ? passAfter(before) : newPass(book, isValued);
  const from = before && firstAfter(before);
  for (const happening of allHappenings(book, { from, to: known ? endOfMonth(asOf) : asOf })) {
    if (happening.day > asOf) return flowsOf(pass, asOf);
    if (known) noteDay(pass, known, { day: happening.day, asOf });
    reckonHappening(pass, happening);
  }
  if (known) closeLast(pass, known);
  return flowsOf(pass, asOf);
}

function reckonHappening(pass: Pass, happening: AnyHappening): void {
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
      noteInKiln(pass.open, happening.record, happening.day);
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

function reckonFiring({ store, glazed, ware, firings, open }: Pass, firing: Firing): void {
  noteInKiln(open, firing, firing.date);
  if (isBeforeStart(store.book, firing.date)) return;
  const drawn = drawFiring(store, firing, glazed);
  const cost = store.isValued ? firingCost(store.book, drawn, firing) : undefined;
  if (cost) firings.push(cost);
  fire(ware, firing, { glaze: drawn.glaze, cost });
}

/** Before the book starts a sale takes nothing; without money nobody asks what it earned. */
function reckonSale({ store, ware, sales, taxes, open }: Pass, sale: Sale): void {
  const { book, isValued } = store;
  const sold = isBeforeStart(book, sale.date) ? [] : sell(ware, sale, drawPacking(store, sale));
  if (!isValued) return;
  const earned = soldSale(book, sale, sold);
  noteTax(taxes, earned);
  noteOwed(open, earned);
  sales.push(earned);
}
