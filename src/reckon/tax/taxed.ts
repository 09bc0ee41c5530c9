/** Which lines of a sale have sales tax on them, and the rate of a place on a day. */
import type {
  Channel,
  Day,
  NamedBook,
  PlaceRate,
  Sale,
  SaleLine,
  TaxedKind,
  YesNo,
} from '../../book.ts';
import { inForce } from '../../in-force.ts';

/** Where a sale is taxed: what it says, else its channel; empty where neither says. */
export function placeOfTax(book: NamedBook, sale: Sale): string {
  return sale.taxPlace ?? channelOf(book, sale)?.taxPlace ?? '';
}

/** The channel of a sale, as it was on the day of the sale. */
export function channelOf(
  { channels }: Pick<NamedBook, 'channels'>,
  { channel, date }: Sale,
): Channel | undefined {
  return inForce(channels.get(channel), date);
}

/** The entry of a place that is in force on a day; undefined where there is none yet. */
export function rateOn(
  { studio }: Pick<NamedBook, 'studio'>,
  place: string,
  day: Day,
): PlaceRate | undefined {
  return (studio.taxes ?? []).reduce<PlaceRate | undefined>((found, each) => {
    if (each.place !== place || each.from > day) return found;
    return found === undefined || each.from > found.from ? each : found;
  }, undefined);
}

/** Whether a place's entry taxes something; ware alone where it does not say. */
export function taxesKind({ taxes = ['ware'] }: PlaceRate, kind: TaxedKind): boolean {
  return taxes.includes(kind);
}

/** What the records themselves say of a line: its own word, that of its channel, of its product or class. */
export function saidOf(book: NamedBook, sale: Sale, line: SaleLine): YesNo | undefined {
  if (line.taxed !== undefined) return line.taxed;
  if (channelOf(book, sale)?.taxed === 'no') return 'no';
  if (line.product !== undefined) return inForce(book.products.get(line.product), sale.date)?.taxed;
  return inForce(book.classes.get(line.class ?? ''), sale.date)?.taxed;
}

/** Income that is for firing other people's ware is told by its words, for it has no kind of its own. */
const FIRING_WORDS = /\b(?:firings?|kilns?)\b/i;

/** Whether other income, in words, is for firing other people's ware. */
export function isFiringForOthers(words: string): boolean {
  return FIRING_WORDS.test(words);
}

/**
 * Receipts that don't come from selling or from work: interest, grants, prizes, insurance, refunds, scrap,
 * a bad debt that was paid after all (IRS Schedule C instructions, line 6, from memory).
 */
const OUTSIDE_TRADE =
  /\b(?:interest|grants?|prizes?|awards?|insurance|refunds?|rebates?|scrap|bad debts?)\b/i;

/** Whether other income, in words, is not a receipt of the trade itself. */
export function isOutsideTrade(words: string): boolean {
  return OUTSIDE_TRADE.test(words);
}

/** What a line is, as places tell apart what they tax. */
export function taxedKindOf({ product, class: taught, for: words = '' }: SaleLine): TaxedKind {
  if (product !== undefined) return 'ware';
  if (taught !== undefined) return 'classes';
  return isFiringForOthers(words) ? 'firing' : 'other';
}
