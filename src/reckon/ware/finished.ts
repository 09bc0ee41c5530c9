/** Finished ware: graded, sent to places and back, and taken first finished, first gone. */
import type { Day, Grade, Lot } from '../../book.ts';
import {
  type Cost,
  NO_COST,
  NO_PIECES,
  type Pieces,
  addCosts,
  costLike,
  joined,
  takeFrom,
} from '../costs/cost.ts';
import { settleEmpty } from './open-glaze.ts';
import {
  type TakenFrom,
  type Ware,
  byFinish,
  comesBefore,
  insertInOrder,
  readyLots,
  startLot,
} from './ware.ts';
import { type LotState, STUDIO_PLACE, placeKey } from './lot.ts';
import type { Selection } from './ware.ts';

/** Pieces taken, at the most as many as wanted. */
interface Taken {
  readonly count: number;
  readonly from: readonly TakenFrom[];
}

/** Pieces of a lot that went from one place to another. */
export type Moved = Pick<TakenFrom, 'lot' | 'count'>;

const GRADES: readonly Grade[] = ['first', 'second'];

/** Puts good pieces of a lot on the shelf, with the cost that they carry. */
export function finish(
  ware: Ware,
  state: LotState,
  good: { day: Day; first: number; second: number; cost: Cost },
): void {
  const pieces = { count: good.first + good.second, cost: good.cost };
  ware.lastLoad.set(state.lot.product, pieces);
  state.shelf = joined(state.shelf, pieces);
  noteFinished(ware, state, good.day);
  addPlaced(ware, state, { grade: 'first', place: STUDIO_PLACE, change: good.first });
  addPlaced(ware, state, { grade: 'second', place: STUDIO_PLACE, change: good.second });
}

/** Puts pieces on the shelf that were there when the book began; the last cost known of the product. */
export function openFinished(
  ware: Ware,
  state: LotState,
  there: Pieces & { day: Day; grade: Grade; place: string },
): void {
  const { count, cost } = there;
  ware.lastLoad.set(state.lot.product, { count, cost });
  putBack(ware, state, there);
}

/** Takes finished pieces, the first finished lot first, and of each its firsts before its seconds. */
export function takeFinished(ware: Ware, selection: Selection, wanted: number): Taken {
  const from: TakenFrom[] = [];
  let left = wanted;
  goThrough(ware, selection, (state, grade) => {
    const taken = takeGrade(ware, state, { grade, place: selection.place, wanted: left });
    if (taken.count > 0) from.push(takenFrom(state, grade, taken));
    left -= taken.count;
    return left > 0;
  });
  return { count: wanted - left, from };
}

/** How many finished pieces the book has of what is meant. */
export function countFinished(ware: Ware, selection: Selection): number {
  let count = 0;
  goThrough(ware, selection, (state, grade) => {
    count += state.places.get(placeKey(grade, selection.place)) ?? 0;
    return true;
  });
  return count;
}

/** Moves finished pieces to another place, at most as many as wanted; returns which. */
export function moveFinished(
  ware: Ware,
  selection: Selection & { to: string },
  wanted: number,
): Moved[] {
  const { place, to } = selection;
  const moved: Moved[] = [];
  let left = wanted;
  goThrough(ware, selection, (state, grade) => {
    const count = Math.min(left, state.places.get(placeKey(grade, place)) ?? 0);
    addPlaced(ware, state, { grade, place, change: -count });
    addPlaced(ware, state, { grade, place: to, change: count });
    if (count > 0) moved.push({ lot: state, count });
    left -= count;
    return left > 0;
  });
  return moved;
}

/** Puts pieces with their cost on the shelf of their lot, at one place and of one grade. */
export function putBack(
  ware: Ware,
  state: LotState,
  back: Pieces & { day: Day; grade: Grade; place: string },
): void {
  const { day, grade, place, count } = back;
  state.shelf = joined(state.shelf, back);
  noteFinished(ware, state, day);
  addPlaced(ware, state, { grade, place, change: count });
}

/**
 * The lot that pieces join which the book knows nothing of: the one that is named, the one finished last
 * that has that grade there, the one finished last. Without a lot that fits, one without cost is opened.
 */
export function lotForFound(ware: Ware, selection: Selection, record: Lot): LotState {
  return lotThatFits(ware, selection) ?? startLot(ware, record, NO_PIECES);
}

/** Puts pieces that a stocktake found on the shelf, at what pieces of that lot came in at. */
export function putFound(
  ware: Ware,
  selection: Selection,
  found: { day: Day; count: number; record: Lot },
): TakenFrom {
  const { grade = 'first', place } = selection;
  const { day, count } = found;
  const lot = lotForFound(ware, selection, found.record);
  const cost = costLike(lot.shelf, count);
  putBack(ware, lot, { day, grade, place, count, cost });
  return takenFrom(lot, grade, { count, cost });
}

/** Pieces of a lot. */
export function takenFrom(lot: LotState, grade: Grade, { count, cost }: Pieces): TakenFrom {
  return { lot, grade, count, cost };
}

/** Takes pieces off the studio's shelf for a refire; seconds first, since those are what is fired again. */
export function takeForRefire(ware: Ware, state: LotState, wanted: number): Cost {
  let left = wanted;
  let cost = NO_COST;
  for (const grade of ['second', 'first'] as const) {
    const taken = takeGrade(ware, state, { grade, place: STUDIO_PLACE, wanted: left });
    cost = addCosts(cost, taken.cost);
    left -= taken.count;
  }
  return cost;
}

/** What so many pieces cost of the product's load that came out last; nothing before any did. */
export function lastCost(ware: Ware, product: string, count: number): Cost {
  const load = ware.lastLoad.get(product);
  return load ? costLike(load, count) : NO_COST;
}

function takeGrade(
  ware: Ware,
  state: LotState,
  { grade, place, wanted }: { grade: Grade; place: string; wanted: number },
): Pieces {
  const there = state.places.get(placeKey(grade, place)) ?? 0;
  const taken = takeFrom(state.shelf, Math.min(wanted, there));
  addPlaced(ware, state, { grade, place, change: -taken.count });
  return taken;
}

/** Shows lots with a grade of them; returns whether to go on. */
type Visit = (state: LotState, grade: Grade) => boolean;

/**
 * Shows the lots that have pieces of what is meant, first finished first, and of each the firsts before
 * the seconds, until `visit` returns false.
 */
function goThrough(ware: Ware, selection: Selection, visit: Visit): void {
  const { lot, product, place, glaze, grade } = selection;
  if (lot !== undefined) visitEach(namedLot(ware, lot), selection, visit);
  else if (grade === undefined) visitEach(bothGrades(ware, selection), selection, visit);
  else {
    const ready = readyLots(ware, product, placeKey(grade, place));
    visitReady(ready, (state) => !carries(state, glaze) || visit(state, grade));
  }
}

/** A lot that the visit empties leaves the list, so the next one takes its place. */
function visitReady(ready: readonly LotState[], visit: (state: LotState) => boolean): void {
  for (let at = 0, state = ready[0]; state && visit(state); state = ready[at])
    if (ready[at] === state) at += 1;
}

function visitEach(lots: readonly LotState[], { grade }: Selection, visit: Visit): void {
  const grades = grade ? [grade] : GRADES;
  for (const state of lots) if (!grades.every((each) => visit(state, each))) return;
}

function namedLot(ware: Ware, id: string): LotState[] {
  const named = ware.lots.get(id);
  return named ? [named] : [];
}

function bothGrades(ware: Ware, { product, place, glaze }: Selection): LotState[] {
  const found = GRADES.flatMap((grade) => readyLots(ware, product, placeKey(grade, place)));
  const inTurn = [...new Set(found)].sort(byFinish);
  return inTurn.filter((state) => carries(state, glaze));
}

/**
 * Whether that glaze may be on the lot: every lot fits when none is named, and so does one of a product
 * that the book lacks, or what stands there would be found once more by each stocktake that names a glaze.
 */
export function carries(state: LotState, glaze: string | undefined): boolean {
  if (glaze === undefined) return true;
  const { lot, product } = state;
  if (!lot.glazes && !product) return true;
  const glazes = lot.glazes ?? product?.glazes ?? [];
  return glazes.some((use) => use.recipe === glaze);
}

function lotThatFits(ware: Ware, selection: Selection): LotState | undefined {
  const { lot, product, place, glaze, grade = 'first' } = selection;
  if (lot !== undefined) return ware.lots.get(lot);
  const ready = readyLots(ware, product, placeKey(grade, place));
  const fitting = ready.findLast((state) => carries(state, glaze));
  const latest = ware.lots.get(ware.latest.get(product) ?? '');
  return fitting ?? (latest && carries(latest, glaze) ? latest : undefined);
}

function noteFinished(ware: Ware, state: LotState, day: Day): void {
  ware.touched.add(state);
  state.finishedOn ??= day;
  if (state.glaze === '') ware.unglazed.add(state.lot.id);
  const { id, product } = state.lot;
  const latest = ware.lots.get(ware.latest.get(product) ?? '');
  if (!latest || comesBefore(latest, state)) ware.latest.set(product, id);
}

/** Changes how many pieces of a grade stand at a place, and keeps the list of lots that have any. */
function addPlaced(
  ware: Ware,
  state: LotState,
  { grade, place, change }: { grade: Grade; place: string; change: number },
): void {
  ware.touched.add(state);
  if (change === 0) return;
  const key = placeKey(grade, place);
  // Before anything changes: the lists may have to be made first.
  const ready = readyLots(ware, state.lot.product, key);
  const before = state.places.get(key) ?? 0;
  const after = before + change;
  state.places.set(key, after);
  if (before !== 0 && after !== 0) return;
  if (before === 0) insertInOrder(ready, state);
  else ready.splice(ready.indexOf(state), 1);
  if (ready.length === 0) settleEmpty(ware, state.lot.product, key);
}
