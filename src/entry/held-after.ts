/** What is held once a sale at the end of the book has taken its pieces and its packing. */
import type { Book, Product, Sale } from '../book.ts';
import { inForce } from '../in-force.ts';
import {
  NO_QUANTITY,
  lessOf,
  measureKept,
  measureOf,
  sumOf,
  type Measure,
} from '../number/measure.ts';
import { dimensionOf, type Unit } from '../number/unit.ts';
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
  readonly packing: ReadonlyMap<string, Measure>;
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
      return [id, unit, used === undefined ? text : String(lessOf(measureKept(text), used))];
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
      isPlain(lessOf(measureKept(stock.get(id) ?? '0'), quantity)),
    ) &&
    // Where none were left, what the stocktake finds would go to a lot that may lie elsewhere.
    [...pieces].every(([name, count]) => {
      const counted = before.get(name);
      return counted === undefined ? (there.get(name) ?? 0) >= count : counted > count;
    })
  );
}

/** What is left of a pool that a plain draw is taken from. */
function isPlain(left: Measure): boolean {
  return left === NO_QUANTITY || left >= TRACE;
}

function piecesIn({ lines }: Sale): ReadonlyMap<string, number> {
  const sold = new Map<string, number>();
  for (const { product = '', grade = 'first', count } of lines) {
    const name = finishedName(product, grade, IN_THE_STUDIO);
    sold.set(name, (sold.get(name) ?? 0) + count);
  }
  return sold;
}

/** What a sale takes of each packing material; undefined where one is measured otherwise. */
function packingFor(
  book: Book,
  { date, lines }: Sale,
  units: ReadonlyMap<string, Unit>,
): ReadonlyMap<string, Measure> | undefined {
  const used = new Map<string, Measure>();
  const wraps = lines.flatMap(({ product = '', count }) =>
    packingOf(inForce(book.products.get(product), date)).map((wrap) => ({ ...wrap, count })),
  );
  for (const { material, each, count } of wraps) {
    const unit = units.get(material);
    if (unit === undefined || dimensionOf(unit) !== dimensionOf(each.unit)) return undefined;
    used.set(material, sumOf(used.get(material) ?? NO_QUANTITY, measureOf(each, count)));
  }
  return used;
}

function packingOf(product: Product | undefined): NonNullable<Product['packing']> {
  return product?.packing ?? [];
}
