/** The tax of a sale by the rate of its place (rule 22), and what is said of a line's tax. */
import type { Book, Sale, SaleLine } from '../../src/book.ts';
import { R, exact, fraction, times } from './fraction.ts';
import { moneyIn } from './money.ts';
import { channelOn, classOn, productOn } from './on-day.ts';

/** What is said of a line's tax before its place is asked: by itself, its channel, its product or class. */
export function wordOn(book: Book, sale: Sale, line: SaleLine): 'yes' | 'no' | undefined {
  const channel = channelOn(book, sale.channel, sale.date)?.taxed === 'no' ? 'no' : undefined;
  const product = productOn(book, line.product, sale.date)?.taxed;
  return line.taxed ?? channel ?? product ?? classOn(book, line.class, sale.date)?.taxed;
}

function kindOf({ product, class: taught, for: words = '' }: SaleLine): string {
  if (product !== undefined) return 'ware';
  if (taught !== undefined) return 'classes';
  const all = words.toLowerCase().split(/[^a-z0-9_]+/);
  return all.some((word) => ['firing', 'firings', 'kiln', 'kilns'].includes(word))
    ? 'firing'
    : 'other';
}

/**
 * Sold less back, from what each line comes to after all discounts; undefined where no tax is to be
 * written.
 * @param after of each line, a positive amount of its side
 */
export function taxByPlace(book: Book, sale: Sale, after: readonly bigint[]): bigint | undefined {
  const channel = channelOn(book, sale.channel, sale.date);
  const place = sale.taxPlace ?? channel?.taxPlace;
  const [rate] = (book.studio.taxes ?? [])
    .filter((each) => each.place === place && each.from <= sale.date)
    .sort((a, b) => (a.from < b.from ? 1 : -1));
  if (!rate || channel?.taxIncluded || book.studio.salesTax === 'none') return undefined;
  const { taxes = ['ware'] } = rate;
  const sides: Record<'sold' | 'back', bigint[]> = { sold: [], back: [] };
  sale.lines.forEach((line, at) => {
    const byPlace = taxes.some((kind) => kind === kindOf(line)) ? 'yes' : 'no';
    if ((wordOn(book, sale, line) ?? byPlace) === 'no') return;
    sides[line.returned === 'yes' ? 'back' : 'sold'].push(after[at] ?? 0n);
  });
  const shipping = moneyIn(book, sale.shipping);
  if (shipping !== 0n && taxes.includes('shipping') && channel?.taxed !== 'no') {
    const isBack = sale.lines.every(({ returned }) => returned === 'yes');
    sides[isBack ? 'back' : 'sold'].push(shipping);
  }
  if (sides.sold.length + sides.back.length === 0) return undefined;
  const on = (amounts: readonly bigint[]): bigint => {
    const whole = amounts.reduce((sum, each) => sum + each, 0n);
    const parts = rate.by === 'line' ? amounts : [whole];
    return parts.reduce((sum, part) => sum + R(times(fraction(part), exact(rate.percent))), 0n);
  };
  return on(sides.sold) - on(sides.back);
}
