/** Runs the book's events through the pools: what is left of everything, and what each draw was worth. */
import type { Book, Bought, Counted, Day, Lot, Mixed, Reclaimed, Used } from '../book.ts';
import { measureOf } from '../number/measure.ts';
import { NO_MONEY, total, type Money } from '../number/money.ts';
import { drawTogether, type Part } from './draw-together.ts';
import { drawFiring, type FiringDraws, type GlazedLots } from './firing-draws.ts';
import { landedCosts } from './landed.ts';
import { drawPacking } from './packing.ts';
import { versionOn, weighOut, type WeighedMix } from './recipe.ts';
import {
  BUCKET_UNIT,
  countPool,
  draw,
  openStore,
  receive,
  type Movement,
  type Shortfall,
  type StockPool,
  type Store,
} from './stock.ts';
import type { Happening } from './timeline.ts';

/** The values that lots, firings and sales drew. */
interface Drawn {
  /** Lot → value of its clay. */
  readonly clay: Map<string, Money>;
  readonly firings: Map<string, FiringDraws>;
  /** Sale → value of the packing of each of its lines. */
  readonly packing: Map<string, readonly Money[]>;
}

/** Stock at the end of a day, and the value of what lots, firings and sales drew up to it. */
export interface StockFlow {
  readonly asOf: Day;
  /** Whether money was reckoned; without it every value is nothing. */
  readonly isValued: boolean;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None without money. */
  readonly movements: readonly Movement[];
  readonly shortfalls: readonly Shortfall[];
  readonly drawn: Readonly<Drawn>;
}

interface Pass {
  readonly store: Store;
  readonly drawn: Drawn;
  readonly glazed: GlazedLots;
}

/** A book and its events up to a day, in the order of the studio's day. */
interface Run {
  readonly book: Book;
  readonly asOf: Day;
  readonly isValued: boolean;
  readonly happenings: readonly Happening[];
}

/** Goes through every event up to and with the day. */
export function stockFlow({ book, asOf, isValued, happenings }: Run): StockFlow {
  const store = openStore(book, isValued);
  const drawn: Drawn = { clay: new Map(), firings: new Map(), packing: new Map() };
  const pass: Pass = { store, drawn, glazed: new Map() };
  for (const happening of happenings) reckonHappening(pass, happening);
  const { pools, movements, shortfalls } = store;
  return { asOf, isValued, pools, movements, shortfalls, drawn };
}

function reckonHappening({ store, drawn, glazed }: Pass, happening: Happening): void {
  const { record } = happening;
  switch (happening.kind) {
    case 'bought':
      receiveBought(store, happening.record);
      return;
    case 'reclaimed':
      receiveReclaimed(store, happening.record);
      return;
    case 'mixed':
      mix(store, happening.record);
      return;
    case 'pieces':
      drawn.clay.set(record.id, drawClay(store, happening.record));
      return;
    case 'firings':
      drawn.firings.set(record.id, drawFiring(store, happening.record, glazed));
      return;
    case 'used':
      drawUsed(store, happening.record);
      return;
    case 'sales':
      drawn.packing.set(record.id, drawPacking(store, happening.record));
      return;
    case 'counted':
      countMaterials(store, happening.record);
      return;
    case 'consigned':
      return;
  }
}

function receiveBought(store: Store, bought: Bought): void {
  const landed = store.isValued ? landedCosts(store.book, bought) : [];
  bought.lines.forEach((line, index) => {
    const goods = {
      pool: line.material,
      quantity: measureOf(line.quantity),
      unit: line.quantity.unit,
      day: bought.date,
      reason: 'bought' as const,
      by: bought.id,
      at: { file: bought.file, path: [bought.id, 'lines', index] },
    };
    receive(store, goods, landed[index] ?? NO_MONEY);
  });
}

function receiveReclaimed(store: Store, reclaimed: Reclaimed): void {
  const goods = {
    pool: reclaimed.material,
    quantity: measureOf(reclaimed.quantity),
    unit: reclaimed.quantity.unit,
    day: reclaimed.date,
    reason: 'reclaimed' as const,
    by: reclaimed.id,
    at: { file: reclaimed.file, path: [reclaimed.id, 'quantity'] },
  };
  receive(store, goods, NO_MONEY);
}

/** Moves the value of the materials into the recipe's bucket, or into the mixed clay. */
function mix(store: Store, mixed: Mixed): void {
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
    at: { file: mixed.file, path: [mixed.id] },
  };
  receive(store, bucket, value);
}

function drawParts(store: Store, mixed: Mixed, weighed: WeighedMix): Money {
  const field = mixed.baseWeight ? 'base-weight' : 'total-weight';
  const at = { file: mixed.file, path: [mixed.id, field] };
  const parts = weighed.parts.map(({ material, weight }): Part => ({
    pool: material,
    quantity: weight,
    unit: BUCKET_UNIT,
    at,
  }));
  return total(drawTogether(store, { day: mixed.date, reason: 'mixed', by: mixed.id }, [parts]));
}

function drawClay(store: Store, lot: Lot): Money {
  const clay = { ...store.book.products.get(lot.product)?.clay, ...lot.clay };
  if (clay.material === undefined || !clay.each) return NO_MONEY;
  return draw(store, {
    pool: clay.material,
    quantity: measureOf(clay.each, lot.made),
    unit: clay.each.unit,
    day: lot.date,
    reason: 'clay',
    by: lot.id,
    at: { file: lot.file, path: [lot.id, 'made'] },
  });
}

function drawUsed(store: Store, used: Used): void {
  draw(store, {
    pool: used.material,
    quantity: measureOf(used.quantity),
    unit: used.quantity.unit,
    day: used.date,
    reason: 'used',
    by: used.id,
    at: { file: used.file, path: [used.id, 'quantity'] },
    for: used.for ?? 'studio',
  });
}

function countMaterials(store: Store, counted: Counted): void {
  (counted.materials ?? []).forEach((line, index) => {
    countPool(store, {
      pool: line.material,
      quantity: measureOf(line.quantity),
      unit: line.quantity.unit,
      day: counted.date,
      reason: 'counted',
      by: counted.id,
      at: { file: counted.file, path: [counted.id, 'materials', index, 'quantity'] },
    });
  });
}
