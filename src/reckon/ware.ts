/** Lots on their way: how many pieces stand at each stage and grade and place, and what they carry. */
import type { Book, Day, Firing, FiringKind, Grade, LoadLine, Lot, Product } from '../book.ts';
import { inForce } from '../in-force.ts';
import type { Spot } from '../problem.ts';
import { addUnder, type Money } from '../number/money.ts';
import { batchOf, leftIn, type Batch, type Pieces } from './batch.ts';
import { NO_COST, materialOf, type Cost } from './cost.ts';
import { firingsOf } from './firing-draws.ts';
import type { LotValue } from './lot-value.ts';
import type { Lots } from './lots.ts';
import type { Shortfall } from './stock.ts';

/** A load line that went into the kiln and is not out of it yet. */
export interface KilnPile extends Pieces {
  readonly firing: string;
  readonly line: LoadLine;
  /** Stages before and behind, and what was added, as in `LotPass`. */
  readonly from: number;
  readonly to: number;
  readonly added: Cost;
}

/** One step in a lot's history, to say how the book comes to a count. */
export interface LotStep {
  readonly stage: number;
  readonly change: number;
  readonly words: string;
}

/** One load line of a lot that has come out: what went through which stages, and what was added there. */
export interface LotPass {
  readonly firing: Firing;
  readonly line: LoadLine;
  /** Stages before and behind; the same for a refire and a test, which leave the pieces where they were. */
  readonly from: number;
  readonly to: number;
  /** The line's share of the firing, and its glaze. */
  readonly added: Cost;
}

/** Pieces lost outside firings, at the stage where they stood. */
export interface LostOutside {
  readonly day: Day;
  readonly stage: number;
  readonly count: number;
}

/** The studio itself as a place for finished ware; galleries are named by their channel's id. */
export const STUDIO_PLACE = '';

/** One lot as it stands. */
export interface LotState {
  readonly lot: Lot;
  /** As it was on the day that the lot was made. */
  readonly product: Product | undefined;
  /** The recipes that are on it, the lot's or else its product's: `sea-green + rust`; empty for none. */
  readonly glaze: string;
  /** The kinds of firing that it goes through. */
  readonly fired: readonly FiringKind[];
  /** Whether it was there when the book began: what its making took is not known. */
  readonly wasThere: boolean;
  /** What its making cost. */
  readonly making: Cost;
  /** Greenware first, then what came out of each firing but the last. */
  readonly stages: Batch[];
  /** Finished ware. */
  shelf: Batch;
  readonly inKiln: KilnPile[];
  /** Finished ware by grade and place; together as many as are left on the shelf. */
  readonly places: Map<string, number>;
  readonly steps: LotStep[];
  readonly passes: LotPass[];
  readonly lostOutside: LostOutside[];
  /** By its lines of what is gone, the cost of the finished pieces that left without a sale. */
  readonly gone: (Cost | undefined)[];
  finishedOn: Day | undefined;
}

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

/** A lot as it begins. */
export function lotState(lot: Lot, product: Product | undefined, made?: Pieces): LotState {
  const fired = firingsOf(product);
  const stages = fired.map(() => batchOf(0, NO_COST));
  if (made) stages[0] = batchOf(made.count, made.cost);
  const uses = lot.glazes ?? product?.glazes ?? [];
  return {
    lot,
    product,
    glaze: [...new Set(uses.map(({ recipe }) => recipe))].join(' + '),
    fired,
    wasThere: made === undefined,
    making: made?.cost ?? NO_COST,
    stages,
    shelf: batchOf(0, NO_COST),
    inKiln: [],
    places: new Map(),
    steps: made ? [{ stage: 0, change: made.count, words: 'made' }] : [],
    passes: [],
    lostOutside: [],
    gone: [],
    finishedOn: undefined,
  };
}

/** How many pieces stand at a stage; the one after the last firing is the shelf. */
export function countAt(state: LotState, stage: number): number {
  const batch = stage === state.fired.length ? state.shelf : state.stages[stage];
  return batch ? leftIn(batch) : 0;
}

/** The first stage at which pieces stand; undefined for none. */
export function firstStanding(state: LotState): number | undefined {
  const stages = [...state.stages.keys(), state.fired.length];
  return stages.find((stage) => countAt(state, stage) > 0);
}

/** Name of a stage: greenware, what the last firing made of it (bisqueware …), or finished ware. */
export function stageName(fired: readonly FiringKind[], stage: number): string {
  if (stage === 0) return 'greenware';
  if (stage >= fired.length) return 'finished ware';
  const kind = fired[stage - 1] ?? '';
  return kind === 'bisque' ? 'bisqueware' : `${kind}-fired ware`;
}

// Most ware stands in the studio, and is looked for there again and again.
const STUDIO_KEYS: Readonly<Record<Grade, string>> = { first: 'first ', second: 'second ' };

/** Key of finished ware of one grade at one place. */
export function placeKey(grade: Grade, place: string): string {
  return place === STUDIO_PLACE ? STUDIO_KEYS[grade] : `${grade} ${place}`;
}

/** Finished pieces of a lot, of both grades, that stand at one place. */
export function piecesAt({ places }: LotState, place: string): number {
  const there = (grade: Grade): number => places.get(placeKey(grade, place)) ?? 0;
  return there('first') + there('second');
}
