/** The sales tax of a sale by the rate of its place: fixed when the sale is written, never in a report. */
import type { NamedBook, PlaceRate, Sale } from '../../book.ts';
import {
  NO_MONEY,
  add,
  fractionOf,
  less,
  opposite,
  total,
  type Money,
} from '../../number/money.ts';
import { booked } from '../booked.ts';
import { dueLines, isBack, mainSide, type DueLine } from '../sales/sale-lines.ts';
import { channelOf, placeOfTax, rateOn, saidOf, taxedKindOf, taxesKind } from './taxed.ts';

/** What the rate of a place gives for one sale. */
export interface TaxByRate {
  readonly rate: PlaceRate;
  /** What is taxed of what is sold, and of what comes back: after discounts, shipping with it. */
  readonly sold: Money;
  readonly back: Money;
  /** As the field `tax` of the record has it: of a sale of returns alone what is given back. */
  readonly tax: Money;
}

/**
 * The tax of a sale by the rate that is in force at its place on its day: rounded once for each side, or
 * line by line where the place has it so. Undefined where there is no rate, where prices have the tax in
 * them, where nothing of the sale is taxed, or where the studio is not registered.
 */
export function taxByRate(book: NamedBook, sale: Sale): TaxByRate | undefined {
  const { salesTax, taxes } = book.studio;
  if (taxes === undefined || salesTax === 'none') return undefined;
  const rate = rateOn(book, placeOfTax(book, sale), sale.date);
  if (!rate || channelOf(book, sale)?.taxIncluded) return undefined;
  const lines = dueLines(book, sale);
  const [sold, back] = [false, true].map((returned) =>
    basesOf({ book, sale, rate }, lines, returned),
  );
  if (!sold || !back || sold.length + back.length === 0) return undefined;
  const net = less(taxOn(rate, sold), taxOn(rate, back));
  const tax = mainSide(lines) ? opposite(net) : net;
  return { rate, sold: total(sold), back: total(back), tax };
}

/**
 * What the rate gives for a sale whose record has another tax than that, by more than each of its lines
 * may have been rounded. Not asked of a tax of 0, for buyers who pay none, nor where something comes
 * back, which may have been sold at another rate.
 */
export function taxDiffers(book: NamedBook, sale: Sale): TaxByRate | undefined {
  const stated = booked(book, sale.tax);
  if (stated === NO_MONEY || sale.lines.some(({ returned }) => returned === 'yes'))
    return undefined;
  const byRate = taxByRate(book, sale);
  if (!byRate) return undefined;
  const more = less(stated, byRate.tax);
  const isWithin = (more < 0n ? opposite(more) : more) <= BigInt(sale.lines.length);
  return isWithin ? undefined : byRate;
}

interface Rated {
  readonly book: NamedBook;
  readonly sale: Sale;
  readonly rate: PlaceRate;
}

/** The taxed amounts of one side: its lines after discounts, and its shipping. */
function basesOf(
  { book, sale, rate }: Rated,
  lines: readonly DueLine[],
  returned: boolean,
): Money[] {
  const own = lines.filter(({ line, returned: side }) => {
    const isTaxed = saidOf(book, sale, line) ?? (taxesKind(rate, taxedKindOf(line)) ? 'yes' : 'no');
    return side === returned && isTaxed === 'yes';
  });
  const bases = own.map(({ due }) => due);
  if (!taxesKind(rate, 'shipping') || channelOf(book, sale)?.taxed === 'no') return bases;
  const shipping = booked(book, sale.shipping);
  if (shipping === NO_MONEY || isBack(lines, shipping) !== returned) return bases;
  return [...bases, returned && shipping < NO_MONEY ? opposite(shipping) : shipping];
}

function taxOn({ percent, by = 'sale' }: PlaceRate, bases: readonly Money[]): Money {
  if (by === 'sale') return fractionOf(total(bases), percent);
  return bases.reduce((sum, base) => add(sum, fractionOf(base, percent)), NO_MONEY);
}
