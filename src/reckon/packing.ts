/** Packing that goes out with what a sale sells; none comes back with what is returned. */
import type { Product, Sale, SaleLine } from '../book.ts';
import { measureOf } from '../number/measure.ts';
import type { Money } from '../number/money.ts';
import { drawTogether, type DrawHead, type Part } from './draw-together.ts';
import type { Store } from './stock.ts';

/** Draws the packing of a sale, each material once, and returns what that of each line cost; none for none. */
export function drawPacking(store: Store, sale: Sale): Money[] {
  const packings = sale.lines.map((line) => packingOf(store, line));
  if (packings.every((packing) => packing === undefined)) return [];
  const { id, file, date } = sale;
  const head: DrawHead = {
    day: date,
    reason: 'packing',
    by: id,
    at: (line) => ({ file, path: [id, 'lines', line] }),
  };
  const wanted = sale.lines.map(({ count }, line) => partsOf(packings[line], count));
  return drawTogether(store, head, wanted);
}

function packingOf(store: Store, { product = '', returned }: SaleLine): Product['packing'] {
  return returned === 'yes' ? undefined : store.book.products.get(product)?.packing;
}

function partsOf(packing: Product['packing'], count: number): Part[] {
  return (packing ?? []).map(({ material, each }) => ({
    pool: material,
    quantity: measureOf(each, count),
    unit: each.unit,
  }));
}
