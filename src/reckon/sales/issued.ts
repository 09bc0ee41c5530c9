/** What became of invoices that have a number: what is on them is not to change any more. */
import type { Book, Sale } from '../../book.ts';
import { billOf } from './bill.ts';
import { isLastNumber, numberedSales } from './invoice-numbers.ts';

/** An invoice that is another now than it was. */
export interface InvoiceMoved {
  readonly sale: Sale;
  readonly number: string;
  readonly became: 'removed' | 'numbered otherwise' | 'changed';
  /** Whether it has the last number of its series. */
  readonly isLast: boolean;
}

/**
 * The numbered sales of a book that are gone from another one, have another number there, or come to
 * another bill. The last number of a series may be taken out again, and of two that are the same one
 * may become another.
 */
export function invoicesMoved(before: Book, after: Book): InvoiceMoved[] {
  const numbered = numberedSales(before);
  return numbered.flatMap(({ sale, number, series, count }) => {
    const isLast = isLastNumber(numbered, sale);
    const isOnce = !numbered.some(
      (each) => each.sale !== sale && each.series === series && each.count === count,
    );
    const now = after.sales.get(sale.id);
    const moved = (became: InvoiceMoved['became']): InvoiceMoved[] => [
      { sale, number, became, isLast },
    ];
    if (!now) return moved('removed');
    if (now.number !== number && isOnce && !(isLast && now.number === undefined))
      return moved('numbered otherwise');
    const isFree = now.number === undefined;
    return isFree || billText(before, sale) === billText(after, now) ? [] : moved('changed');
  });
}

/** All that is on a bill, but for the words for the buyer and what a gallery keeps. */
function billText(book: Book, sale: Sale): string {
  const bill = billOf(book, sale);
  const { lines, subtotal, discount: off, shipping, tax, total, paidAhead } = bill;
  const texts = lines.map(({ line, amount, discount }) => {
    const { product, class: taught, for: words, glaze, grade, count } = line;
    return [product, taught, words, glaze, grade, count, amount, discount];
  });
  return JSON.stringify(
    [sale.date, texts, subtotal, off, shipping, tax, total, paidAhead],
    (_key, value: unknown) => (typeof value === 'bigint' ? String(value) : value),
  );
}
