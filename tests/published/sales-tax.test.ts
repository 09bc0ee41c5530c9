/** Sales tax by a place's rate against figures in print: rounding by invoice and by item. */
import { describe, expect, it } from 'vitest';
import { taxByRate } from '../../src/reckon/tax/sale-tax.ts';
import { figuresIn, summaryOf } from '../helpers/quarter.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

/** The tax of a sale of so many lines of one price each, at one place with one rate. */
function taxOn(lines: readonly string[], { percent, by }: { percent: string; by: string }): string {
  const book = bookFrom({
    studio: `{ format: 1, name: Test studio, currency: USD, taxes: [{ place: County, percent: ${percent}, from: 2026-01-01, by: ${by} }] }`,
    channels: 'door: { name: Door, kind: direct, tax-place: County }',
    products: 'mug: { name: Mug }',
    sales: `s1: { date: 2026-02-03, channel: door, lines: [${lines.map((price) => `{ product: mug, count: 1, price: ${price} }`).join(', ')}] }`,
  });
  const sale = book.sales.get('s1') ?? expect.fail('no sale');
  return told(taxByRate(book, sale)?.tax ?? expect.fail('no tax'), 2);
}

// Streamlined Sales and Use Tax Agreement, section 324: to the third decimal, up when it is greater
// than four, by item or by invoice, as the seller elects; the amounts are by hand from that text.
describe('rounding of sales tax', () => {
  const three = ['1.50', '1.50', '1.50'];

  it('by invoice: 4.50 × .07 = .315 is .32', () => {
    expect(taxOn(three, { percent: '7%', by: 'sale' })).toBe('0.32');
  });

  it('by item: 1.50 × .07 = .105 is .11, three times .33', () => {
    expect(taxOn(three, { percent: '7%', by: 'line' })).toBe('0.33');
  });

  it.each([
    // Third decimal 4: down; 5: up. 12.80 × .0825 = 1.056; 1.60 × .09 = .144; 1.50 × .09 = .135.
    ['12.80', '8.25%', '1.06'],
    ['1.60', '9%', '0.14'],
    ['1.50', '9%', '0.14'],
    ['0.05', '6.5%', '0.00'],
  ])('%s at %s is %s', (price, percent, tax) => {
    expect(taxOn([price], { percent, by: 'sale' })).toBe(tax);
    expect(taxOn([price], { percent, by: 'line' })).toBe(tax);
  });
});

// IRS Publication 583, sample record system: 263.60 of sales and 4.20 of sales tax, 267.80 taken; tax
// that is collected and paid over is neither income nor an expense.
describe('sales tax that is paid over', () => {
  it('is no expense', () => {
    const book = bookFrom({
      channels: 'door: { name: Door, kind: direct, tax-place: County }',
      sales:
        's1: { date: 2025-01-03, channel: door, tax: 4.20, lines: [{ for: daily sales, count: 1, price: 263.60 }] }',
      spent:
        'e1: { date: 2025-03-03, to: County, for: sales-tax, tax-place: County, amount: 4.20 }',
    });
    const items = [
      'income',
      'expenses',
      'net-profit',
      'sales-tax-paid.County',
      'closing-tax.County',
    ];
    expect(figuresIn(summaryOf(book, { period: '2025-Q1' }), items)).toEqual([
      '263.60',
      '0.00',
      '263.60',
      '-4.20',
      '0.00',
    ]);
  });
});
