/** A studio that says it is not registered for sales tax collects none. */
import type { Book, Channel, Sale } from '../../book.ts';
import { findEach, spot, type Say } from '../finding.ts';
import { channelOf } from '../../reckon/taxed.ts';
import type { Rule, RuleFinding } from '../rule.ts';

export const salesTaxNone: Rule = {
  name: 'sales-tax-none',
  severity: 'warning',
  about:
    'The settings say sales-tax: none, but have taxes, or a record has sales tax all the same.',
  find: (book) => {
    const { salesTax, taxes, file } = book.studio;
    if (salesTax !== 'none') return [];
    if (taxes !== undefined) return [bothIn(file)];
    return [...findEach(book.channels, lookAtPrices), ...findEach(book.sales, lookAtTax(book))];
  },
};

function bothIn(file: string): RuleFinding {
  return {
    at: { file, path: ['sales-tax'] },
    message: 'sales-tax says none, but taxes has rates',
    hint: 'take out sales-tax if you are registered; otherwise take out taxes',
    related: [{ at: { file, path: ['taxes'] }, message: 'the rates' }],
  };
}

function lookAtPrices(channel: Channel, say: Say): void {
  if (channel.taxIncluded === undefined || channel.taxIncluded.isZero()) return;
  say({
    at: spot(channel, 'tax-included'),
    message: `the prices of ${channel.id} have a tax in them, but studio.yaml says sales-tax: none`,
    hint: 'take out one of the two',
  });
}

/** Where the prices have a tax in them, that is said once, at the channel. */
function lookAtTax(book: Book): (sale: Sale, say: Say) => void {
  return (sale, say) => {
    const isZero = sale.tax?.isZero() ?? true;
    if (isZero || channelOf(book, sale)?.taxIncluded !== undefined) return;
    say({
      at: spot(sale, 'tax'),
      message: 'this sale has sales tax, but studio.yaml says sales-tax: none',
      hint: 'if you are registered, take sales-tax out of studio.yaml; otherwise correct the sale',
    });
  };
}
