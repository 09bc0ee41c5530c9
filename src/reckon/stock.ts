/** One pass over the book that keeps every material and glaze bucket in quantity and value. */
import type { Book, Day, Material, Recipe } from '../book.ts';
import type { Spot } from '../problem.ts';
import { ZERO, roundTo, type Decimal } from '../number/decimal.ts';
import { minorDigits } from '../number/money.ts';
import { convert, type Unit } from '../number/unit.ts';
import { countTo, emptyPool, putIn, takeOut, type Pool } from './pool.ts';

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
  | 'settled';

/** One line of a pool's history; what goes out is negative. */
export interface Movement {
  readonly day: Day;
  readonly pool: string;
  readonly reason: MovementReason;
  /** In the pool's unit. */
  readonly quantity: Decimal;
  readonly value: Decimal;
  /** Id of the record behind it; of the first sale of the day for packing. */
  readonly by: string;
  /** For `used`: what for. */
  readonly for?: string;
}

/** More was wanted than the book has. */
export interface Shortfall {
  readonly kind: 'material' | 'bucket' | 'stage' | 'finished' | 'consigned' | 'out-of-turn';
  readonly day: Day;
  readonly at: Spot;
  /** Id of the material, recipe, lot or product. */
  readonly what: string;
  readonly wanted: Decimal;
  readonly had: Decimal;
  /** How the book comes to what there is, in words. */
  readonly because: string;
}

/** A pool with what it holds: a material in its stock unit, a recipe's bucket or clay in grams. */
export interface StockPool {
  readonly id: string;
  readonly unit: Unit;
  readonly pool: Pool;
  /** The material, or the recipe whose mixes it holds. */
  readonly material?: Material;
  readonly recipe?: Recipe;
}

/** What is kept while the events are gone through. */
export interface Store {
  readonly book: Book;
  readonly minorDigits: number;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None where no money is reckoned: who asks only what was short needs no history. */
  readonly movements: Movement[];
  readonly shortfalls: Shortfall[];
  /** Whether money is reckoned; without it every value is zero. */
  readonly isValued: boolean;
}

/** A quantity that goes into or out of a pool. */
export interface Draw {
  readonly pool: string;
  readonly quantity: Decimal;
  readonly unit: Unit;
  readonly day: Day;
  readonly reason: MovementReason;
  readonly by: string;
  readonly at: Spot;
  readonly for?: string;
}

/** Glaze buckets and mixed clay are kept in this unit. */
export const BUCKET_UNIT: Unit = 'g';

/** Empty pools for every material and recipe of the book. */
export function openStore(book: Book, isValued: boolean): Store {
  const valuing = book.studio.stockValue ?? 'average';
  const pools = new Map<string, StockPool>();
  for (const material of book.materials.values()) {
    pools.set(material.id, { ...poolFor(material.id, material.unit), material });
  }
  for (const recipe of book.recipes.values()) {
    pools.set(recipe.id, { ...poolFor(recipe.id, BUCKET_UNIT), recipe });
  }
  return {
    book,
    minorDigits: minorDigits(book.studio.currency) ?? 2,
    pools,
    movements: [],
    shortfalls: [],
    isValued,
  };

  function poolFor(id: string, unit: Unit): StockPool {
    return { id, unit, pool: emptyPool(valuing) };
  }
}

/** Puts goods of that value into a pool; a pool or unit that doesn't fit is passed over. */
export function receive(store: Store, draw: Draw, value: Decimal): void {
  const stock = store.pools.get(draw.pool);
  const quantity = stock && convert(draw.quantity, draw.unit, stock.unit);
  if (!quantity) return;
  const settled = putIn(stock.pool, quantity, value);
  note(store, draw, { quantity, value });
  if (!settled.isZero()) {
    note(store, { ...draw, reason: 'settled' }, { quantity: ZERO, value: settled.neg() });
  }
}

/** Draws from a pool and returns the value in money; a pool or unit that doesn't fit is passed over. */
export function draw(store: Store, wanted: Draw): Decimal {
  const stock = store.pools.get(wanted.pool);
  const quantity = stock && convert(wanted.quantity, wanted.unit, stock.unit);
  if (!quantity || quantity.isZero()) return ZERO;
  const { value, short } = takeOut(stock.pool, quantity);
  note(store, wanted, { quantity: quantity.neg(), value: value.neg() });
  if (!short.isZero()) store.shortfalls.push(stockShortfall(stock, wanted, { quantity, short }));
  return value;
}

/** Sets a pool to what was counted at the end of the day. */
export function countPool(store: Store, counted: Draw): void {
  const stock = store.pools.get(counted.pool);
  const quantity = stock && convert(counted.quantity, counted.unit, stock.unit);
  if (!quantity) return;
  note(store, counted, countTo(stock.pool, quantity));
}

function note(store: Store, draw: Draw, change: { quantity: Decimal; value: Decimal }): void {
  if (!store.isValued) return;
  const { day, pool, reason, by } = draw;
  const movement = { day, pool, reason, by, quantity: change.quantity, value: change.value };
  store.movements.push(draw.for === undefined ? movement : { ...movement, for: draw.for });
}

function stockShortfall(
  stock: StockPool,
  wanted: Draw,
  { quantity, short }: { quantity: Decimal; short: Decimal },
): Shortfall {
  const had = quantity.minus(short);
  const words = toldApart(had, quantity);
  return {
    kind: stock.material ? 'material' : 'bucket',
    day: wanted.day,
    at: wanted.at,
    what: stock.id,
    wanted: quantity,
    had,
    because: `${words.had} ${stock.unit} on hand, ${words.wanted} ${stock.unit} drawn`,
  };
}

/** Two figures rounded half up to as few decimals as tell them apart: two at least, as reports show them. */
function toldApart(had: Decimal, wanted: Decimal): { had: string; wanted: string } {
  const places = [2, 3, 6, 12].find((each) => !roundTo(had, each).eq(roundTo(wanted, each))) ?? 24;
  return { had: roundTo(had, places).toString(), wanted: roundTo(wanted, places).toString() };
}
