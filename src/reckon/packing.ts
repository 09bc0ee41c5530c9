/** Packing that goes out with what is sold, day by day. */
import type { Book, Day, Product, Sale, SaleLine } from '../book.ts';
import type { Spot } from '../problem.ts';
import { ZERO, decimal, portion, sum, type Decimal } from '../number/decimal.ts';
import type { Unit } from '../number/unit.ts';
import { draw, type Store } from './stock.ts';

type Packing = NonNullable<Product['packing']>;

/** Pieces of one product sold on one day, and the first of its sales. */
export interface PackedProduct {
  readonly packing: Packing;
  count: number;
  readonly sale: string;
  readonly at: Spot;
  /** How many of the pieces the day's sale lines have been given their packing for. */
  given: number;
}

/** One day's sales that need packing, by product in the order of ids, and what was drawn for all of them. */
export interface PackedDay {
  products: Map<string, PackedProduct>;
  readonly draws: Map<string, PackingDraw>;
}

/** What was drawn of one material in one unit. */
interface PackingDraw {
  readonly material: string;
  readonly unit: Unit;
  first: PackedProduct;
  quantity: Decimal;
  value: Decimal;
}

/** The packing of some pieces of a product and day, from the given one on. */
export interface PackedSlice {
  readonly day: PackedDay;
  readonly packed: PackedProduct;
  readonly from: number;
  readonly count: number;
}

/** What was sold each day up to the given one, by product, without what came back. */
export function packedDays(book: Book, asOf: Day): Map<Day, PackedDay> {
  const days = new Map<Day, PackedDay>();
  for (const sale of book.sales.values()) {
    if (sale.date <= asOf) addSale(book, days, sale);
  }
  for (const day of days.values()) day.products = inOrderOfIds(day.products);
  return days;
}

function inOrderOfIds<T>(things: Map<string, T>): Map<string, T> {
  if (things.size < 2) return things;
  return new Map([...things].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Draws the packing of one day, material by material in the order of their ids. */
export function drawPacking(store: Store, day: Day, packedDay: PackedDay): void {
  for (const packed of packedDay.products.values()) addQuantities(packedDay.draws, packed);
  for (const key of [...packedDay.draws.keys()].sort()) {
    const drawn = packedDay.draws.get(key);
    if (drawn) drawn.value = drawFor(store, day, drawn);
  }
}

/** The packing of one sale line; undefined where there is none. */
export function packedSlice(day: PackedDay | undefined, line: SaleLine): PackedSlice | undefined {
  if (!day || line.product === undefined || line.returned === 'yes') return undefined;
  const packed = day.products.get(line.product);
  if (!packed) return undefined;
  const slice = { day, packed, from: packed.given, count: line.count };
  packed.given += line.count;
  return slice;
}

/**
 * What the packing of some pieces cost, in money: steps between running portions, so that the slices
 * of a day add up to what was drawn, exactly.
 */
export function packingCost({ day, packed, from, count }: PackedSlice): Decimal {
  const value = sum([...day.draws.values()].map((drawn) => shareOf(day, drawn, packed)));
  const whole = decimal(packed.count);
  const upTo = portion(value, decimal(from + count), whole);
  return upTo.minus(portion(value, decimal(from), whole));
}

/** A product's part of a draw: what is before it in the day's order takes its part first. */
function shareOf(day: PackedDay, drawn: PackingDraw, wanted: PackedProduct): Decimal {
  let before = ZERO;
  for (const packed of day.products.values()) {
    const upTo = before.plus(quantityFor(drawn, packed));
    if (packed === wanted) return stepOf(drawn, before, upTo);
    before = upTo;
  }
  return ZERO;
}

function stepOf({ value, quantity }: PackingDraw, before: Decimal, upTo: Decimal): Decimal {
  if (quantity.isZero()) return ZERO;
  return portion(value, upTo, quantity).minus(portion(value, before, quantity));
}

function quantityFor({ material, unit }: PackingDraw, { packing, count }: PackedProduct): Decimal {
  const lines = packing.filter((line) => line.material === material && line.each.unit === unit);
  return sum(lines.map((line) => line.each.value.times(decimal(count))));
}

function addSale(book: Book, days: Map<Day, PackedDay>, sale: Sale): void {
  sale.lines.forEach((line, index) => {
    const product = line.product === undefined ? undefined : book.products.get(line.product);
    if (!product?.packing || line.returned === 'yes') return;
    const { products } = dayOf(days, sale.date);
    const packed = products.get(product.id);
    if (packed) packed.count += line.count;
    if (packed && packed.sale <= sale.id) return;
    const { packing } = product;
    const count = packed?.count ?? line.count;
    const at = { file: sale.file, path: [sale.id, 'lines', index] };
    products.set(product.id, { packing, count, sale: sale.id, at, given: 0 });
  });
}

function dayOf(days: Map<Day, PackedDay>, date: Day): PackedDay {
  const known = days.get(date);
  if (known) return known;
  const day: PackedDay = { products: new Map(), draws: new Map() };
  days.set(date, day);
  return day;
}

/** By material and unit, so that every draw is in one unit. */
function addQuantities(draws: Map<string, PackingDraw>, packed: PackedProduct): void {
  const count = decimal(packed.count);
  for (const { material, each } of packed.packing) {
    const key = `${material} ${each.unit}`;
    const quantity = each.value.times(count);
    const drawn = draws.get(key);
    if (drawn) addToDraw(drawn, packed, quantity);
    else draws.set(key, { material, unit: each.unit, first: packed, quantity, value: ZERO });
  }
}

function addToDraw(drawn: PackingDraw, packed: PackedProduct, quantity: Decimal): void {
  drawn.quantity = drawn.quantity.plus(quantity);
  if (packed.sale < drawn.first.sale) drawn.first = packed;
}

function drawFor(
  store: Store,
  day: Day,
  { material, unit, first, quantity }: PackingDraw,
): Decimal {
  return draw(store, {
    pool: material,
    quantity,
    unit,
    day,
    reason: 'packing',
    by: first.sale,
    at: first.at,
  });
}
