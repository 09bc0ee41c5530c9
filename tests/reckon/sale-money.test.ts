import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { ZERO, decimal, sum, type Decimal } from '../../src/number/decimal.ts';
import { saleMoney, type SaleMoney } from '../../src/reckon/sale-money.ts';
import { bookFrom } from '../helpers/book.ts';

const CHANNELS = `
shop: { name: Shop, kind: direct }
web: { name: Web, kind: online, fee-percent: 2.9%, fee-each: 0.30 }
gallery: { name: Gallery, kind: consignment, commission: 40% }
abroad: { name: Abroad, kind: direct, tax-included: 20% }
`;

function moneyOf(sale: string, digits = 2): SaleMoney {
  const book: Book = bookFrom({ channels: CHANNELS, sales: `s1: { date: 2025-03-01, ${sale} }` });
  const record = book.sales.get('s1')!;
  return saleMoney(book, record, digits);
}

function texts(amounts: readonly Decimal[]): string[] {
  return amounts.map((amount) => amount.toString());
}

describe('the money of a sale', () => {
  it('a line’s discount is off the line, the sale’s is shared by amount', () => {
    const { lines } = moneyOf(
      'channel: shop, discount: 10.00, lines: [{ for: a, count: 2, price: 30, discount: 5 }, { for: b, count: 1, price: 45, discount: 10% }]',
    );
    expect(texts(lines.map((line) => line.amount))).toEqual(['55', '40.5']);
    expect(texts(lines.map((line) => line.saleDiscount))).toEqual(['5.76', '4.24']);
  });

  it('a card’s percentage is on everything that was charged, rounded half up, and the fixed fee on top', () => {
    const { fee, lines } = moneyOf(
      'channel: web, shipping: 9.50, tax: 3.05, lines: [{ for: a, count: 1, price: 38 }, { for: b, count: 1, price: 12 }]',
    );
    // 62.55 × .029 + .30 = 2.11395
    expect(fee.toString()).toBe('2.11');
    expect(texts(lines.map((line) => line.fees))).toEqual(['1.6', '0.51']);
  });

  it('the gallery keeps its share of the price', () => {
    const { commission } = moneyOf('channel: gallery, lines: [{ for: a, count: 1, price: 47.50 }]');
    expect(commission.toString()).toBe('19');
  });

  it('what the record states stands over what the channel would take', () => {
    const { fee, commission } = moneyOf(
      'channel: web, fee: 1.11, commission: 2.22, lines: [{ for: a, count: 1, price: 38 }]',
    );
    expect(texts([fee, commission])).toEqual(['1.11', '2.22']);
  });

  it('a tax within the price is not income: 120 at 20 % holds 20 (HMRC: the VAT fraction, 1/6)', () => {
    const { lines, tax } = moneyOf('channel: abroad, lines: [{ for: a, count: 1, price: 120 }]');
    expect(texts(lines.map((line) => line.amount))).toEqual(['100']);
    expect(tax.toString()).toBe('20');
  });

  it('a refund of everything charges no fee', () => {
    const { fee } = moneyOf(
      'channel: web, lines: [{ for: a, count: 1, price: 38, returned: yes }]',
    );
    expect(fee.isZero()).toBe(true);
  });

  it('every cent of a discount, a fee, a commission and a tax lands on a line', () => {
    const line = fc.record({
      count: fc.integer({ min: 1, max: 9 }),
      cents: fc.integer({ min: 1, max: 20_000 }),
    });
    const sale = fc.record({
      channel: fc.constantFrom('shop', 'web', 'gallery', 'abroad'),
      discount: fc.integer({ min: 0, max: 50 }),
      lines: fc.array(line, { minLength: 1, maxLength: 8 }),
    });
    fc.assert(
      fc.property(sale, ({ channel, discount, lines }) => {
        const typed = lines.map(
          ({ count, cents }) =>
            `{ for: a, count: ${String(count)}, price: ${(cents / 100).toFixed(2)} }`,
        );
        const money = moneyOf(
          `channel: ${channel}, discount: ${String(discount)}%, lines: [${typed.join(', ')}]`,
        );
        const cents = lines.reduce((all, each) => all + each.count * each.cents, 0);
        const off = sum(money.lines.map((each) => each.saleDiscount));
        expect(off.toFixed(2)).toBe((Math.round((cents * discount) / 100) / 100).toFixed(2));
        const fees = sum(money.lines.map((each) => each.fees));
        expect(fees.eq(money.fee.plus(money.commission))).toBe(true);
        const whole = money.lines.map((each) => sum([each.amount, each.taxIncluded]));
        expect(sum(whole).times(decimal(100)).toString()).toBe(String(cents));
        for (const each of money.lines) {
          for (const amount of [each.amount, each.saleDiscount, each.fees, each.taxIncluded]) {
            expect(amount.decimalPlaces()).toBeLessThanOrEqual(2);
            expect(amount.gte(ZERO)).toBe(true);
          }
        }
      }),
    );
  });
});
