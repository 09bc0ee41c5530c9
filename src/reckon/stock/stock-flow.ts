/** What the book's events do to the pools of materials and glazes, and stock as they leave it. */
import type {
  Book,
  Bought,
  BoughtLine,
  Counted,
  Lot,
  Mixed,
  Reclaimed,
  Sale,
  Used,
} from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Spot } from '../../problem.ts';
import { measureOf } from '../../number/measure.ts';
import { type Money, NO_MONEY, less, shareOut, total } from '../../number/money.ts';
import { drawTogether, partOf, type DrawPart } from './draw-together.ts';
import { isOpening } from './opening.ts';
import { type WeighedMix, versionOn, weighOut } from './recipe.ts';
import { BUCKET_UNIT, type Store, countPool, draw, receive, drawOf } from './stock.ts';
import { type Decimal, ZERO, integersOf } from '../../number/decimal.ts';
import { convert } from '../../number/unit.ts';
import { booked } from '../booked.ts';

/** Takes the lines of a purchase into stock, at what they cost with freight, tax and discount. */
export function receiveBought(store: Store, bought: Bought): void {
  const landed = store.isValued ? landedCosts(store.book, bought) : [];
  bought.lines.forEach((line, index) => {
    const goods = drawOf(bought, line, { reason: 'bought', path: ['lines', index] });
    receive(store, goods, landed[index] ?? NO_MONEY);
  });
}

/** Takes reclaimed clay into stock; it costs nothing. */
export function receiveReclaimed(store: Store, reclaimed: Reclaimed): void {
  const goods = drawOf(reclaimed, reclaimed, { reason: 'reclaimed', path: ['quantity'] });
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
  const parts = weighed.parts.map(({ material, weight }): DrawPart => ({
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
  const wanted = drawOf(used, used, { reason: 'used', path: ['quantity'] });
  draw(store, { ...wanted, for: used.for ?? 'studio' });
}

/** Sets materials to what a stocktake counted. */
export function countMaterials(store: Store, counted: Counted): void {
  (counted.materials ?? []).forEach((line, index) => {
    if (isOpening(line)) return;
    const path = ['materials', index, 'quantity'];
    countPool(store, drawOf(counted, line, { reason: 'counted', path }));
  });
}

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  const { id, file, date, lines } = sale;
  const wanted = lines.flatMap(({ product = '', returned, count }, line) => {
    if (returned === 'yes') return [];
    const { packing = [] } = inForce(store.book.products.get(product), date) ?? {};
    return packing.map(({ material, each }) => partOf(material, each, { line, count }));
  });
  if (wanted.length === 0) return [];
  const at = (line: number): Spot => ({ file, path: [id, 'lines', line] });
  const head = { day: date, reason: 'packing', by: id, lines: lines.length, at } as const;
  return drawTogether(store, head, wanted);
}

/**
 * Landed cost of each line: line cost + its share of freight + tax − discount, each shared by itself by
 * the lines' cost, freight by weight where the purchase says so; the lines add up to the invoice.
 * By weight a line without a weight bears no freight; where no line has one, each bears the same.
 */
export function landedCosts(book: Pick<Book, 'studio'>, bought: Bought): Money[] {
  const costs = bought.lines.map((line) => booked(book, line.cost));
  if (!bought.freight && !bought.tax && !bought.discount) return costs;
  const freight = shareOut(booked(book, bought.freight), freightWeights(bought) ?? costs);
  const tax = shareOut(booked(book, bought.tax), costs);
  const discount = shareOut(booked(book, bought.discount), costs);
  return costs.map((cost, at) =>
    less(total([cost, freight[at] ?? NO_MONEY, tax[at] ?? NO_MONEY]), discount[at] ?? NO_MONEY),
  );
}

/** What a whole line weighs in g: its own weight where it says one, else its quantity. */
export function gramsOf({ quantity, weight = quantity }: BoughtLine): Decimal | undefined {
  return convert(weight.value, weight.unit, 'g');
}

function freightWeights(bought: Bought): bigint[] | undefined {
  if (bought.shareFreightBy !== 'weight') return undefined;
  return integersOf(bought.lines.map((line) => gramsOf(line) ?? ZERO));
}
