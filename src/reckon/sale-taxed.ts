/** What of a sale its tax is on: which lines, and whether the shipping. */
import type { NamedBook, Sale } from '../book.ts';
import { NO_MONEY, opposite, total, type Money } from '../number/money.ts';
import type { LineMoney, SaleMoney } from './sale-money.ts';
import { channelOf, placeOfTax, rateOn, saidOf, taxedKindOf, taxesKind } from './taxed.ts';

/** Of what the lines come to, and of the shipping, what tax was collected on; nothing where none was. */
export interface TaxedPart {
  readonly taxed: Money;
  readonly taxedShipping: Money;
}

/** What the tax of a sale is on. */
export function taxedPart(book: NamedBook, sale: Sale, money: SaleMoney): TaxedPart {
  if (money.tax === NO_MONEY) return { taxed: NO_MONEY, taxedShipping: NO_MONEY };
  return {
    taxed: netOfLines(taxedLines(book, sale, money.lines)),
    taxedShipping: isOnShipping(book, sale) ? money.shipping : NO_MONEY,
  };
}

/** What lines come to after discounts, what came back taken off. */
export function netOfLines(lines: readonly Pick<LineMoney, 'net' | 'returned'>[]): Money {
  return total(lines.map(({ net, returned }) => (returned ? opposite(net) : net)));
}

/**
 * The lines that the tax of a sale is on, by what the records and the entry of the place on that day
 * say; a tax that none of them explains is on all lines.
 */
function taxedLines(
  book: NamedBook,
  sale: Sale,
  lines: readonly LineMoney[],
): readonly LineMoney[] {
  const rate = channelOf(book, sale)?.taxIncluded
    ? undefined
    : rateOn(book, placeOfTax(book, sale), sale.date);
  const taxed = lines.filter(({ line }) => {
    const said = saidOf(book, sale, line);
    return said === undefined ? !rate || taxesKind(rate, taxedKindOf(line)) : said === 'yes';
  });
  return taxed.length === 0 && !isOnShipping(book, sale) ? lines : taxed;
}

function isOnShipping(book: NamedBook, sale: Sale): boolean {
  const { taxIncluded, taxInShipping, taxed } = channelOf(book, sale) ?? {};
  if (sale.shipping === undefined || taxed === 'no') return false;
  if (taxIncluded) return taxInShipping !== 'no';
  const rate = rateOn(book, placeOfTax(book, sale), sale.date);
  return rate !== undefined && taxesKind(rate, 'shipping');
}
