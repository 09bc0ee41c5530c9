/** Finished ware that nobody has put a price on. */
import type { Book, Day, Lot, Product } from '../../book.ts';
import { recordsNaming } from '../../among.ts';
import { inForce } from '../../in-force.ts';
import { findEach, keySpot } from '../finding.ts';
import { onDay, type Rule } from '../rule.ts';

export const priceMissing: Rule = {
  name: 'price-missing',
  severity: 'warning',
  about: 'A product has finished ware, but neither it nor the lot has a price.',
  looks: [
    onDay({ products: 'all', pieces: 'all', firings: 'all' }, (book, { day }) => {
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
    }),
  ],
};

type WareBook = Pick<Book, 'products' | 'pieces' | 'firings'>;

/** Product id → its first finished lot that has no price, of products without one on the day. */
function finishedWithoutPrice(book: WareBook, day: Day): ReadonlyMap<string, Lot> {
  const products = [...book.products.values()].filter((each) => !hasPrice(inForce(each, day)));
  const waiting = new Map<string, Lot>();
  if (products.length === 0) return waiting;
  const ids = new Set(products.map(({ id }) => id));
  const lots = [...recordsNaming(book.pieces, ids)].filter(
    ({ product, price }) => price === undefined && ids.has(product),
  );
  const finished = finishedLots(book, lots);
  for (const lot of lots) {
    const known = waiting.get(lot.product);
    if (known !== undefined && known.date <= lot.date) continue;
    if (finished.has(lot)) waiting.set(lot.product, lot);
  }
  return waiting;
}

function hasPrice({ price, wholesale }: Product): boolean {
  return price !== undefined || wholesale !== undefined;
}

/** Those of which something came out of the last firing of their product. */
function finishedLots(book: WareBook, all: readonly Lot[]): ReadonlySet<Lot> {
  const named = new Map(all.map((lot) => [lot.id, lot]));
  const finished = new Set<Lot>();
  for (const { kind, load } of recordsNaming(book.firings, new Set(named.keys()))) {
    const out = load.filter(({ first = 0, second = 0 }) => first + second > 0);
    const lots = out.flatMap(({ lot = '' }) => named.get(lot) ?? []);
    lots.filter((lot) => kind === lastFiring(book, lot)).forEach((lot) => finished.add(lot));
  }
  return finished;
}

function lastFiring({ products }: WareBook, { product, date }: Lot): string | undefined {
  const fired = inForce(products.get(product), date)?.fired;
  return fired === undefined ? 'glaze' : fired.at(-1);
}
