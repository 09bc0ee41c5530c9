/** Lots of ware: their piles by stage, the finished pile, and where its pieces stand (rules 10, 12). */
import type { Book, Day, Lot as LotRecord } from '../../src/book.ts';
import type { FiringKind, Grade } from '../../src/definitions.ts';
import { byCodeUnits } from './days.ts';
import { costOf, type Cost } from './costs.ts';
import { count as countOf } from './fraction.ts';
import { EMPTY, costLeft, join, leftIn, take, type Pile } from './pile.ts';
import type { Holding, LotResult } from './result.ts';
import { largestRemainder } from './shares.ts';
import { productOn } from './on-day.ts';

export interface Lot {
  readonly id: string;
  readonly product: string;
  /** Recipes on it; undefined where nobody says, for the book lacks its product. */
  readonly glazes: readonly string[] | undefined;
  /** Whether the book has its product, and so knows its firings. */
  readonly isKnown: boolean;
  readonly fired: readonly FiringKind[];
  readonly making: Cost;
  /** Unfinished pieces by how many firings they have had. */
  stages: Pile[];
  finished: Pile;
  /** Day of the first finish. */
  finishedOn: Day | undefined;
  readonly inKilns: { readonly firing: string; readonly count: number; readonly cost: Cost }[];
  /** Pieces of the finished pile by grade and place; the studio is the empty place. */
  readonly places: { readonly grade: Grade; readonly place: string; count: number }[];
}

/** Pieces of a lot that a sold line took, and how many of them came back since. */
export interface Taken {
  readonly lot: Lot;
  readonly product: string;
  readonly count: number;
  readonly cost: Cost;
  returned: number;
}

/** What went into a load of a product, and how many came out good. */
export interface ProductLoad {
  readonly good: number;
  readonly cost: Cost;
}

export const GRADES: readonly Grade[] = ['first', 'second'];

export function newLot(book: Book, record: LotRecord, making: Cost): Lot {
  const product = productOn(book, record.product, record.date);
  const uses = record.glazes ?? (product && (product.glazes ?? []));
  const glazes = uses?.map(({ recipe }) => recipe);
  const fired = product?.fired ?? (['bisque', 'glaze'] as const);
  const greenware = { count: record.made, cost: making, taken: 0 };
  const stages = fired.map((_, stage) => (stage === 0 ? greenware : EMPTY));
  return {
    ...{ id: record.id, product: record.product, glazes, fired, making, stages },
    ...{ isKnown: product !== undefined, finished: EMPTY, finishedOn: undefined },
    ...{ inKilns: [], places: [] },
  };
}

/** Ware without a lot: it was there before the book, or came back though it was never sold. */
export function loneWare(id: string, product: string, glaze: string | undefined): Lot {
  return {
    ...{ id, product, glazes: glaze === undefined ? [] : [glaze], fired: [], stages: [] },
    isKnown: true,
    ...{ making: costOf(() => 0n), finished: EMPTY, finishedOn: undefined },
    ...{ inKilns: [], places: [] },
  };
}

/** What a line names. */
export interface Named {
  readonly product: string;
  readonly lot?: string;
  readonly glaze?: string;
}

/** Whether a lot is one that the line may mean. */
export function isMeant(lot: Lot, { product, lot: id, glaze }: Named): boolean {
  if (id !== undefined) return lot.id === id;
  return lot.product === product && mayCarry(lot, glaze);
}

/** Whether a glaze may be on a lot. */
export function mayCarry({ glazes }: Lot, glaze: string | undefined): boolean {
  return glaze === undefined || (glazes?.includes(glaze) ?? true);
}

/** Finished lots by the day of the first finish, then id. */
export function inOrder(lots: Iterable<Lot>): Lot[] {
  return [...lots]
    .filter(({ finishedOn }) => finishedOn !== undefined)
    .sort((a, b) => byCodeUnits(a.finishedOn ?? '', b.finishedOn ?? '') || byCodeUnits(a.id, b.id));
}

/** How many of a grade stand in a place. */
export function standing({ places }: Lot, grade: Grade, place: string): number {
  return places.find((one) => one.grade === grade && one.place === place)?.count ?? 0;
}

/** So many more (or fewer) of a grade in a place; no money moves. */
export function shift(lot: Lot, at: { grade: Grade; place: string }, by: number): void {
  const known = lot.places.find(({ grade, place }) => grade === at.grade && place === at.place);
  if (known) known.count += by;
  else lot.places.push({ ...at, count: by });
}

/** Finished pieces leave a place and the pile. */
export function takeFinished(lot: Lot, at: { grade: Grade; place: string }, count: number): Cost {
  const { pile, cost } = take(lot.finished, count);
  lot.finished = pile;
  shift(lot, at, -count);
  return cost;
}

/** Pieces by grade, and what they cost together. */
export interface Good {
  readonly first: number;
  readonly second: number;
  readonly cost: Cost;
}

/** Finished pieces join the pile in a place. */
export function joinFinished(lot: Lot, at: { place: string; day: Day }, good: Good): void {
  const { first, second, cost } = good;
  lot.finished = join(lot.finished, first + second, cost);
  lot.finishedOn ??= at.day;
  if (first > 0) shift(lot, { grade: 'first', place: at.place }, first);
  if (second > 0) shift(lot, { grade: 'second', place: at.place }, second);
}

/** So many pieces of one grade. */
export function ofGrade(grade: Grade, count: number, cost: Cost): Good {
  return {
    first: grade === 'first' ? count : 0,
    second: grade === 'second' ? count : 0,
    cost,
  };
}

/** A lot as it stands. */
export function resultOf(lot: Lot): LotResult {
  const { product, making, inKilns } = lot;
  const stages = lot.stages.map(summaryOf);
  return {
    product,
    making,
    stages,
    inKilns,
    finished: summaryOf(lot.finished),
    holdings: held(lot),
  };
}

function summaryOf(pile: Pile): { count: number; cost: Cost } {
  return { count: leftIn(pile), cost: costLeft(pile) };
}

/** The finished pile's cost by count: the studio, then galleries by id, firsts before seconds. */
function held(lot: Lot): Holding[] {
  const there = lot.places.filter(({ count }) => count > 0);
  there.sort((a, b) => byCodeUnits(a.place, b.place) || byCodeUnits(a.grade, b.grade));
  const cost = costLeft(lot.finished);
  const weights = there.map(({ count }) => countOf(count));
  return there.map((one, at) => ({
    ...one,
    cost: costOf((part) => largestRemainder(cost[part], weights)[at] ?? 0n),
  }));
}
