/** The price of a piece on a label or on a list. */
import type { ConsignedLine, Day, NamedBook } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Decimal } from '../../number/decimal.ts';

/** The line's own price, else that of its lot, else the product's of that day for its grade; undefined for none. */
export function warePrice(
  book: NamedBook,
  { product: id, lot, grade, price }: ConsignedLine,
  day: Day,
): Decimal | undefined {
  const product = inForce(book.products.get(id), day);
  if (grade === 'second') return price ?? product?.second;
  return price ?? book.pieces.get(lot ?? '')?.price ?? product?.price;
}
