/** All ware while the events are gone through: its lots, which of them have finished pieces, and where costs went. */
import type { Days } from '../../among.ts';
import type { Book, Day, Grade, Lot } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { decimal } from '../../number/decimal.ts';
import { addUnder, type Money } from '../../number/money.ts';
import type { Spot } from '../../problem.ts';
import { materialOf, type Batch, type Cost, type Pieces } from '../costs/cost.ts';
import { isStanding, lotState, lotValue, type LotState, type LotValue } from './lot.ts';
import type { KeptLot } from '../months/lots.ts';
import type { Shortfall } from '../stock/stock.ts';

/** Where costs go when pieces leave the book. */
export type Account = 'sold' | 'lost' | 'given' | 'kept' | 'others' | 'differences';

/** What an event did to the cost of ware: put it on a lot, or took it to an account. */
export interface WareFact {
  readonly day: Day;
  readonly reason: 'made' | 'fired' | 'opened' | Account;
  /** Id of the record. */
  readonly by: string;
  /** Empty for what a firing of others or of nothing costs. */
  readonly lot: string;
  /** Negative for what comes back. */
  readonly count: number;
  readonly cost: Cost;
  /** Of what was opened: the stage of unfinished ware, the place of finished ware. */
  readonly at?: number | string;
}

/** The material in all facts so far, by their reason; of what was opened, by where it stood too. */
export interface WareSums {
  readonly byReason: Map<WareFact['reason'], Money>;
  readonly opened: Map<number | string, Money>;
}

/** Pieces taken from one lot. */
export interface TakenFrom extends Pieces {
  readonly lot: LotState;
  readonly grade: Grade;
}

/** Pieces of a lot that were sold; some may have come back. */
export interface SoldPieces extends Batch {
  readonly lot: LotState;
  /** What tells it from all others: its month, and how many were sold in it before. */
  readonly key: string;
}

/**
 * Finished pieces that were taken from a place by a line that names neither a lot nor a glaze, while
 * pieces of the product with different glazes were there and some were left.
 */
export interface OpenGlaze {
  readonly day: Day;
  readonly at: Spot;
  readonly product: string;
  /** Absent: of both. */
  readonly grade: Grade | undefined;
  readonly place: string;
  /** Glaze → how many the book took of it; 0 of a glaze that was there and was left alone. */
  readonly taken: ReadonlyMap<string, number>;
  /** The glazes that it may have been, until a stocktake or an empty shelf says how many are left. */
  readonly open: Set<string>;
}

/** Lots by id, in the order in which they were made; some may be had without the rest. */
export interface LotsThere extends ReadonlyMap<string, LotState> {
  /** Those of which pieces may be anywhere. */
  readonly standing?: () => Iterable<LotState>;
  /** Those of which something may have happened among the days. */
  readonly during?: (days: Days) => Iterable<LotState>;
}

/** The same, and lots can be put into it. */
export interface Lots extends LotsThere {
  readonly set: (id: string, state: LotState) => unknown;
  /** A lot as it was kept with an earlier month, as long as nobody has looked at it. */
  readonly asKept?: (id: string) => KeptLot | undefined;
}

/** Lots of which pieces may be anywhere: whoever asks still leaves out what is not meant. */
export function lotsStanding(lots: LotsThere): Iterable<LotState> {
  return lots.standing?.() ?? lots.values();
}

/** Lots of which something may have happened among the days: whoever asks leaves out what is not meant. */
export function lotsDuring(lots: LotsThere, days: Days): Iterable<LotState> {
  return lots.during?.(days) ?? lots.values();
}

/** Which finished pieces are meant. */
export interface Selection {
  readonly product: string;
  readonly lot?: string | undefined;
  /** Recipe that must be on the piece. */
  readonly glaze?: string | undefined;
  /** Absent: firsts, then seconds. */
  readonly grade?: Grade | undefined;
  readonly place: string;
}

/** All lots and where costs have gone, while the events are gone through. */
export interface Ware {
  readonly book: Book;
  /** Whether money is reckoned; without it there are no facts. */
  readonly isValued: boolean;
  readonly lots: Lots;
  /** Those that are no longer as they were at the beginning of the month. */
  readonly touched: Set<LotState>;
  /** Lots that stood anywhere at the beginning of the month → the material in them. */
  standing: ReadonlyMap<string, LotValue>;
  /** Those of which a good piece takes more or less work than it did then. */
  readonly worked: Set<LotState>;
  /** Product → grade and place → the lots that have any there, first finished first. */
  readonly ready: Map<string, Map<string, LotState[]>>;
  /** Product → the lot that was finished last. */
  readonly latest: Map<string, string>;
  /** Product → lots with finished pieces that are not listed above yet: nobody has asked for the product. */
  readonly unlisted: Map<string, readonly string[]>;
  /** Product → the good pieces of the load that came out last. */
  readonly lastLoad: Map<string, Pieces>;
  /** Product → what was sold of it since this run began, the last at the end. */
  readonly sold: Map<string, SoldPieces[]>;
  /** What was sold this month, in its order: of what product, and where the fact of it stands. */
  readonly soldNow: { readonly product: string; readonly fact: number }[];
  /** The same of earlier months, the last month first. */
  readonly soldEarlier: (product: string) => Iterable<readonly SoldPieces[]>;
  /** How much of what was sold has come back, by its key. */
  readonly returned: Map<string, Pieces>;
  readonly facts: WareFact[];
  readonly sums: WareSums;
  readonly shortfalls: Shortfall[];
  /** What was counted with a cost so far, by all that says which ware it is. */
  readonly opened: Set<string>;
  /** Product → the glazes of its lots so far. */
  readonly glazes: Map<string, Set<string>>;
  /** Lots that name no glaze, once any of them was finished. */
  readonly unglazed: Set<string>;
  readonly openGlazes: OpenGlaze[];
  /** Product, grade and place → those of them that may still be open. */
  readonly openAt: Map<string, OpenGlaze[]>;
}

/** No lots yet. */
export function emptyWare(book: Book, isValued: boolean): Ware {
  return {
    book,
    isValued,
    lots: new Map(),
    touched: new Set(),
    standing: new Map(),
    worked: new Set(),
    ready: new Map(),
    latest: new Map(),
    unlisted: new Map(),
    lastLoad: new Map(),
    sold: new Map(),
    soldNow: [],
    soldEarlier: () => [],
    returned: new Map(),
    facts: [],
    sums: { byReason: new Map(), opened: new Map() },
    shortfalls: [],
    opened: new Set(),
    glazes: new Map(),
    unglazed: new Set(),
    openGlazes: [],
    openAt: new Map(),
  };
}

/** Writes down what an event did to the cost of ware. */
export function noteWare(ware: Ware, fact: WareFact): void {
  if (!ware.isValued) return;
  const { reason, cost, at = '' } = fact;
  const material = materialOf(cost);
  addUnder(ware.sums.byReason, reason, material);
  if (reason === 'opened') addUnder(ware.sums.opened, at, material);
  ware.facts.push(fact);
}

/** Notes that a good piece of a lot takes more or less work than it did. */
export function noteWorked(ware: Ware, state: LotState): void {
  ware.touched.add(state);
  ware.worked.add(state);
}

/** Notes that more pieces were wanted than there are. */
export function noteShort(
  ware: Ware,
  { wanted, had, ...short }: Omit<Shortfall, 'wanted' | 'had'> & { wanted: number; had: number },
): void {
  ware.shortfalls.push({ ...short, wanted: decimal(wanted), had: decimal(had) });
}

/** A lot of greenware with the cost of its making; none of what was there when the book began. */
export function startLot(ware: Ware, lot: Lot, made: Pieces | undefined): LotState {
  const product = inForce(ware.book.products.get(lot.product), lot.date);
  const state = lotState(lot, product, made);
  ware.lots.set(lot.id, state);
  noteWorked(ware, state);
  const glazes = ware.glazes.get(lot.product) ?? new Set();
  ware.glazes.set(lot.product, glazes.add(state.glaze));
  return state;
}

/** Lots of which pieces are anywhere → the material in them, as they are now. */
export function standingNow({
  standing,
  touched,
}: Pick<Ware, 'standing' | 'touched'>): Map<string, LotValue> {
  const now = new Map(standing);
  for (const state of touched)
    if (isStanding(state)) now.set(state.lot.id, lotValue(state));
    else now.delete(state.lot.id);
  return now;
}

/** The list of a product's lots that have pieces of a grade at a place, first finished first; it can be changed. */
export function readyLots(ware: Ware, product: string, key: string): LotState[] {
  if (ware.unlisted.size > 0) listProduct(ware, product);
  const places = ware.ready.get(product) ?? new Map<string, LotState[]>();
  const ready = places.get(key) ?? [];
  if (ready.length === 0) {
    places.set(key, ready);
    ware.ready.set(product, places);
  }
  return ready;
}

/** Puts a lot into such a list. */
export function insertInOrder(ready: LotState[], state: LotState): void {
  const index = ready.findLastIndex((other) => comesBefore(other, state));
  ready.splice(index + 1, 0, state);
}

/** Whether a lot was finished before another; of one day by id. */
export function comesBefore(one: LotState, other: LotState): boolean {
  const [a = '', b = ''] = [one.finishedOn, other.finishedOn];
  return a === b ? one.lot.id < other.lot.id : a < b;
}

/** Makes the lists of a product's lots that have finished pieces, where nobody has asked for them yet. */
function listProduct(ware: Ware, product: string): void {
  const ids = ware.unlisted.get(product) ?? [];
  ware.unlisted.delete(product);
  for (const state of ids.flatMap((id) => ware.lots.get(id) ?? [])) listLot(ware, state);
}

function listLot(ware: Ware, state: LotState): void {
  for (const [key, count] of state.places)
    if (count !== 0) insertInOrder(readyLots(ware, state.lot.product, key), state);
}

/** Lots of a product that have pieces of a grade at a place, first finished first. */
export function readyAt(ware: Ware, product: string, key: string): readonly LotState[] {
  if (ware.unlisted.size > 0) listProduct(ware, product);
  return ware.ready.get(product)?.get(key) ?? [];
}

/** The lot that was finished first, first; of one day by id. */
export function byFinish(one: LotState, other: LotState): number {
  return comesBefore(one, other) ? -1 : 1;
}
