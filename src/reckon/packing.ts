/** Packing that goes out with what a sale sells; none comes back with what is returned. */
import type { Day, Sale, SaleLine } from '../book.ts';
import { inForce } from '../in-force.ts';
import { measureOf } from '../number/measure.ts';
import type { Money } from '../number/money.ts';
import { drawTogether, type DrawHead, type Part } from './draw-together.ts';
import type { Store } from './stock.ts';

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  const wanted: Part[] = [];
  sale.lines.forEach((line, at) => wanted.push(...partsOf(store, sale.date, { line, at })));
  if (wanted.length === 0) return [];
  const { id, file, date, lines } = sale;
  const head: DrawHead = {
    day: date,
    reason: 'packing',
    by: id,
    lines: lines.length,
    at: (line) => ({ file, path: [id, 'lines', line] }),
  };
  return drawTogether(store, head, wanted);
}

function partsOf(
  { book }: Store,
  day: Day,
  { line, at }: { readonly line: SaleLine; readonly at: number },
): Part[] {
  const { product = '', returned, count } = line;
  if (returned === 'yes') return [];
  const { packing = [] } = inForce(book.products.get(product), day) ?? {};
  return packing.map(({ material, each }) => ({
    pool: material,
    quantity: measureOf(each, count),
    unit: each.unit,
    line: at,
  }));
}
