/** What is held once a sale at the end of the book has taken its pieces and its packing. */
import type { Book, Product, Sale } from '../book.ts';
import { ZERO, decimal, type Decimal } from '../number/decimal.ts';
import { dimensionOf, inBase, type Quantity, type Unit } from '../number/unit.ts';
import { TRACE } from '../reckon/pool.ts';
import { IN_THE_STUDIO, finishedName, type Holdings } from './held.ts';

/** What is held at the end of the book. */
export interface EndState {
  readonly held: Holdings;
  /** What a stocktake of the sale's day counts, as it was before it: that counts after the sale. */
  readonly uncounted: Holdings;
}

/**
 * The same after a sale from the studio, every line of which is of a product. What a stocktake has
 * counted stays as it was counted. Undefined where there is too little of anything, or where no more than
 * a trace of the packing would be left, which goes with it.
 * @param book has the products and the materials that the sale may name
 */
export function heldAfter(
  { held, uncounted }: EndState,
  book: Book,
  sale: Sale,
): EndState | undefined {
  const units = new Map(held.stock.map(([id, unit]) => [id, unit]));
  const packing = packingFor(book, sale, units);
  const wanted = packing && { pieces: piecesIn(sale), packing };
  if (!wanted || !isEnough({ held, uncounted }, wanted)) return undefined;
  const isSettled = namesIn(uncounted);
  return {
    held: without(held, wanted, (name) => !isSettled.has(name)),
    uncounted: without(uncounted, wanted, () => true),
  };
}

/** What a sale takes, by the names of the holdings. */
interface Wanted {
  readonly pieces: ReadonlyMap<string, number>;
  readonly packing: ReadonlyMap<string, Decimal>;
}

function namesIn({ stock, pieces }: Holdings): ReadonlySet<string> {
  return new Set([...stock, ...pieces].map(([name]) => name));
}

function without(
  { stock, pieces }: Holdings,
  wanted: Wanted,
  isTaken: (name: string) => boolean,
): Holdings {
  return {
    stock: stock.map(([id, unit, text]) => {
      const used = isTaken(id) ? wanted.packing.get(id) : undefined;
      return [id, unit, used ? decimal(text).minus(used).toString() : text];
    }),
    pieces: pieces.map(([name, count]) => [
      name,
      isTaken(name) ? count - (wanted.pieces.get(name) ?? 0) : count,
    ]),
  };
}

function isEnough({ held, uncounted }: EndState, { pieces, packing }: Wanted): boolean {
  const stock = new Map([...held.stock, ...uncounted.stock].map(([id, , text]) => [id, text]));
  const there = new Map(held.pieces);
  const before = new Map(uncounted.pieces);
  return (
    [...packing].every(([id, quantity]) =>
      isPlain(decimal(stock.get(id) ?? '0').minus(quantity)),
    ) &&
    // Where none were left, what the stocktake finds would go to a lot that may lie elsewhere.
    [...pieces].every(([name, count]) => {
      const counted = before.get(name);
      return counted === undefined ? (there.get(name) ?? 0) >= count : counted > count;
    })
  );
}

/** What is left of a pool that a plain draw is taken from. */
function isPlain(left: Decimal): boolean {
  return left.isZero() || left.gte(TRACE);
}

function piecesIn({ lines }: Sale): ReadonlyMap<string, number> {
  const sold = new Map<string, number>();
  for (const { product = '', grade = 'first', count } of lines) {
    const name = finishedName(product, grade, IN_THE_STUDIO);
    sold.set(name, (sold.get(name) ?? 0) + count);
  }
  return sold;
}

/** What a sale takes of each packing material, in the base unit; undefined where it measures another thing. */
function packingFor(
  book: Book,
  { lines }: Sale,
  units: ReadonlyMap<string, Unit>,
): ReadonlyMap<string, Decimal> | undefined {
  const used = new Map<string, Decimal>();
  const wraps = lines.flatMap(({ product = '', count }) =>
    packingOf(book.products.get(product)).map((wrap) => ({ ...wrap, count })),
  );
  for (const { material, each, count } of wraps) {
    const one = quantityIn(each, units.get(material));
    if (!one) return undefined;
    used.set(material, (used.get(material) ?? ZERO).plus(one.times(decimal(count))));
  }
  return used;
}

function packingOf(product: Product | undefined): NonNullable<Product['packing']> {
  return product?.packing ?? [];
}

function quantityIn({ value, unit }: Quantity, kept: Unit | undefined): Decimal | undefined {
  if (kept === undefined || dimensionOf(unit) !== dimensionOf(kept)) return undefined;
  return inBase(value, unit);
}
