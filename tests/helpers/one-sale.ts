/** A book of one sale, at channels of every way to take a fee, a commission and a tax. */
import { expect } from 'vitest';
import type { Book, Sale } from '../../src/book.ts';
import { bookFrom } from './book.ts';

const CHANNELS = `
shop: { name: Shop, kind: direct }
web: { name: Web, kind: online, fee-percent: 2.9%, fee-each: 0.30 }
gallery: { name: Gallery, kind: consignment, commission: 40% }
card: { name: Card gallery, kind: consignment, commission: 40%, fee-percent: 2.9% }
abroad: { name: Abroad, kind: direct, tax-included: 20% }
post: { name: Post, kind: online, tax-included: 20%, tax-in-shipping: no }
`;

/** The book with the sale of these fields, on 1 March 2025, and the sale itself. */
export function bookOfSale(sale: string): { readonly book: Book; readonly record: Sale } {
  const book = bookFrom({ channels: CHANNELS, sales: `s1: { date: 2025-03-01, ${sale} }` });
  const record: Sale = book.sales.get('s1') ?? expect.fail('no sale');
  return { book, record };
}
