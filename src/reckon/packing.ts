/** Packing that goes out with what is sold, day by day. */
import type { Book, Day, Sale, SaleLine } from '../book.ts';
import type { Spot } from '../problem.ts';
import { ZERO, decimal, portions, sum, type Decimal } from '../number/decimal.ts';
import type { Unit } from '../number/unit.ts';
import { batchOf, takeSlice, type Batch, type Slice } from './batch.ts';
import { draw, type Store } from './stock.ts';

/** Pieces of one product sold on one day; `value` is what their packing cost once it was drawn. */
export interface PackedProduct {
  count: number;
  value: Decimal;
  readonly sale: string;
  readonly at: Spot;
}

/** Product → pieces packed that day. */
export type PackedDay = Map<string, PackedProduct>;

interface Wrapping {
  readonly product: PackedProduct;
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

/**
 * Draws the packing of one day, material by material in the order of their ids; each product gets its
 * share of the value by what it takes.
 */
export function drawPacking(store: Store, day: Day, packed: PackedDay): void {
  const wrappings = wrappingsOf(store.book, packed);
  for (const material of [...wrappings.keys()].sort()) {
    drawMaterial(store, day, { material, lines: wrappings.get(material) ?? [] });
  }
}

/** Product → its packing of that day, to be taken line by line. */
export type WrappedDay = ReadonlyMap<string, Batch>;

/** The packing of all days, by day and product. */
export function wrapDays(days: ReadonlyMap<Day, PackedDay>): Map<Day, WrappedDay> {
  const wrapped = new Map<Day, WrappedDay>();
  for (const [day, packed] of days) {
    const batches = [...packed].map(
      ([id, { count, value }]) => [id, batchOf(count, { packing: value })] as const,
    );
    wrapped.set(day, new Map(batches));
  }
  return wrapped;
}

/** The packing of one sale line; undefined where there is none. */
export function packedSlice(wrapped: WrappedDay | undefined, line: SaleLine): Slice | undefined {
  if (line.product === undefined || line.returned === 'yes') return undefined;
  const batch = wrapped?.get(line.product);
  return batch && takeSlice(batch, line.count);
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
  const packed: PackedDay = days.get(sold.day) ?? new Map<string, PackedProduct>();
  days.set(sold.day, packed);
  const line = packed.get(sold.product);
  if (line) line.count += sold.count;
  else packed.set(sold.product, { count: sold.count, value: ZERO, sale: sold.sale, at: sold.at });
}

function wrappingsOf(book: Book, packed: PackedDay): Map<string, Wrapping[]> {
  const wrappings = new Map<string, Wrapping[]>();
  for (const [id, product] of packed) {
    for (const { material, each } of book.products.get(id)?.packing ?? []) {
      const lines = wrappings.get(material) ?? [];
      lines.push({ product, quantity: each.value.times(decimal(product.count)), unit: each.unit });
      wrappings.set(material, lines);
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
  const alike = lines.filter((line) => line.unit === first.unit);
  const value = draw(store, {
    pool: material,
    quantity: sum(alike.map((line) => line.quantity)),
    unit: first.unit,
    day,
    reason: 'packing',
    by: first.product.sale,
    at: first.product.at,
  });
  const shares = portions(
    value,
    alike.map((line) => line.quantity),
  );
  alike.forEach((line, index) => {
    line.product.value = line.product.value.plus(shares[index] ?? ZERO);
  });
  drawMaterial(store, day, { material, lines: lines.filter((line) => line.unit !== first.unit) });
}
