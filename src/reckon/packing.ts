/** Packing that goes out with what a sale sells; none comes back with what is returned. */
import type { Product, Sale, SaleLine } from '../book.ts';
import { measureOf } from '../number/measure.ts';
import type { Money } from '../number/money.ts';
import { drawTogether, type Part } from './draw-together.ts';
import type { Store } from './stock.ts';

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  if (!sale.lines.some((line) => packingOf(store, line))) return [];
  const wanted = sale.lines.map((_, index) => partsOf(store, sale, index));
  return drawTogether(store, { day: sale.date, reason: 'packing', by: sale.id }, wanted);
}

function packingOf({ book }: Store, { product = '', returned }: SaleLine): Product['packing'] {
  return returned === 'yes' ? undefined : book.products.get(product)?.packing;
}

function partsOf(store: Store, sale: Sale, index: number): Part[] {
  const line = sale.lines[index];
  const packing = line && packingOf(store, line);
  if (!packing) return [];
  const at = { file: sale.file, path: [sale.id, 'lines', index] };
  return packing.map(({ material, each }) => ({
    pool: material,
    quantity: measureOf(each, line.count),
    unit: each.unit,
    at,
  }));
}
