/** Which pieces of a lot a load line takes, and where they go when they come out. */
import type { Day, FiringKind } from '../../src/definitions.ts';
import type { LoadLine } from '../../src/events.ts';
import { FREE, add, type Cost } from './costs.ts';
import { GRADES, joinFinished, standing, takeFinished, type Lot } from './lots.ts';
import { join, leftIn, take, EMPTY } from './pile.ts';

/** Pieces of a lot in the kiln. */
export interface Loaded {
  readonly lot: Lot;
  readonly line: LoadLine;
  /** How many firings of its product they had; all of them for finished ware. */
  readonly from: number;
  /** How many they have had when they come out. */
  readonly to: number;
  readonly taken: number;
  readonly cost: Cost;
}

/** Puts the pieces of a line into the kiln. */
export function load(lot: Lot, line: LoadLine, kind: FiringKind): Loaded {
  const from = line.refire === 'yes' ? refiredFrom(lot, line, kind) : firedFrom(lot, line, kind);
  const to = line.refire === 'yes' ? from : nextAfter(lot, from, kind);
  return { lot, line, from, to, ...takeAt(lot, from, line) };
}

/** After this kind of firing; pieces that it is not due for stay where they are. */
function nextAfter(lot: Lot, from: number, kind: FiringKind): number {
  const next = lot.fired.indexOf(kind, from);
  if (next >= 0) return next + 1;
  if (!lot.isKnown && ['glaze', 'once', 'raku'].includes(kind)) return lot.fired.length;
  return thereAt(lot, from) > 0 ? from : Math.min(from + 1, lot.fired.length);
}

function positions({ fired }: Lot): number[] {
  return Array.from({ length: fired.length + 1 }, (_, position) => position);
}

/** Finished ware goes into a kiln from the studio alone. */
function thereAt(lot: Lot, position: number): number {
  const stage = lot.stages[position];
  if (stage) return leftIn(stage);
  return GRADES.reduce((sum, grade) => sum + standing(lot, grade, ''), 0);
}

/** The first of some positions that has enough, else the first that has any. */
function firstWith(lot: Lot, all: readonly number[], wanted: number): number | undefined {
  return (
    all.find((position) => thereAt(lot, position) >= wanted) ??
    all.find((position) => thereAt(lot, position) > 0)
  );
}

/** From where this kind of firing is next, else (out of turn) from where there are any. */
function firedFrom(lot: Lot, line: LoadLine, kind: FiringKind): number {
  const due = positions(lot).filter((position) => lot.fired[position] === kind);
  return firstWith(lot, due, line.in) ?? firstWith(lot, positions(lot), 1) ?? due[0] ?? 0;
}

/** From the furthest that this kind of firing leads to. */
function refiredFrom(lot: Lot, line: LoadLine, kind: FiringKind): number {
  const after = positions(lot).filter((position) => lot.fired[position - 1] === kind);
  const furthest = after.reverse();
  return firstWith(lot, furthest, line.in) ?? furthest[0] ?? lot.fired.length;
}

function takeAt(lot: Lot, position: number, line: LoadLine): { taken: number; cost: Cost } {
  const taken = Math.min(line.in, thereAt(lot, position));
  const stage = lot.stages[position];
  if (!stage) return { taken, cost: takeGraded(lot, taken) };
  const { pile, cost } = take(stage, taken);
  lot.stages[position] = pile;
  return { taken, cost };
}

/** Finished ware is fired again, be it for a test: seconds before firsts. */
function takeGraded(lot: Lot, wanted: number): Cost {
  let open = wanted;
  let cost = FREE;
  for (const grade of [...GRADES].reverse()) {
    const some = Math.min(open, standing(lot, grade, ''));
    if (some > 0) cost = add(cost, takeFinished(lot, { grade, place: '' }, some));
    open -= some;
  }
  return cost;
}

/** Whether the line says what came out. */
export function isOut({ first, second, lost }: LoadLine): boolean {
  return first !== undefined || second !== undefined || lost !== undefined;
}

export function goodOf({ first = 0, second = 0 }: LoadLine): number {
  return first + second;
}

/** Puts what came out good where it belongs, with all that it cost. */
export function unload({ lot, line, to }: Loaded, day: Day, cost: Cost): void {
  const { first = 0, second = 0 } = line;
  if (to >= lot.stages.length) joinFinished(lot, { place: '', day }, { first, second, cost });
  else lot.stages[to] = join(lot.stages[to] ?? EMPTY, first + second, cost);
}
