/** Packing that goes out with what is sold, day by day. */
import type { Book, Day, Sale, SaleLine } from '../book.ts';
import type { Spot } from '../problem.ts';
import { ZERO, decimal, portion, sum, type Decimal } from '../number/decimal.ts';
import type { Unit } from '../number/unit.ts';
import { draw, type Store } from './stock.ts';

/** Pieces of one product sold on one day, and what was drawn to pack them. */
export interface PackedProduct {
  count: number;
  readonly sale: string;
  readonly at: Spot;
  readonly shares: DrawShare[];
  /** How many of the pieces the day's sale lines have been given their packing for. */
  given: number;
}

/** Product → pieces packed that day. */
export type PackedDay = Map<string, PackedProduct>;

/** A product's part of one draw: from what is before it in the draw on, so much. */
interface DrawShare {
  readonly draw: { readonly value: Decimal; readonly quantity: Decimal };
  readonly before: Decimal;
  readonly quantity: Decimal;
}

/** The packing of some pieces of a product and day, from the given one on. */
export interface PackedSlice {
  readonly packed: PackedProduct;
  readonly from: number;
  readonly count: number;
}

interface Wrapping {
  readonly packed: PackedProduct;
  readonly quantity: Decimal;
  readonly unit: Unit;
}

/** What was sold each day up to the given one, by product, without what came back. */
export function packedDays(book: Book, asOf: Day): Map<Day, PackedDay> {
  const days = new Map<Day, PackedDay>();
  for (const sale of book.sales.values()) {
    if (sale.date <= asOf) addSale(book, days, sale);
  }
  return days;
}

/** Draws the packing of one day, material by material in the order of their ids. */
export function drawPacking(store: Store, day: Day, packed: PackedDay): void {
  const wrappings = wrappingsOf(store.book, packed);
  for (const key of [...wrappings.keys()].sort()) {
    drawMaterial(store, day, {
      material: key.split(' ')[0] ?? key,
      lines: wrappings.get(key) ?? [],
    });
  }
}

/** The packing of one sale line; undefined where there is none. */
export function packedSlice(day: PackedDay | undefined, line: SaleLine): PackedSlice | undefined {
  if (line.product === undefined || line.returned === 'yes') return undefined;
  const packed = day?.get(line.product);
  if (!packed) return undefined;
  const slice = { packed, from: packed.given, count: line.count };
  packed.given += line.count;
  return slice;
}

/**
 * What the packing of some pieces cost, in money: steps between running portions, so that the slices
 * of a day add up to what was drawn, exactly.
 */
export function packingCost({ packed, from, count }: PackedSlice): Decimal {
  const value = sum(packed.shares.map(shareValue));
  const whole = decimal(packed.count);
  const upTo = portion(value, decimal(from + count), whole);
  return upTo.minus(portion(value, decimal(from), whole));
}

function shareValue({ draw: { value, quantity: whole }, before, quantity }: DrawShare): Decimal {
  return portion(value, before.plus(quantity), whole).minus(portion(value, before, whole));
}

function addSale(book: Book, days: Map<Day, PackedDay>, sale: Sale): void {
  sale.lines.forEach((line, index) => {
    const product = line.product === undefined ? undefined : book.products.get(line.product);
    if (!product?.packing || line.returned === 'yes') return;
    const at = { file: sale.file, path: [sale.id, 'lines', index] };
    addPieces(days, { day: sale.date, product: product.id, sale: sale.id, at, count: line.count });
  });
}

function addPieces(
  days: Map<Day, PackedDay>,
  sold: { day: Day; product: string; sale: string; at: Spot; count: number },
): void {
  const day: PackedDay = days.get(sold.day) ?? new Map<string, PackedProduct>();
  days.set(sold.day, day);
  const { product, sale, at, count } = sold;
  const packed = day.get(product);
  if (packed) packed.count += count;
  else day.set(product, { count, sale, at, shares: [], given: 0 });
}

/** By material and unit, so that every draw is in one unit. */
function wrappingsOf(book: Book, day: PackedDay): Map<string, Wrapping[]> {
  const wrappings = new Map<string, Wrapping[]>();
  for (const [id, packed] of day) {
    for (const { material, each } of book.products.get(id)?.packing ?? []) {
      const key = `${material} ${each.unit}`;
      const lines = wrappings.get(key) ?? [];
      lines.push({ packed, quantity: each.value.times(decimal(packed.count)), unit: each.unit });
      wrappings.set(key, lines);
    }
  }
  return wrappings;
}

function drawMaterial(
  store: Store,
  day: Day,
  { material, lines }: { material: string; lines: readonly Wrapping[] },
): void {
  const first = lines[0];
  if (!first) return;
  const quantity = sum(lines.map((line) => line.quantity));
  const { packed, unit } = first;
  const reason = 'packing';
  const wanted = {
    pool: material,
    quantity,
    unit,
    day,
    reason,
    by: packed.sale,
    at: packed.at,
  } as const;
  const drawn = { value: draw(store, wanted), quantity };
  let before = ZERO;
  for (const line of lines) {
    line.packed.shares.push({ draw: drawn, before, quantity: line.quantity });
    before = before.plus(line.quantity);
  }
}
