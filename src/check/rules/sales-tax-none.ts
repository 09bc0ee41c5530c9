/** A studio that says it is not registered for sales tax collects none. */
import type { Channel, NamedBook, Sale, Studio } from '../../book.ts';
import { spot } from '../finding.ts';
import { channelOf } from '../../reckon/taxed.ts';
import { each, type EachScene, type Rule } from '../rule.ts';

export const salesTaxNone: Rule = {
  name: 'sales-tax-none',
  severity: 'warning',
  about:
    'The settings say sales-tax: none, but have taxes, or a record has sales tax all the same.',
  looks: [each('studio', lookAtSettings), each('channels', lookAtPrices), each('sales', lookAtTax)],
};

function lookAtSettings({ salesTax, taxes, file }: Studio, { say }: EachScene): void {
  if (salesTax !== 'none' || taxes === undefined) return;
  say({
    at: { file, path: ['sales-tax'] },
    message: 'sales-tax says none, but taxes has rates',
    hint: 'take out sales-tax if you are registered; otherwise take out taxes',
    related: [{ at: { file, path: ['taxes'] }, message: 'the rates' }],
  });
}

/** Where the settings contradict themselves, that is said once, there. */
function saysNone({ studio: { salesTax, taxes } }: NamedBook): boolean {
  return salesTax === 'none' && taxes === undefined;
}

function lookAtPrices(channel: Channel, { book, say }: EachScene): void {
  if (!saysNone(book)) return;
  if (channel.taxIncluded === undefined || channel.taxIncluded.isZero()) return;
  say({
    at: spot(channel, 'tax-included'),
    message: `the prices of ${channel.id} have a tax in them, but studio.yaml says sales-tax: none`,
    hint: 'take out one of the two',
  });
}

/** Where the prices have a tax in them, that is said once, at the channel. */
function lookAtTax(sale: Sale, { book, say }: EachScene): void {
  const isZero = sale.tax?.isZero() ?? true;
  if (isZero || !saysNone(book) || channelOf(book, sale)?.taxIncluded !== undefined) return;
  say({
    at: spot(sale, 'tax'),
    message: 'this sale has sales tax, but studio.yaml says sales-tax: none',
    hint: 'if you are registered, take sales-tax out of studio.yaml; otherwise correct the sale',
  });
}
