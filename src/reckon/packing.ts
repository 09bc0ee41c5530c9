/** Packing that goes out with what a sale sells; none comes back with what is returned. */
import type { Sale, SaleLine } from '../book.ts';
import { measureOf } from '../number/measure.ts';
import type { Money } from '../number/money.ts';
import { drawTogether, type DrawHead, type Part } from './draw-together.ts';
import type { Store } from './stock.ts';

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  const wanted: Part[] = [];
  sale.lines.forEach((line, at) => wanted.push(...partsOf(store, line, at)));
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

function partsOf(store: Store, { product = '', returned, count }: SaleLine, line: number): Part[] {
  const packing = returned === 'yes' ? undefined : store.book.products.get(product)?.packing;
  return (packing ?? []).map(({ material, each }) => ({
    pool: material,
    quantity: measureOf(each, count),
    unit: each.unit,
    line,
  }));
}
