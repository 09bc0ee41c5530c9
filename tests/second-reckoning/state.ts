/** All that the second reckoning carries through the events, and its few ways to change it. */
import type { Book, Day, Entry } from '../../src/book.ts';
import type { Quantity, Unit } from '../../src/number/unit.ts';
import { FREE, type Cost } from './costs.ts';
import { compare, NOTHING, type Fraction } from './fraction.ts';
import type { Lot, ProductLoad, Taken } from './lots.ts';
import type { Waiting } from './opening.ts';
import { arrive, draw, newPool, quantityIn, recount, type Moved, type Pool } from './pool.ts';
import type {
  Account,
  FiringResult,
  LandedLine,
  Owed,
  Movement,
  Reason,
  SaleResult,
  Shortfall,
  Went,
} from './result.ts';
import { inBase, inUnit } from './units.ts';

export interface Kept {
  readonly unit: Unit;
  readonly pool: Pool;
  readonly movements: Movement[];
}

export interface State {
  readonly book: Book;
  readonly pools: Map<string, Kept>;
  readonly landed: Map<string, readonly LandedLine[]>;
  readonly firings: Map<string, FiringResult>;
  readonly lots: Map<string, Lot>;
  /** Product → the load of it that came out last. */
  readonly lastLoads: Map<string, ProductLoad>;
  /** Everything that sold lines took, in the order of the sales. */
  readonly sold: Taken[];
  readonly went: Went[];
  /** Pieces that will be out of a kiln on a later day. */
  readonly waiting: Waiting[];
  readonly sales: Map<string, SaleResult>;
  readonly owed: Map<string, readonly Owed[]>;
  readonly shortfalls: Shortfall[];
}

export function newState(book: Book): State {
  const valuing = book.studio.stockValue ?? 'average';
  const keep = (unit: Unit): Kept => ({ unit, pool: newPool(valuing), movements: [] });
  const recipes = [...book.recipes.keys()].map((id) => [id, keep('g')] as const);
  const materials = [...book.materials.values()].map(({ id, unit }) => [id, keep(unit)] as const);
  return {
    book,
    pools: new Map([...recipes, ...materials]),
    ...{ landed: new Map(), firings: new Map(), lots: new Map(), lastLoads: new Map() },
    ...{ waiting: [], sold: [], went: [], sales: new Map(), owed: new Map(), shortfalls: [] },
  };
}

/** What moves a pool, and why. */
export interface Cause {
  readonly day: Day;
  readonly record: string;
  readonly reason: Reason;
}

export function causeOf(record: Entry & { readonly date: Day }, reason: Reason): Cause {
  return { day: record.date, record: record.id, reason };
}

/** A quantity of a material or recipe in its base unit; undefined where there is none or it doesn't fit. */
export function fitting(state: State, id: string, quantity: Quantity): Fraction | undefined {
  const kept = state.pools.get(id);
  return kept && inBase(quantity, kept.unit);
}

/** Draws a pool, and gives the cost. */
export function drawFrom(state: State, id: string, step: Cause & { quantity: Fraction }): bigint {
  const kept = state.pools.get(id);
  if (!kept || step.quantity.top === 0n) return 0n;
  const moved = draw(kept.pool, step.quantity);
  note(kept, step, moved);
  if (isShort(kept.pool, moved)) state.shortfalls.push({ of: id, record: step.record });
  return -moved.value;
}

/** Whether a draw went below nothing. */
function isShort(pool: Pool, { quantity }: Moved): boolean {
  return quantity.top < 0n && compare(quantityIn(pool), NOTHING) < 0;
}

export function bringIn(state: State, id: string, step: Cause & Moved): void {
  const kept = state.pools.get(id);
  if (!kept) return;
  const arrived = arrive(kept.pool, step);
  note(kept, step, arrived);
  if (arrived.settled === 0n) return;
  note(kept, { ...step, reason: 'settled' }, { quantity: NOTHING, value: -arrived.settled });
  goTo(state, 'differences', { ...step, what: id, cost: asMaterial(arrived.settled) });
}

export function countPool(state: State, id: string, step: Cause & { quantity: Fraction }): void {
  const kept = state.pools.get(id);
  if (!kept) return;
  const moved = recount(kept.pool, step.quantity);
  note(kept, step, moved);
  goTo(state, 'differences', { ...step, what: id, cost: asMaterial(-moved.value) });
}

function note({ unit, movements }: Kept, { day, record, reason }: Cause, moved: Moved): void {
  const quantity = inUnit(moved.quantity, unit);
  movements.push({ day, record, reason, quantity, value: moved.value });
}

/** Material that went elsewhere than into ware. */
export function asMaterial(value: bigint): Cost {
  return { ...FREE, material: value };
}

/** Where a cost went. */
export function goTo(state: State, account: Account, went: Omit<Went, 'account'>): void {
  const { day, record, what, cost } = went;
  state.went.push({ account, day, record, what, cost });
}
