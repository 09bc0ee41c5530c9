/** One pass over the book that keeps every material and glaze bucket in quantity and value. */
import type { Book, Day, Grade, Material, Recipe } from '../../book.ts';
import type { Spot } from '../../problem.ts';
import type { Decimal } from '../../number/decimal.ts';
import { NO_MONEY, add, addUnder, opposite, type Money } from '../../number/money.ts';
import {
  NO_QUANTITY,
  inUnit,
  lessOf,
  oppositeOf,
  type Measure,
  measureOf,
} from '../../number/measure.ts';
import { dimensionOf, type Unit, type Quantity } from '../../number/unit.ts';
import type { StageHistory } from '../ware/stages.ts';
import { countTo, emptyPool, isTouched, putIn, takeOut, type Pool, type Worth } from './pool.ts';

/** Why something went into or out of a pool. */
export type MovementReason =
  | 'bought'
  | 'reclaimed'
  | 'mixed'
  | 'into-mix'
  | 'clay'
  | 'glaze'
  | 'supplies'
  | 'fuel'
  | 'packing'
  | 'used'
  | 'counted'
  | 'opening'
  | 'settled';

/** What an event did to a pool, a line of its history; what goes out is negative. */
export interface Movement {
  readonly day: Day;
  readonly pool: string;
  readonly reason: MovementReason;
  readonly quantity: Measure;
  readonly value: Money;
  /** Id of the record that moved it. */
  readonly by: string;
  /** For `used`: what for. */
  readonly for?: string | undefined;
}

/** More was wanted than the book has. */
export interface Shortfall {
  readonly kind:
    'material' | 'bucket' | 'stage' | 'finished' | 'consigned' | 'out-of-turn' | 'opening';
  readonly day: Day;
  readonly at: Spot;
  /** Id of the material, recipe, lot or product. */
  readonly what: string;
  readonly wanted: Decimal;
  readonly had: Decimal;
  /** Of pieces of a lot that are on their way. */
  readonly history?: StageHistory;
  /** Whether the same ware was counted with a cost before. */
  readonly isTwice?: boolean;
  /** Of finished pieces: those that were meant. */
  readonly meant?: MeantPieces;
  /** Of finished pieces: what is there of the product besides. */
  readonly instead?: readonly OtherPieces[];
}

/** Which finished pieces of a product a line means. */
interface MeantPieces {
  readonly lot?: string | undefined;
  readonly glaze?: string | undefined;
  readonly grade?: Grade | undefined;
  /** Empty for the studio. */
  readonly place: string;
}

/** Finished pieces of one grade, glaze and place. */
export interface OtherPieces {
  readonly grade: Grade;
  /** The recipes on them; empty where that is not known. */
  readonly glaze: string;
  readonly place: string;
  readonly count: number;
}

/** A pool with what it holds, and the unit that it is told in: a material's own, grams for a recipe's. */
export interface StockPool {
  readonly id: string;
  readonly unit: Unit;
  readonly pool: Pool;
  /** The day of what moved it first; undefined while nothing has. */
  since: Day | undefined;
  /** The value of what was there when the book began. */
  opened: Money;
  /** The material, or the recipe whose mixes it holds. */
  readonly material?: Material;
  readonly recipe?: Recipe;
}

/** What is kept while the events are gone through. */
export interface Store {
  readonly book: Book;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None where no money is reckoned: who asks only what was short needs no history. */
  readonly movements: Movement[];
  /** The values of all movements so far, by their reason. */
  readonly sums: Map<MovementReason, Money>;
  readonly shortfalls: Shortfall[];
  /** Whether money is reckoned; without it every value is zero. */
  readonly isValued: boolean;
}

/** A quantity that goes into or out of a pool; the unit that it was said in tells whether it fits. */
export interface Draw {
  readonly pool: string;
  readonly day: Day;
  readonly reason: MovementReason;
  readonly by: string;
  /** Where the record says so; asked only where something is short. */
  readonly at: () => Spot;
  readonly for?: string;
  readonly quantity: Measure;
  readonly unit: Unit;
}

/** A quantity of a material as a record has it, and where in the record it stands. */
export function drawOf(
  { id, file, date }: { readonly id: string; readonly file: string; readonly date: Day },
  { material, quantity }: { readonly material: string; readonly quantity: Quantity },
  { reason, path }: Pick<Draw, 'reason'> & Pick<Spot, 'path'>,
): Draw {
  const at = (): Spot => ({ file, path: [id, ...path] });
  const { unit } = quantity;
  return { pool: material, quantity: measureOf(quantity), unit, day: date, reason, by: id, at };
}

/** Glaze buckets and mixed clay are kept in this unit. */
export const BUCKET_UNIT: Unit = 'g';

/** Empty pools for every material and recipe of the book. */
export function openStore(book: Book, isValued: boolean): Store {
  const valuing = book.studio.stockValue ?? 'average';
  const pools = new Map<string, StockPool>();
  for (const material of book.materials.values()) {
    pools.set(material.id, { ...opened(material.id, material.unit), material });
  }
  for (const recipe of book.recipes.values()) {
    pools.set(recipe.id, { ...opened(recipe.id, BUCKET_UNIT), recipe });
  }
  return {
    book,
    pools,
    movements: [],
    sums: new Map(),
    shortfalls: [],
    isValued,
  };

  function opened(id: string, unit: Unit): StockPool {
    return { id, unit, pool: emptyPool(valuing), since: undefined, opened: NO_MONEY };
  }
}

/** Puts goods of that value into a pool; a pool or unit that doesn't fit is passed over. */
export function receive(store: Store, draw: Draw, value: Money): void {
  const stock = poolFor(store, draw);
  if (!stock) return;
  const { quantity } = draw;
  const settled = putIn(stock.pool, quantity, value);
  note(store, stock, { moved: draw, quantity, value });
  if (settled === NO_MONEY) return;
  const moved = { ...draw, reason: 'settled' as const };
  note(store, stock, { moved, quantity: NO_QUANTITY, value: opposite(settled) });
}

/** Draws from a pool and returns the value; a pool or unit that doesn't fit is passed over. */
export function draw(store: Store, wanted: Draw): Money {
  const stock = poolFor(store, wanted);
  return stock ? drawFrom(store, stock, wanted) : NO_MONEY;
}

/** The same from a pool that was found by `poolFor`. */
export function drawFrom(store: Store, stock: StockPool, wanted: Draw): Money {
  if (wanted.quantity === NO_QUANTITY) return NO_MONEY;
  const { quantity, value, short } = takeOut(stock.pool, wanted.quantity);
  note(store, stock, {
    moved: wanted,
    quantity: oppositeOf(quantity),
    value: opposite(value),
  });
  if (short > NO_QUANTITY)
    store.shortfalls.push(stockShortfall(stock, wanted, { quantity, short }));
  return value;
}

/** Sets a pool to what was counted at the end of the day. */
export function countPool(store: Store, counted: Draw): void {
  const stock = poolFor(store, counted);
  if (!stock) return;
  note(store, stock, { moved: counted, ...countTo(stock.pool, counted.quantity) });
}

/**
 * Puts in what was there when the book began, at what it had cost. That is all there is: what the book
 * has of it already is a shortfall to tell, and goes.
 */
export function openPool(store: Store, counted: Draw, value: Money): void {
  const stock = poolFor(store, counted);
  if (!stock || counted.quantity === NO_QUANTITY) return;
  const { pool, id, unit } = stock;
  if (isTouched(pool)) {
    const had = inUnit(pool.onHand, unit);
    const wanted = inUnit(counted.quantity, unit);
    const { day } = counted;
    store.shortfalls.push({ kind: 'opening', day, at: counted.at(), what: id, wanted, had });
    const moved = { ...counted, reason: 'counted' as const };
    note(store, stock, { moved, ...countTo(pool, NO_QUANTITY) });
  }
  receive(store, counted, value);
}

/** The pool that is meant; undefined where there is none, or it holds what is measured in another way. */
export function poolFor(store: Store, said: Pick<Draw, 'pool' | 'unit'>): StockPool | undefined {
  const stock = store.pools.get(said.pool);
  return stock && fits(stock, said) ? stock : undefined;
}

/** Whether a pool holds what is measured in that unit. */
export function fits({ unit }: StockPool, said: { readonly unit: Unit }): boolean {
  return unit === said.unit || dimensionOf(unit) === dimensionOf(said.unit);
}

interface NotedMove extends Worth {
  readonly moved: Draw;
}

function note(store: Store, stock: StockPool, { moved, quantity, value }: NotedMove): void {
  const { day, pool, reason, by, for: use } = moved;
  stock.since ??= day;
  if (!store.isValued) return;
  if (reason === 'opening') stock.opened = add(stock.opened, value);
  addUnder(store.sums, reason, value);
  store.movements.push({ day, pool, reason, by, quantity, value, for: use });
}

function stockShortfall(
  stock: StockPool,
  wanted: Draw,
  { quantity, short }: { quantity: Measure; short: Measure },
): Shortfall {
  return {
    kind: stock.material ? 'material' : 'bucket',
    day: wanted.day,
    at: wanted.at(),
    what: stock.id,
    wanted: inUnit(quantity, stock.unit),
    had: inUnit(lessOf(quantity, short), stock.unit),
  };
}
