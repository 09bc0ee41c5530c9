/** What the book's events do to the pools of materials and glazes, and stock as they leave it. */
import type { Facts } from '../among.ts';
import type { Bought, Counted, Day, Lot, Mixed, Reclaimed, Used } from '../book.ts';
import { inForce } from '../in-force.ts';
import { measureOf } from '../number/measure.ts';
import { NO_MONEY, total, type Money } from '../number/money.ts';
import { drawTogether, type Part } from './draw-together.ts';
import { landedCosts } from './landed.ts';
import { isOpening } from './opening.ts';
import { versionOn, weighOut, type WeighedMix } from './recipe.ts';
import {
  BUCKET_UNIT,
  countPool,
  draw,
  receive,
  type Movement,
  type MovementReason,
  type Shortfall,
  type StockPool,
  type Store,
} from './stock.ts';

/** Stock at the end of a day, and how it came to that. */
export interface StockFlow {
  readonly asOf: Day;
  /** Whether money was reckoned; without it every value is nothing. */
  readonly isValued: boolean;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None without money. */
  readonly movements: Facts<Movement>;
  /** The values of all movements, by their reason. */
  readonly sums: ReadonlyMap<MovementReason, Money>;
  readonly shortfalls: readonly Shortfall[];
}

/** Takes the lines of a purchase into stock, at what they cost with freight, tax and discount. */
export function receiveBought(store: Store, bought: Bought): void {
  const landed = store.isValued ? landedCosts(store.book, bought) : [];
  bought.lines.forEach((line, index) => {
    const goods = {
      pool: line.material,
      quantity: measureOf(line.quantity),
      unit: line.quantity.unit,
      day: bought.date,
      reason: 'bought' as const,
      by: bought.id,
      at: () => ({ file: bought.file, path: [bought.id, 'lines', index] }),
    };
    receive(store, goods, landed[index] ?? NO_MONEY);
  });
}

/** Takes reclaimed clay into stock; it costs nothing. */
export function receiveReclaimed(store: Store, reclaimed: Reclaimed): void {
  const goods = {
    pool: reclaimed.material,
    quantity: measureOf(reclaimed.quantity),
    unit: reclaimed.quantity.unit,
    day: reclaimed.date,
    reason: 'reclaimed' as const,
    by: reclaimed.id,
    at: () => ({ file: reclaimed.file, path: [reclaimed.id, 'quantity'] }),
  };
  receive(store, goods, NO_MONEY);
}

/** Moves the value of the materials into the recipe's bucket, or into the mixed clay. */
export function mix(store: Store, mixed: Mixed): void {
  const recipe = store.book.recipes.get(mixed.recipe);
  const version = recipe && versionOn(recipe, mixed.date);
  const weighed = version && weighOut(mixed, version);
  if (!weighed) return;
  const value = drawParts(store, mixed, weighed);
  const yields = recipe.kind === 'clay' ? mixed.yields : undefined;
  const bucket = {
    pool: recipe.id,
    quantity: yields ? measureOf(yields) : weighed.total,
    unit: yields?.unit ?? BUCKET_UNIT,
    day: mixed.date,
    reason: 'into-mix' as const,
    by: mixed.id,
    at: () => ({ file: mixed.file, path: [mixed.id] }),
  };
  receive(store, bucket, value);
}

function drawParts(store: Store, mixed: Mixed, weighed: WeighedMix): Money {
  const field = mixed.baseWeight ? 'base-weight' : 'total-weight';
  const head = {
    day: mixed.date,
    reason: 'mixed' as const,
    by: mixed.id,
    lines: 1,
    at: () => ({ file: mixed.file, path: [mixed.id, field] }),
  };
  const parts = weighed.parts.map(({ material, weight }): Part => ({
    pool: material,
    quantity: weight,
    unit: BUCKET_UNIT,
    line: 0,
  }));
  return total(drawTogether(store, head, parts));
}

/** Draws the clay of a lot and returns what it cost. */
export function drawClay(store: Store, lot: Lot): Money {
  const clay = { ...inForce(store.book.products.get(lot.product), lot.date)?.clay, ...lot.clay };
  if (clay.material === undefined || !clay.each) return NO_MONEY;
  return draw(store, {
    pool: clay.material,
    quantity: measureOf(clay.each, lot.made),
    unit: clay.each.unit,
    day: lot.date,
    reason: 'clay',
    by: lot.id,
    at: () => ({ file: lot.file, path: [lot.id, 'made'] }),
  });
}

/** Draws what was used outside lots, firings and sales. */
export function drawUsed(store: Store, used: Used): void {
  draw(store, {
    pool: used.material,
    quantity: measureOf(used.quantity),
    unit: used.quantity.unit,
    day: used.date,
    reason: 'used',
    by: used.id,
    at: () => ({ file: used.file, path: [used.id, 'quantity'] }),
    for: used.for ?? 'studio',
  });
}

/** Sets materials to what a stocktake counted. */
export function countMaterials(store: Store, counted: Counted): void {
  (counted.materials ?? []).forEach((line, index) => {
    if (isOpening(line)) return;
    countPool(store, {
      pool: line.material,
      quantity: measureOf(line.quantity),
      unit: line.quantity.unit,
      day: counted.date,
      reason: 'counted',
      by: counted.id,
      at: () => ({ file: counted.file, path: [counted.id, 'materials', index, 'quantity'] }),
    });
  });
}
