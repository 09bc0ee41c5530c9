/** Finished ware that the potter kept, at what it sells for. */
import { recordsDuring } from '../../among.ts';
import type { Book, Lot, LotGone } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Span } from '../../number/date.ts';
import { NO_MONEY, times, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { broughtBy, type Brought } from '../brought.ts';

/** What was kept, with the lots that it is of. */
export interface WareForOneself {
  readonly amount: Money;
  readonly brought: Brought;
}

/**
 * The price of the day: the lot's own, that of a second, or the product's; nothing where there is none.
 */
export function keptAtPrice(book: Book, { from, to }: Span): WareForOneself {
  const kept = [...recordsDuring(book.pieces, { from, to })].flatMap((lot) =>
    (lot.gone ?? [])
      .filter(({ how, date }) => how === 'kept' && date >= from && date <= to)
      .map((gone) => [lot.id, times(priceOf(book, lot, gone), gone.count)] as const),
  );
  return { amount: total(kept.map(([, amount]) => amount)), brought: broughtBy(kept) };
}

function priceOf(book: Book, lot: Lot, { date, grade }: LotGone): Money {
  const { price, second } = inForce(book.products.get(lot.product), date) ?? {};
  const asked = lot.price ?? (grade === 'second' ? (second ?? price) : price);
  return asked === undefined ? NO_MONEY : booked(book, asked);
}
