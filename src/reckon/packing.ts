/** Packing that goes out with what a sale sells; none comes back with what is returned. */
import type { Sale } from '../book.ts';
import { measureOf } from '../number/measure.ts';
import type { Money } from '../number/money.ts';
import { drawTogether, type Part } from './draw-together.ts';
import type { Store } from './stock.ts';

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  const wanted = sale.lines.map((_, index) => packingOf(store, sale, index));
  if (wanted.every((parts) => parts.length === 0)) return [];
  return drawTogether(store, { day: sale.date, reason: 'packing', by: sale.id }, wanted);
}

function packingOf({ book }: Store, sale: Sale, index: number): Part[] {
  const line = sale.lines[index];
  if (!line || line.returned === 'yes') return [];
  const at = { file: sale.file, path: [sale.id, 'lines', index] };
  const packing = book.products.get(line.product ?? '')?.packing ?? [];
  return packing.map(({ material, each }) => ({
    pool: material,
    quantity: measureOf(each, line.count),
    unit: each.unit,
    at,
  }));
}
