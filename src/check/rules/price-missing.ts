/** Finished ware that nobody has put a price on. */
import type { Book, Day, Lot, Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { findEach, keySpot } from '../finding.ts';
import { loadsOf } from '../across.ts';
import type { Rule } from '../rule.ts';

export const priceMissing: Rule = {
  name: 'price-missing',
  severity: 'warning',
  about: 'A product has finished ware, but neither it nor the lot has a price.',
  find: (book, day) => {
    const waiting = finishedWithoutPrice(book, day);
    return findEach(book.products, (product, say) => {
      const lot = waiting.get(product.id);
      if (lot === undefined) return;
      say({
        at: keySpot(product),
        message: `${product.id} has finished ware and no price`,
        hint: 'add a price to the product, or to the lot if it is a one-off',
        related: [{ at: keySpot(lot), message: 'the first lot of it' }],
      });
    });
  },
};

/** Product id → its first finished lot that has no price, of products without one on the day. */
function finishedWithoutPrice(book: Book, day: Day): ReadonlyMap<string, Lot> {
  const waiting = new Map<string, Lot>();
  for (const lot of book.pieces.values()) {
    const product = book.products.get(lot.product);
    if (product === undefined || hasPrice(inForce(product, day)) || lot.price !== undefined)
      continue;
    const known = waiting.get(product.id);
    if (known !== undefined && known.date <= lot.date) continue;
    if (isFinished(book, lot, inForce(product, lot.date))) waiting.set(product.id, lot);
  }
  return waiting;
}

function hasPrice({ price, wholesale }: Product): boolean {
  return price !== undefined || wholesale !== undefined;
}

function isFinished(book: Book, lot: Lot, product: Product): boolean {
  const last = product.fired === undefined ? 'glaze' : product.fired.at(-1);
  return (loadsOf(book).get(lot.id) ?? []).some(
    ({ firing, line }) => firing.kind === last && (line.first ?? 0) + (line.second ?? 0) > 0,
  );
}
