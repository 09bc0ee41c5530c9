/** Finished ware that the potter kept, at what it sells for. */
import { recordsDuring } from '../../among.ts';
import type { Book, Lot, LotGone } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Span } from '../../number/date.ts';
import { NO_MONEY, times, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';

/** What was kept, with the lots that it is of. */
export interface KeptWare {
  readonly amount: Money;
  readonly behind: readonly string[];
}

/**
 * The price of the day: the lot's own, that of a second, or the product's; nothing where there is none.
 */
export function keptAtPrice(book: Book, { from, to }: Span): KeptWare {
  const kept = [...recordsDuring(book.pieces, { from, to })].flatMap((lot) =>
    (lot.gone ?? [])
      .filter(({ how, date }) => how === 'kept' && date >= from && date <= to)
      .map((gone) => ({ by: lot.id, amount: times(priceOf(book, lot, gone), gone.count) })),
  );
  return {
    amount: total(kept.map(({ amount }) => amount)),
    behind: [...new Set(kept.map(({ by }) => by))].sort(),
  };
}

function priceOf(book: Book, lot: Lot, { date, grade }: LotGone): Money {
  const { price, second } = inForce(book.products.get(lot.product), date) ?? {};
  const asked = lot.price ?? (grade === 'second' ? (second ?? price) : price);
  return asked === undefined ? NO_MONEY : booked(book, asked);
}
