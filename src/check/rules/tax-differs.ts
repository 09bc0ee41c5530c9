/** The sales tax of a sale is what the rate of its place gives. */
import type { NamedBook, Sale } from '../../book.ts';
import { decimal, roundTo } from '../../number/decimal.ts';
import { NO_MONEY, moneyText, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { taxDiffers as differs } from '../../reckon/sale-tax.ts';
import { spot, type Say } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const taxDiffers: Rule = {
  name: 'tax-differs',
  severity: 'warning',
  about: 'The tax of a sale is another than the rate of its place gives, by more than rounding.',
  looks: [
    each('sales', (sale, { book, say }) => {
      if (sale.tax !== undefined && book.studio.taxes !== undefined) lookAtTax(book, sale, say);
    }),
  ],
};

function lookAtTax(book: NamedBook, sale: Sale, say: Say): void {
  const byRate = differs(book, sale);
  if (!byRate) return;
  const inWords = (amount: Money): string => moneyText(amount, digitsOf(book));
  const percent = roundTo(byRate.rate.percent.times(decimal(100)), 8).toString();
  const due = byRate.tax === NO_MONEY ? '0' : inWords(byRate.tax);
  say({
    at: spot(sale, 'tax'),
    message: `the tax is ${inWords(booked(book, sale.tax))}, but ${percent}% of the taxed ${inWords(byRate.sold)} is ${due}`,
    hint: 'correct the tax, or say taxed: no or yes on its lines; if it was collected so, leave it',
  });
}
