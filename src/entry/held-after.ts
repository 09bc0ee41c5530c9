/** What is held once a sale at the end of the book has taken its pieces and its packing. */
import type { Book, Product, Sale } from '../book.ts';
import { ZERO, decimal, type Decimal } from '../number/decimal.ts';
import { convert, type Quantity, type Unit } from '../number/unit.ts';
import { IN_THE_STUDIO, finishedName, type Holdings } from './held.ts';

/** What is held at the end of the book. */
export interface EndState {
  readonly held: Holdings;
  /** What a stocktake of the sale's day counts, as it was before it: that counts after the sale. */
  readonly uncounted: Holdings;
}

/**
 * The same after a sale from the studio, every line of which is of a product. What a stocktake has
 * counted stays as it was counted. Undefined where there is too little of anything, or where it can't
 * be said to the last digit what the packing comes to in the unit that it is kept in.
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
    [...packing].every(([id, quantity]) => decimal(stock.get(id) ?? '0').gte(quantity)) &&
    // Where none were left, what the stocktake finds would go to a lot that may lie elsewhere.
    [...pieces].every(([name, count]) => {
      const counted = before.get(name);
      return counted === undefined ? (there.get(name) ?? 0) >= count : counted > count;
    })
  );
}

function piecesIn({ lines }: Sale): ReadonlyMap<string, number> {
  const sold = new Map<string, number>();
  for (const { product = '', grade = 'first', count } of lines) {
    const name = finishedName(product, grade, IN_THE_STUDIO);
    sold.set(name, (sold.get(name) ?? 0) + count);
  }
  return sold;
}

/** What a sale takes of each packing material, in the material's own unit. */
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
    const one = inUnit(each, units.get(material));
    if (!one) return undefined;
    used.set(material, (used.get(material) ?? ZERO).plus(one.times(decimal(count))));
  }
  return used;
}

function packingOf(product: Product | undefined): NonNullable<Product['packing']> {
  return product?.packing ?? [];
}

/** So many decimals no conversion has that never ends, but by chance once in a hundred million. */
const CERTAIN_DECIMALS = 16;

// A day's packing is converted as a whole: only what needs no rounding comes to the same bit by bit.
function inUnit({ value, unit }: Quantity, to: Unit | undefined): Decimal | undefined {
  const converted = to === undefined ? undefined : convert(value, unit, to);
  if (to === unit || converted === undefined) return converted;
  return converted.decimalPlaces() > CERTAIN_DECIMALS ? undefined : converted;
}
