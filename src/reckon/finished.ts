/** Finished ware: graded, sent to places and back, and taken first finished, first gone. */
import type { Day, Grade, Lot } from '../book.ts';
import { batchOf, costLike, costOfSlice, leftIn, restOf, takeSlice, type Slice } from './batch.ts';
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
  addPlaced(state, placeKey('first', STUDIO_PLACE), good.first);
  addPlaced(state, placeKey('second', STUDIO_PLACE), good.second);
  state.finishedOn ??= good.day;
  makeReady(ware, state);
}

/** Takes finished pieces, first finished lot first. */
export function takeFinished(ware: Ware, selection: Selection, wanted: number): Taken {
  const taking: Taking = { selection, from: [], left: wanted };
  for (const state of candidates(ware, selection)) {
    if (taking.left === 0) break;
    if (selection.lot !== undefined || carries(state, selection.glaze)) takeFromLot(state, taking);
  }
  for (const { lot } of taking.from) takeOffShelf(ware, lot);
  return { count: wanted - taking.left, from: taking.from };
}

/** How many finished pieces the book has of what is meant. */
export function countFinished(ware: Ware, selection: Selection): number {
  const counts = fitting(ware, selection).map((state) =>
    gradesOf(selection).reduce(
      (count, grade) => count + (state.places.get(placeKey(grade, selection.place)) ?? 0),
      0,
    ),
  );
  return counts.reduce((all, count) => all + count, 0);
}

/** Moves finished pieces to another place; returns how many there were to move. */
export function moveFinished(
  ware: Ware,
  selection: Selection & { to: string },
  wanted: number,
): number {
  let left = wanted;
  for (const state of fitting(ware, selection)) {
    for (const grade of gradesOf(selection)) {
      const key = placeKey(grade, selection.place);
      const count = Math.min(left, state.places.get(key) ?? 0);
      addPlaced(state, key, -count);
      addPlaced(state, placeKey(grade, selection.to), count);
      left -= count;
    }
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
  const state = lotToPutBack(ware, selection) ?? startLot(ware, back.record, NO_COST);
  const cost = costLike(state.shelf, back.count);
  putOnShelf(state, back.count, cost);
  addPlaced(state, placeKey(selection.grade ?? 'first', selection.place), back.count);
  state.finishedOn ??= back.day;
  makeReady(ware, state);
  return cost;
}

/** Takes pieces of one grade off the studio's shelf for a refire. */
export function takeForRefire(state: LotState, wanted: number): Cost {
  let left = wanted;
  let cost = NO_COST;
  // Seconds are what is fired again.
  for (const grade of ['second', 'first'] as const) {
    const slice = takeGrade(state, placeKey(grade, STUDIO_PLACE), left);
    cost = addCosts(cost, costOfSlice(slice));
    left -= slice.count;
  }
  return cost;
}

/** Cost of one finished piece of the lot that was finished last; none when there is no lot. */
export function latestCost(ware: Ware, product: string, count: number): Cost {
  const latest = ware.latest.get(product);
  return latest ? costLike(latest.shelf, count) : NO_COST;
}

function putOnShelf(state: LotState, count: number, cost: Cost): void {
  const rest = restOf(state.shelf);
  state.shelf = batchOf(rest.count + count, addCosts(costOfSlice(rest), cost));
}

/** What is still to be taken, and what was so far. */
interface Taking {
  readonly selection: Selection;
  readonly from: TakenFrom[];
  left: number;
}

function takeFromLot(state: LotState, taking: Taking): void {
  for (const grade of gradesOf(taking.selection)) {
    const slice = takeGrade(state, placeKey(grade, taking.selection.place), taking.left);
    if (slice.count > 0) taking.from.push({ lot: state, grade, slice });
    taking.left -= slice.count;
  }
}

function takeGrade(state: LotState, key: string, wanted: number): Slice {
  const slice = takeSlice(state.shelf, Math.min(wanted, state.places.get(key) ?? 0));
  addPlaced(state, key, -slice.count);
  return slice;
}

function candidates(ware: Ware, selection: Selection): readonly LotState[] {
  if (selection.lot !== undefined) {
    const named = ware.lots.get(selection.lot);
    return named ? [named] : [];
  }
  return ware.ready.get(selection.product) ?? [];
}

function fitting(ware: Ware, selection: Selection): LotState[] {
  return candidates(ware, selection).filter(
    (state) => selection.lot !== undefined || carries(state, selection.glaze),
  );
}

/** Whether that glaze is on the lot; every lot fits when none is named. */
function carries(state: LotState, glaze: string | undefined): boolean {
  if (glaze === undefined) return true;
  const glazes = state.lot.glazes ?? state.product?.glazes ?? [];
  return glazes.some((use) => use.recipe === glaze);
}

function lotToPutBack(ware: Ware, selection: Selection): LotState | undefined {
  if (selection.lot !== undefined) return ware.lots.get(selection.lot);
  const ready = fitting(ware, selection).at(-1);
  if (ready) return ready;
  const latest = ware.latest.get(selection.product);
  return latest && carries(latest, selection.glaze) ? latest : undefined;
}

function gradesOf(selection: Selection): readonly Grade[] {
  return selection.grade ? [selection.grade] : GRADES;
}

function addPlaced(state: LotState, key: string, change: number): void {
  if (change !== 0) state.places.set(key, (state.places.get(key) ?? 0) + change);
}

function makeReady(ware: Ware, state: LotState): void {
  const ready = ware.ready.get(state.lot.product) ?? [];
  ware.ready.set(state.lot.product, ready);
  if (!ready.includes(state)) insertInOrder(ready, state);
  const latest = ware.latest.get(state.lot.product);
  if (!latest || comesBefore(latest, state)) ware.latest.set(state.lot.product, state);
}

/** A lot of which nothing is left is no longer looked through. */
function takeOffShelf(ware: Ware, state: LotState): void {
  if (leftIn(state.shelf) > 0) return;
  const ready = ware.ready.get(state.lot.product) ?? [];
  const index = ready.indexOf(state);
  if (index !== -1) ready.splice(index, 1);
}

function insertInOrder(ready: LotState[], state: LotState): void {
  const index = ready.findLastIndex((other) => comesBefore(other, state));
  ready.splice(index + 1, 0, state);
}

function comesBefore(one: LotState, other: LotState): boolean {
  const [a = '', b = ''] = [one.finishedOn, other.finishedOn];
  return a === b ? one.lot.id < other.lot.id : a < b;
}
