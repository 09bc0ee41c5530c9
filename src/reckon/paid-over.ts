/** Collected sales tax that is paid over to its place. */
import type { Book, Spent } from '../book.ts';

/** The category of payments of sales tax, unless a studio has one of its own by that name. */
export const SALES_TAX = 'sales-tax';

/**
 * Whether a record pays collected sales tax over: neither income nor an expense (IRS Publication 583,
 * sample record system).
 */
export function isPaidOver(
  { studio }: Pick<Book, 'studio'>,
  { for: category }: Pick<Spent, 'for'>,
): boolean {
  return category === SALES_TAX && studio.categories?.[SALES_TAX] === undefined;
}
