/** Finished ware: graded, sent to places and back, and taken first finished, first gone. */
import type { Day, Grade, Lot } from '../book.ts';
import { ZERO, decimal, divide, roundTo } from '../number/decimal.ts';
import { COMPONENTS, NO_COST, addCosts, type Cost } from './cost.ts';
import {
  STUDIO_PLACE,
  finishedPile,
  placeKey,
  putOnPile,
  startLot,
  takePile,
  type LotState,
  type Pile,
  type Ware,
} from './ware.ts';

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
  readonly lot: string;
  readonly grade: Grade;
  readonly count: number;
}

/** Pieces taken, at the most as many as wanted. */
export interface Taken extends Pile {
  readonly from: readonly TakenFrom[];
}

const GRADES: readonly Grade[] = ['first', 'second'];

/** Puts good pieces of a lot on the shelf, with the cost that they carry. */
export function finish(
  ware: Ware,
  state: LotState,
  good: { day: Day; first: number; second: number; cost: Cost },
): void {
  const count = good.first + good.second;
  putOnPile(finishedPile(state), { count, cost: good.cost });
  addPlaced(state, placeKey('first', STUDIO_PLACE), good.first);
  addPlaced(state, placeKey('second', STUDIO_PLACE), good.second);
  state.finishedOn ??= good.day;
  state.unitCost = unitCostOf(finishedPile(state));
  makeReady(ware, state);
}

/** Takes finished pieces, first finished lot first. */
export function takeFinished(ware: Ware, selection: Selection, wanted: number): Taken {
  const from: TakenFrom[] = [];
  let cost = NO_COST;
  let left = wanted;
  for (const state of candidates(ware, selection)) {
    if (left === 0) break;
    for (const part of takeFromLot(state, selection, left)) {
      cost = addCosts(cost, part.cost);
      from.push({ lot: state.lot.id, grade: part.grade, count: part.count });
      left -= part.count;
    }
    if (finishedPile(state).count === 0) takeOffShelf(ware, state);
  }
  return { count: wanted - left, cost, from };
}

/** How many finished pieces the book has of what is meant. */
export function countFinished(ware: Ware, selection: Selection): number {
  const counts = candidates(ware, selection).map((state) =>
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
  for (const state of candidates(ware, selection)) {
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
  const cost = costOfPieces(state.unitCost, back.count);
  putOnPile(finishedPile(state), { count: back.count, cost });
  addPlaced(state, placeKey(selection.grade ?? 'first', selection.place), back.count);
  state.finishedOn ??= back.day;
  makeReady(ware, state);
  return cost;
}

/** So many times the cost of one piece. */
export function costOfPieces(unitCost: Cost, count: number): Cost {
  return mapComponents((component) => unitCost[component]?.times(decimal(count)));
}

function unitCostOf(pile: Pile): Cost {
  const count = decimal(pile.count);
  return mapComponents((component) => {
    const amount = pile.cost[component];
    return amount && roundTo(divide(amount, count), 20);
  });
}

function mapComponents(amountOf: (component: keyof Cost) => Cost[keyof Cost]): Cost {
  const amounts = COMPONENTS.map((component) => [component, amountOf(component)] as const);
  return Object.fromEntries(amounts.filter(([, amount]) => amount?.gt(ZERO)));
}

function takeFromLot(
  state: LotState,
  selection: Selection,
  wanted: number,
): (Pile & { grade: Grade })[] {
  let left = wanted;
  return gradesOf(selection).flatMap((grade) => {
    const key = placeKey(grade, selection.place);
    const taken = takePile(finishedPile(state), Math.min(left, state.places.get(key) ?? 0));
    addPlaced(state, key, -taken.count);
    left -= taken.count;
    return taken.count === 0 ? [] : [{ ...taken, grade }];
  });
}

function candidates(ware: Ware, selection: Selection): readonly LotState[] {
  if (selection.lot !== undefined) {
    const named = ware.lots.get(selection.lot);
    return named ? [named] : [];
  }
  const ready = ware.ready.get(selection.product) ?? [];
  return ready.filter((state) => carries(state, selection.glaze));
}

/** Whether that glaze is on the lot; every lot fits when none is named. */
function carries(state: LotState, glaze: string | undefined): boolean {
  if (glaze === undefined) return true;
  const glazes = state.lot.glazes ?? state.product?.glazes ?? [];
  return glazes.some((use) => use.recipe === glaze);
}

function lotToPutBack(ware: Ware, selection: Selection): LotState | undefined {
  if (selection.lot !== undefined) return ware.lots.get(selection.lot);
  const ready = candidates(ware, selection).at(-1);
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

function takeOffShelf(ware: Ware, state: LotState): void {
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
