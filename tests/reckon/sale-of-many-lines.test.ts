import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_MONEY, add, less, opposite, total } from '../../src/number/money.ts';
import { lineDues } from '../../src/reckon/sales/sale-lines.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { holds } from '../helpers/law.ts';
import { bookOfSale as bookOf } from '../helpers/one-sale.ts';

describe('a sale of many lines', () => {
  const line = fc.record({
    count: fc.integer({ min: 1, max: 9 }),
    cents: fc.integer({ min: 1, max: 20_000 }),
    isReturned: fc.boolean(),
  });
  const sales = fc.record({
    channel: fc.constantFrom('shop', 'web', 'gallery', 'card', 'abroad'),
    discount: fc.integer({ min: 0, max: 50 }),
    lines: fc.array(line, { minLength: 1, maxLength: 8 }),
  });

  it('has every cent of a discount, a fee, a commission and a tax on a line', () => {
    holds(
      fc.property(sales, ({ channel, discount, lines }) => {
        const typed = lines.map(({ count, cents, isReturned }) => {
          const price = (cents / 100).toFixed(2);
          const back = isReturned ? ', returned: yes' : '';
          return `{ for: a, count: ${String(count)}, price: ${price}${back} }`;
        });
        const text = `channel: ${channel}, discount: ${String(discount)}%, lines: [${typed.join(', ')}]`;
        const { book, record } = bookOf(text);
        const sale = saleMoney(book, record);
        expect(total(sale.lines.map(({ fee }) => fee))).toBe(sale.fee);
        expect(total(sale.lines.map(({ commission }) => commission))).toBe(sale.commission);
        const taxes = sale.lines.map((each) =>
          each.returned ? opposite(each.taxIncluded) : each.taxIncluded,
        );
        expect(total(taxes)).toBe(sale.tax);
        const charged = sale.lines.map(({ net, taxIncluded }) => add(net, taxIncluded));
        expect(charged).toEqual(lineDues(book, record));
        for (const isReturned of [false, true]) {
          const own = lines.filter((each) => each.isReturned === isReturned);
          const cents = own.reduce((all, each) => all + each.count * each.cents, 0);
          const dues = total(charged.filter((_, at) => lines[at]?.isReturned === isReturned));
          expect(Number(dues)).toBe(cents - Math.round((cents * discount) / 100));
        }
        for (const each of sale.lines) {
          expect(less(each.gross, each.discounts)).toBe(each.net);
          expect(each.net >= NO_MONEY && each.discounts >= NO_MONEY).toBe(true);
        }
      }),
    );
  });
});
