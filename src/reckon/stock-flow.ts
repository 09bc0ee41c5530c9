/** Runs the book's events through the pools: what is left of everything, and what each draw was worth. */
import type { Book, Bought, Counted, Day, Lot, Mixed, Reclaimed, Used } from '../book.ts';
import { ZERO, decimal, sum, type Decimal } from '../number/decimal.ts';
import { drawFiring, type GlazedLots } from './firing-draws.ts';
import { landedCosts } from './landed.ts';
import { drawPacking, packedDays, type PackedDay } from './packing.ts';
import { versionOn, weighOut, type WeighedMix } from './recipe.ts';
import {
  countPool,
  draw,
  openStore,
  receive,
  type Movement,
  type Shortfall,
  type StockPool,
  type Store,
} from './stock.ts';
import { timeline, type Happening } from './timeline.ts';

/** Stock at the end of a day, and the money value of what lots, firings and sales drew up to it. */
export interface StockFlow {
  readonly asOf: Day;
  /** Whether money was reckoned; without it every value is zero. */
  readonly isValued: boolean;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None without money. */
  readonly movements: readonly Movement[];
  readonly shortfalls: readonly Shortfall[];
  /** Lot → value of its clay. */
  readonly clay: ReadonlyMap<string, Decimal>;
  /** Firing → value of the glaze that each load line drew, by the load's order. */
  readonly glaze: ReadonlyMap<string, readonly Decimal[]>;
  /** Firing → value of its supplies. */
  readonly supplies: ReadonlyMap<string, Decimal>;
  /** Firing → value of the fuel that it drew from stock. */
  readonly fuel: ReadonlyMap<string, Decimal>;
  readonly packed: ReadonlyMap<Day, PackedDay>;
}

/** The values that the pass hands on, while they are filled. */
interface Drawn {
  readonly clay: Map<string, Decimal>;
  readonly glaze: Map<string, readonly Decimal[]>;
  readonly supplies: Map<string, Decimal>;
  readonly fuel: Map<string, Decimal>;
}

interface Pass {
  readonly store: Store;
  readonly drawn: Drawn;
  readonly glazed: GlazedLots;
}

const STOCK_KINDS = [
  'bought',
  'reclaimed',
  'mixed',
  'pieces',
  'firings',
  'used',
  'counted',
] as const;

type StockHappening = Happening<(typeof STOCK_KINDS)[number]>;

/** Goes through every event up to and with the day in the order of the studio's day. */
export function stockFlow(book: Book, asOf: Day, isValued = true): StockFlow {
  const store = openStore(book, isValued);
  const drawn: Drawn = { clay: new Map(), glaze: new Map(), supplies: new Map(), fuel: new Map() };
  const pass: Pass = { store, drawn, glazed: new Map() };
  const packed = packedDays(book, asOf);
  const packingDays = [...packed.keys()].sort();
  for (const happening of timeline(book, asOf, STOCK_KINDS)) {
    packUntil(store, { packed, packingDays }, happening);
    reckonHappening(pass, happening);
  }
  packUntil(store, { packed, packingDays }, undefined);
  const { pools, movements, shortfalls } = store;
  return { asOf, isValued, pools, movements, shortfalls, ...drawn, packed };
}

/** Draws the packing of the days that are over before this event: counting comes after the day's sales. */
function packUntil(
  store: Store,
  { packed, packingDays }: { packed: Map<Day, PackedDay>; packingDays: Day[] },
  next: StockHappening | undefined,
): void {
  for (let day = packingDays[0]; day !== undefined; day = packingDays[0]) {
    if (next && !isOver(day, next)) return;
    packingDays.shift();
    const packedDay = packed.get(day);
    if (packedDay) drawPacking(store, day, packedDay);
  }
}

function isOver(day: Day, next: StockHappening): boolean {
  return day < next.record.date || (day === next.record.date && next.kind === 'counted');
}

function reckonHappening(pass: Pass, happening: StockHappening): void {
  const { store, drawn } = pass;
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
      drawn.clay.set(happening.record.id, drawClay(store, happening.record));
      return;
    case 'firings': {
      const { record } = happening;
      const draws = drawFiring(store, record, pass.glazed);
      drawn.supplies.set(record.id, draws.supplies);
      drawn.fuel.set(record.id, draws.fuel);
      drawn.glaze.set(record.id, draws.glaze);
      return;
    }
    case 'used':
      drawUsed(store, happening.record);
      return;
    case 'counted':
      countMaterials(store, happening.record);
      return;
  }
}

function receiveBought(store: Store, bought: Bought): void {
  const landed = store.isValued ? landedCosts(bought, store.minorDigits) : [];
  bought.lines.forEach((line, index) => {
    const goods = {
      pool: line.material,
      quantity: line.quantity.value,
      unit: line.quantity.unit,
      day: bought.date,
      reason: 'bought' as const,
      by: bought.id,
      at: { file: bought.file, path: [bought.id, 'lines', index] },
    };
    receive(store, goods, landed[index] ?? ZERO);
  });
}

function receiveReclaimed(store: Store, reclaimed: Reclaimed): void {
  const goods = {
    pool: reclaimed.material,
    quantity: reclaimed.quantity.value,
    unit: reclaimed.quantity.unit,
    day: reclaimed.date,
    reason: 'reclaimed' as const,
    by: reclaimed.id,
    at: { file: reclaimed.file, path: [reclaimed.id, 'quantity'] },
  };
  receive(store, goods, ZERO);
}

/** Moves the value of the materials into the recipe's bucket, or into the mixed clay. */
function mix(store: Store, mixed: Mixed): void {
  const recipe = store.book.recipes.get(mixed.recipe);
  const version = recipe && versionOn(recipe, mixed.date);
  const weighed = version && weighOut(mixed, version);
  if (!weighed) return;
  const value = drawParts(store, mixed, weighed);
  const made = (recipe.kind === 'clay' ? mixed.yields : undefined) ?? {
    value: weighed.total,
    unit: weighed.unit,
  };
  const bucket = {
    pool: recipe.id,
    quantity: made.value,
    unit: made.unit,
    day: mixed.date,
    reason: 'into-mix' as const,
    by: mixed.id,
    at: { file: mixed.file, path: [mixed.id] },
  };
  receive(store, bucket, value);
}

function drawParts(store: Store, mixed: Mixed, weighed: WeighedMix): Decimal {
  const field = mixed.baseWeight ? 'base-weight' : 'total-weight';
  const values = weighed.parts.map((part) =>
    draw(store, {
      pool: part.material,
      quantity: part.weight,
      unit: weighed.unit,
      day: mixed.date,
      reason: 'mixed',
      by: mixed.id,
      at: { file: mixed.file, path: [mixed.id, field] },
    }),
  );
  return sum(values);
}

function drawClay(store: Store, lot: Lot): Decimal {
  const clay = { ...store.book.products.get(lot.product)?.clay, ...lot.clay };
  if (clay.material === undefined || !clay.each) return ZERO;
  return draw(store, {
    pool: clay.material,
    quantity: clay.each.value.times(decimal(lot.made)),
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
    quantity: used.quantity.value,
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
      quantity: line.quantity.value,
      unit: line.quantity.unit,
      day: counted.date,
      reason: 'counted',
      by: counted.id,
      at: { file: counted.file, path: [counted.id, 'materials', index, 'quantity'] },
    });
  });
}
