/** What is asked about sales tax: nothing that follows by itself, and nothing of a studio that has none. */
import type { Book } from '../../book.ts';
import type { RawMap } from '../../read/raw.ts';
import { isPaidOver } from '../../reckon/paid.ts';
import { withSaleTax } from '../sale-tax.ts';
import type { Ground } from './ground.ts';

/** Whether an option makes sense with what the settings say of sales tax. */
export function asksForTax({ kind, opened }: Ground, name: string, fields: RawMap): boolean {
  const { book } = opened;
  if (kind === 'spent' && name === 'tax-place') return isPayment(book, fields);
  if (kind !== 'sales' || name !== 'tax') return true;
  return book.studio.salesTax !== 'none' && withSaleTax(book, fields) === fields;
}

function isPayment(book: Book, { for: category }: RawMap): boolean {
  return typeof category === 'string' && isPaidOver(book, { for: category });
}

/** The places that the settings and the channels name. */
export function taxPlaces({ studio, channels }: Book): readonly string[] {
  const named = [...channels.values()].flatMap(({ taxPlace }) => taxPlace ?? []);
  return [...new Set([...(studio.taxes ?? []).map(({ place }) => place), ...named])];
}
