/** The sales tax of a sale that is being added: fixed by the rate of its place, and written into the record. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { Book, Sale } from '../book.ts';
import { suspectsIn } from '../check/schema.ts';
import { typeRecord } from '../check/typed.ts';
import { decimal, roundTo } from '../number/decimal.ts';
import { NO_MONEY, moneyText, type Money } from '../number/money.ts';
import { mapping, type RawMap } from '../read/raw.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import { taxByRate, taxDiffers, type TaxByRate } from '../reckon/tax/sale-tax.ts';

/**
 * The whole record of a new sale with its tax, where it says none and its place has a rate. Whatever
 * has faults is left as it is.
 */
export function withSaleTax(book: Book, fields: RawMap): RawMap {
  if (book.studio.taxes === undefined || fields['tax'] !== undefined) return fields;
  const sale = soundSale(fields);
  const { tax = NO_MONEY } = (sale && taxByRate(book, sale)) ?? {};
  if (tax === NO_MONEY) return fields;
  const taxed = { ...fields, tax: moneyText(tax, digitsOf(book)) };
  const names = Object.keys(FIELDS.sales.fields).filter((name) => name in taxed);
  return mapping(names.map((name) => [name, taxed[name as keyof typeof taxed]]));
}

/** A sale that is to be added as the book would have it; undefined where something is wrong with it. */
export function soundSale(fields: RawMap): Sale | undefined {
  const [id, file] = ['this-sale', 'new sale'];
  const raw = { file, kind: 'sales', root: mapping([[id, fields]]), odd: false } as const;
  return suspectsIn(raw).length > 0 ? undefined : typeRecord('sales', fields, { id, file });
}

/**
 * What there is to say of the tax of a sale that changed: how the tax of a new one comes about; of an
 * amended one what its rate gives now, since nothing but the potter changes a tax that is written.
 */
export function taxWords(
  { before, after }: { readonly before: Book; readonly after: Book },
  id: string,
): string | undefined {
  const [was, is] = [before.sales.get(id), after.sales.get(id)];
  const byRate = is && taxByRate(after, is);
  if (!is || !byRate) return undefined;
  const text = rateInWords(after, byRate);
  if (!was) return isWritten(after, is, byRate) ? `tax ${text}` : undefined;
  const unchanged = was.tax?.toString() === is.tax?.toString();
  const isNew = taxByRate(before, was)?.tax !== byRate.tax;
  if (!isNew || !unchanged || isWritten(after, is, byRate) || taxDiffers(after, is))
    return undefined;
  const tax = moneyText(byRate.tax, digitsOf(after));
  const stays = is.tax
    ? `tax stays ${moneyText(booked(after, is.tax), digitsOf(after))}`
    : 'no tax is written';
  return `${stays}; ${text}; to write that: saggar amend ${id} tax=${tax}`;
}

function isWritten(book: Book, { tax }: Sale, byRate: TaxByRate): boolean {
  return tax !== undefined && booked(book, tax) === byRate.tax;
}

/** `6.5% of 128.00: 8.32`. */
function rateInWords(book: Book, { rate, sold, back, tax }: TaxByRate): string {
  const digits = digitsOf(book);
  const money = (amount: Money): string => moneyText(amount, digits);
  const both = `${money(sold)} sold and ${money(back)} back`;
  const basis = back === NO_MONEY ? money(sold) : sold === NO_MONEY ? `${money(back)} back` : both;
  const percent = roundTo(rate.percent.times(decimal(100)), 8).toString();
  const by = rate.by === 'line' ? ' by line' : '';
  return `${percent}% of ${basis}${by}: ${money(tax)}`;
}
