/** Finished ware: graded, sent to places and back, and taken first finished, first gone. */
import type { Day, Grade, Lot } from '../book.ts';
import { batchOf, costLike, costOfSlice, restOf, takeSlice, type Slice } from './batch.ts';
import { NO_COST, addCosts, type Cost } from './cost.ts';
import { STUDIO_PLACE, placeKey, startLot, type LotState, type Ware } from './ware.ts';

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

/** Pieces taken from one lot. */
export interface TakenFrom {
  readonly lot: LotState;
  readonly grade: Grade;
  readonly slice: Slice;
}

/** Pieces taken, at the most as many as wanted. */
export interface Taken {
  readonly count: number;
  readonly from: readonly TakenFrom[];
}

const GRADES: readonly Grade[] = ['first', 'second'];

/** Puts good pieces of a lot on the shelf, with the cost that they carry. */
export function finish(
  ware: Ware,
  state: LotState,
  good: { day: Day; first: number; second: number; cost: Cost },
): void {
  putOnShelf(state, good.first + good.second, good.cost);
  noteFinished(ware, state, good.day);
  addPlaced(ware, state, { grade: 'first', place: STUDIO_PLACE, change: good.first });
  addPlaced(ware, state, { grade: 'second', place: STUDIO_PLACE, change: good.second });
}

/** Takes finished pieces: firsts before seconds, and of each the first finished lot first. */
export function takeFinished(ware: Ware, selection: Selection, wanted: number): Taken {
  const taking: Taking = { ware, selection, from: [], left: wanted };
  for (const grade of gradesOf(selection)) {
    goThrough(ware, { selection, grade }, (state) => takeFromLot(taking, state, grade));
  }
  return { count: wanted - taking.left, from: taking.from };
}

/** How many finished pieces the book has of what is meant. */
export function countFinished(ware: Ware, selection: Selection): number {
  let count = 0;
  for (const grade of gradesOf(selection)) {
    const key = placeKey(grade, selection.place);
    goThrough(ware, { selection, grade }, (state) => {
      count += state.places.get(key) ?? 0;
      return true;
    });
  }
  return count;
}

/** Moves finished pieces to another place; returns how many there were to move. */
export function moveFinished(
  ware: Ware,
  selection: Selection & { to: string },
  wanted: number,
): number {
  let left = wanted;
  for (const grade of gradesOf(selection)) {
    const { place, to } = selection;
    goThrough(ware, { selection, grade }, (state) => {
      const count = Math.min(left, state.places.get(placeKey(grade, place)) ?? 0);
      addPlaced(ware, state, { grade, place, change: -count });
      addPlaced(ware, state, { grade, place: to, change: count });
      left -= count;
      return left > 0;
    });
  }
  return wanted - left;
}

/**
 * Puts pieces back on the shelf at the cost of one piece of the lot: what a buyer returned, or what a
 * stocktake found. Without a lot that fits, a lot without cost is opened under the record's id.
 */
export function putBack(
  ware: Ware,
  selection: Selection,
  back: { day: Day; count: number; record: Lot },
): Cost {
  const { grade = 'first', place } = selection;
  const state = lotToPutBack(ware, selection, grade) ?? startLot(ware, back.record, NO_COST);
  const cost = costLike(state.shelf, back.count);
  putOnShelf(state, back.count, cost);
  noteFinished(ware, state, back.day);
  addPlaced(ware, state, { grade, place, change: back.count });
  return cost;
}

/** Takes pieces off the studio's shelf for a refire; seconds first, since those are what is fired again. */
export function takeForRefire(ware: Ware, state: LotState, wanted: number): Cost {
  let left = wanted;
  let cost = NO_COST;
  for (const grade of ['second', 'first'] as const) {
    const slice = takeGrade(ware, state, { grade, place: STUDIO_PLACE, wanted: left });
    cost = addCosts(cost, costOfSlice(slice));
    left -= slice.count;
  }
  return cost;
}

/** Cost of so many finished pieces of the lot that was finished last; none when there is no lot. */
export function latestCost(ware: Ware, product: string, count: number): Cost {
  const latest = ware.latest.get(product);
  return latest ? costLike(latest.shelf, count) : NO_COST;
}

/** What is still to be taken, and what was so far. */
interface Taking {
  readonly ware: Ware;
  readonly selection: Selection;
  readonly from: TakenFrom[];
  left: number;
}

/** Returns whether more is to be taken from the next lot. */
function takeFromLot(taking: Taking, state: LotState, grade: Grade): boolean {
  const { place } = taking.selection;
  const slice = takeGrade(taking.ware, state, { grade, place, wanted: taking.left });
  if (slice.count > 0) taking.from.push({ lot: state, grade, slice });
  taking.left -= slice.count;
  return taking.left > 0;
}

function takeGrade(
  ware: Ware,
  state: LotState,
  { grade, place, wanted }: { grade: Grade; place: string; wanted: number },
): Slice {
  const there = state.places.get(placeKey(grade, place)) ?? 0;
  const slice = takeSlice(state.shelf, Math.min(wanted, there));
  addPlaced(ware, state, { grade, place, change: -slice.count });
  return slice;
}

/**
 * Shows the lots that have pieces of that grade at that place, first finished first, until `visit`
 * returns false. A lot that the visit empties leaves the list, so the next one takes its place.
 */
function goThrough(
  ware: Ware,
  { selection, grade }: { selection: Selection; grade: Grade },
  visit: (state: LotState) => boolean,
): void {
  const { lot, product, place, glaze } = selection;
  if (lot !== undefined) {
    const named = ware.lots.get(lot);
    if (named) visit(named);
    return;
  }
  const ready = readyLots(ware, product, placeKey(grade, place));
  for (let index = 0, state = ready[0]; state; state = ready[index]) {
    if (carries(state, glaze) && !visit(state)) return;
    if (ready[index] === state) index += 1;
  }
}

function putOnShelf(state: LotState, count: number, cost: Cost): void {
  const rest = restOf(state.shelf);
  state.shelf = batchOf(rest.count + count, addCosts(costOfSlice(rest), cost));
}

/** Whether that glaze is on the lot; every lot fits when none is named. */
function carries(state: LotState, glaze: string | undefined): boolean {
  if (glaze === undefined) return true;
  const glazes = state.lot.glazes ?? state.product?.glazes ?? [];
  return glazes.some((use) => use.recipe === glaze);
}

function lotToPutBack(ware: Ware, selection: Selection, grade: Grade): LotState | undefined {
  const { lot, product, place, glaze } = selection;
  if (lot !== undefined) return ware.lots.get(lot);
  const ready = readyLots(ware, product, placeKey(grade, place));
  const fitting = ready.findLast((state) => carries(state, glaze));
  const latest = ware.latest.get(product);
  return fitting ?? (latest && carries(latest, glaze) ? latest : undefined);
}

function gradesOf(selection: Selection): readonly Grade[] {
  return selection.grade ? [selection.grade] : GRADES;
}

function noteFinished(ware: Ware, state: LotState, day: Day): void {
  state.finishedOn ??= day;
  const latest = ware.latest.get(state.lot.product);
  if (!latest || comesBefore(latest, state)) ware.latest.set(state.lot.product, state);
}

/** Changes how many pieces of a grade stand at a place, and keeps the list of lots that have any. */
function addPlaced(
  ware: Ware,
  state: LotState,
  { grade, place, change }: { grade: Grade; place: string; change: number },
): void {
  if (change === 0) return;
  const key = placeKey(grade, place);
  const before = state.places.get(key) ?? 0;
  const after = before + change;
  state.places.set(key, after);
  const ready = readyLots(ware, state.lot.product, key);
  if (before === 0) insertInOrder(ready, state);
  if (after === 0) ready.splice(ready.indexOf(state), 1);
}

function readyLots(ware: Ware, product: string, key: string): LotState[] {
  const places = ware.ready.get(product) ?? new Map<string, LotState[]>();
  const ready = places.get(key) ?? [];
  if (ready.length === 0) {
    places.set(key, ready);
    ware.ready.set(product, places);
  }
  return ready;
}

function insertInOrder(ready: LotState[], state: LotState): void {
  const index = ready.findLastIndex((other) => comesBefore(other, state));
  ready.splice(index + 1, 0, state);
}

function comesBefore(one: LotState, other: LotState): boolean {
  const [a = '', b = ''] = [one.finishedOn, other.finishedOn];
  return a === b ? one.lot.id < other.lot.id : a < b;
}
