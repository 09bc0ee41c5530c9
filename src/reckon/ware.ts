/** Lots on their way: how many pieces stand at each stage and grade and place, and what they carry. */
import type { Book, Day, Firing, FiringKind, Grade, LoadLine, Lot, Product } from '../book.ts';
import type { Spot } from '../problem.ts';
import { decimal } from '../number/decimal.ts';
import { batchOf, costOfSlice, leftIn, type Batch, type Slice } from './batch.ts';
import { NO_COST, addCosts, costPortion, lessCosts, type Cost } from './cost.ts';
import { firingsOf } from './firing-draws.ts';
import { packingCost, type PackedSlice } from './packing.ts';
import type { Shortfall } from './stock.ts';

/** Pieces that stand together, and their cost together. */
export interface Pile {
  count: number;
  cost: Cost;
}

/** A load line that went into the kiln and has no outcome yet. */
export interface KilnPile extends Pile {
  readonly firing: string;
  readonly from: number;
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
  readonly product: Product | undefined;
  /** The kinds of firing that it goes through. */
  readonly fired: readonly FiringKind[];
  /** What its making cost. */
  readonly making: Cost;
  /** Greenware first, then what came out of each firing but the last. */
  readonly stages: readonly Pile[];
  /** Finished ware. */
  shelf: Batch;
  readonly inKiln: KilnPile[];
  /** Finished ware by grade and place; together as many as are left on the shelf. */
  readonly places: Map<string, number>;
  readonly steps: LotStep[];
  readonly passes: LotPass[];
  readonly lostOutside: LostOutside[];
  finishedOn: Day | undefined;
}

/** Where costs go when pieces leave the book. */
export type Account = 'sold' | 'lost' | 'given' | 'kept' | 'others' | 'differences';

/** A cost, or pieces whose cost is reckoned when it is asked for. */
export type AccountEntry = Cost | Slice | PackedSlice;

/** All lots and where costs have gone, while the events are gone through. */
export interface Ware {
  readonly book: Book;
  readonly lots: Map<string, LotState>;
  /** Product → grade and place → the lots that have any there, first finished first. */
  readonly ready: Map<string, Map<string, LotState[]>>;
  /** Product → the lot that was finished last. */
  readonly latest: Map<string, LotState>;
  readonly accounts: Record<Account, AccountEntry[]>;
  /** Lot → by line, the finished pieces that left without a sale. */
  readonly gone: Map<string, (readonly Slice[])[]>;
  readonly shortfalls: Shortfall[];
}

/** No lots yet. */
export function emptyWare(book: Book): Ware {
  const accounts = { sold: [], lost: [], given: [], kept: [], others: [], differences: [] };
  return {
    book,
    lots: new Map(),
    ready: new Map(),
    latest: new Map(),
    accounts,
    gone: new Map(),
    shortfalls: [],
  };
}

/** What an account has come to. */
export function accountCost(entries: readonly AccountEntry[]): Cost {
  return entries.map(entryCost).reduce(addCosts, NO_COST);
}

function entryCost(entry: AccountEntry): Cost {
  if ('batch' in entry) return costOfSlice(entry);
  return 'packed' in entry ? { packing: packingCost(entry) } : entry;
}

/** A lot of greenware with the cost of its making. */
export function startLot(ware: Ware, lot: Lot, cost: Cost): LotState {
  const product = ware.book.products.get(lot.product);
  const fired = firingsOf(product);
  const stages: Pile[] = fired.map(() => ({ count: 0, cost: NO_COST }));
  stages[0] = { count: lot.made, cost };
  const state: LotState = {
    lot,
    product,
    fired,
    making: cost,
    stages,
    shelf: batchOf(0, NO_COST),
    inKiln: [],
    places: new Map(),
    steps: [{ stage: 0, change: lot.made, words: 'made' }],
    passes: [],
    lostOutside: [],
    finishedOn: undefined,
  };
  ware.lots.set(lot.id, state);
  return state;
}

/** How many pieces stand at a stage; the one after the last firing is the shelf. */
export function countAt(state: LotState, stage: number): number {
  return stage === state.fired.length ? leftIn(state.shelf) : (state.stages[stage]?.count ?? 0);
}

/** The first stage at which pieces stand; undefined for none. */
export function firstStanding(state: LotState): number | undefined {
  const stages = [...state.stages.keys(), state.fired.length];
  return stages.find((stage) => countAt(state, stage) > 0);
}

/** Takes pieces off a pile with their share of its cost; at the most what is there. */
export function takePile(pile: Pile, wanted: number): Pile {
  const count = Math.min(wanted, pile.count);
  if (count <= 0) return { count: 0, cost: NO_COST };
  const cost = costPortion(pile.cost, count, pile.count);
  pile.count -= count;
  pile.cost = pile.count === 0 ? NO_COST : lessCosts(pile.cost, cost);
  return { count, cost };
}

/** Puts pieces with their cost on a pile. */
export function putOnPile(pile: Pile, added: Pile): void {
  pile.count += added.count;
  pile.cost = addCosts(pile.cost, added.cost);
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
export function piecesAt(state: LotState, place: string): number {
  return (
    (state.places.get(placeKey('first', place)) ?? 0) +
    (state.places.get(placeKey('second', place)) ?? 0)
  );
}

/** A shortage of pieces, as a value for the rules. */
export function pieceShortfall(
  kind: Shortfall['kind'],
  where: { day: Day; at: Spot; what: string },
  counts: { wanted: number; had: number; because: string },
): Shortfall {
  const { wanted, had, because } = counts;
  return { kind, ...where, wanted: decimal(wanted), had: decimal(had), because };
}

/** How the book comes to the count at a stage: `24 made − 1 lost 2026-02-22`. */
export function stepsInWords(state: LotState, stage: number): string {
  const steps = state.steps.filter((step) => step.stage === stage);
  if (steps.length === 0) return '0';
  const words = steps.map(({ change, words }, index) => {
    const sign = change < 0 ? '− ' : index === 0 ? '' : '+ ';
    return `${sign}${String(Math.abs(change))} ${words}`;
  });
  return words.join(' ');
}
