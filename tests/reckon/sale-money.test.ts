import { describe, expect, it } from 'vitest';
import {
  agreedCommission,
  saleMoney,
  type LineMoney,
  type SaleMoney,
} from '../../src/reckon/sales/sale-money.ts';
import { bookFrom } from '../helpers/book.ts';
import { money, told } from '../helpers/minor.ts';
import { bookOfSale as bookOf } from '../helpers/one-sale.ts';

function moneyOf(sale: string): SaleMoney {
  const { book, record } = bookOf(sale);
  return saleMoney(book, record);
}

type Figure = Exclude<keyof LineMoney, 'line' | 'returned'>;

/** One figure of each line. */
function figure({ lines }: SaleMoney, key: Figure): string[] {
  return lines.map((line) => told(line[key]));
}

/** The line of one piece at a price. */
function one(price: string, more = ''): string {
  return `{ for: a, count: 1, price: ${price}${more} }`;
}

function returned(price: string): string {
  return one(price, ', returned: yes');
}

describe('discounts of a sale', () => {
  it('are a line’s own off the line, and the sale’s shared by amount', () => {
    const sale = moneyOf(
      'channel: shop, discount: 10.00, lines: [{ for: a, count: 2, price: 30, discount: 5 }, { for: b, count: 1, price: 45, discount: 10% }]',
    );
    // 55.00 and 40.50 are left; 10.00 × 55 ÷ 95.5 = 5.759 and 4.241.
    expect(figure(sale, 'gross')).toEqual(['60.00', '45.00']);
    expect(figure(sale, 'discounts')).toEqual(['10.76', '8.74']);
    expect(figure(sale, 'net')).toEqual(['49.24', '36.26']);
  });

  it('are rounded once for a line of many, and once for the sale', () => {
    const line = '{ for: a, count: 3, price: 0.15, discount: 10% }';
    // 10 % of 0.45 is 4.5 cents: 5, and not three times 2.
    expect(figure(moneyOf(`channel: shop, lines: [${line}]`), 'discounts')).toEqual(['0.05']);
    // 10 % of 0.30 is 3 cents, where each alone would be 1.5; the odd cent goes to the first.
    const two = `channel: shop, discount: 10%, lines: [${one('0.15')}, ${one('0.15')}]`;
    expect(figure(moneyOf(two), 'discounts')).toEqual(['0.02', '0.01']);
  });

  it('are of both sides where they are percentages, each rounded once', () => {
    const sale = moneyOf(
      `channel: shop, discount: 10%, lines: [{ for: a, count: 3, price: 9.99 }, ${returned('9.99')}]`,
    );
    // 29.97 and 9.99: 3.00 and 1.00 off.
    expect(figure(sale, 'gross')).toEqual(['29.97', '9.99']);
    expect(figure(sale, 'net')).toEqual(['26.97', '8.99']);
  });

  it('are of what is sold where they are amounts, and of what comes back where nothing is', () => {
    const both = moneyOf(`channel: shop, discount: 5.00, lines: [${returned('10')}, ${one('20')}]`);
    expect(figure(both, 'net')).toEqual(['10.00', '15.00']);
    // 30.00 less 5.00 is given back.
    const back = `channel: shop, discount: 5.00, lines: [${returned('10')}, ${returned('20')}]`;
    expect(figure(moneyOf(back), 'net')).toEqual(['8.33', '16.67']);
  });
});

describe('the fee of a sale', () => {
  it('is a percentage of all that was charged, once, with the fixed fee on top', () => {
    const sale = moneyOf(
      `channel: web, shipping: 9.50, tax: 3.05, lines: [${one('38')}, ${one('12')}]`,
    );
    // 62.55 × .029 = 1.81395 → 1.81, and .30; shared by 38 and 12: 1.6036 and .5064.
    expect(told(sale.fee)).toBe('2.11');
    expect(figure(sale, 'fee')).toEqual(['1.60', '0.51']);
    expect(figure(sale, 'commission')).toEqual(['0.00', '0.00']);
  });

  it('is of what is left of the charge after returns, and borne by what is sold', () => {
    const sale = moneyOf(
      `channel: web, discount: 10%, lines: [{ for: a, count: 3, price: 9.99 }, ${returned('9.99')}]`,
    );
    // 26.97 − 8.99 = 17.98; × .029 = .52142, and .30.
    expect(told(sale.fee)).toBe('0.82');
    expect(figure(sale, 'fee')).toEqual(['0.82', '0.00']);
  });

  it('is nothing where nothing was charged, and what the sale says where it says it', () => {
    expect(told(moneyOf(`channel: web, lines: [${returned('38')}]`).fee)).toBe('0.00');
    const even = `channel: web, lines: [${one('38')}, ${returned('38')}]`;
    expect(told(moneyOf(even).fee)).toBe('0.00');
  });
});

describe('the commission of a sale', () => {
  it('is the gallery’s share of the price, after discounts and without shipping', () => {
    const sale = moneyOf(
      `channel: gallery, shipping: 9, discount: 10%, lines: [${one('47.50')}, ${one('1.25')}]`,
    );
    // 10 % of 48.75 is 4.875 → 4.88; 40 % of 43.87 is 17.548.
    expect(told(sale.commission)).toBe('17.55');
    // 4.88 × 47.5 ÷ 48.75 = 4.7549 and .1251; so 42.75 and 1.12 are left: 17.102 and .448.
    expect(figure(sale, 'net')).toEqual(['42.75', '1.12']);
    expect(figure(sale, 'commission')).toEqual(['17.10', '0.45']);
  });

  it('is of what is sold less what comes back, and borne by what is sold', () => {
    const sale = moneyOf(
      `channel: gallery, lines: [${one('20.01')}, ${returned('9.99')}, ${one('10')}]`,
    );
    // 40 % of 20.02 is 8.008, by 20.01 and 10: 5.3402 and 2.6698 of 8.01.
    expect(told(sale.commission)).toBe('8.01');
    expect(figure(sale, 'commission')).toEqual(['5.34', '0.00', '2.67']);
  });

  it('is given back by a sale of returns alone', () => {
    const sale = moneyOf(`channel: gallery, lines: [${returned('20')}, ${returned('10.01')}]`);
    // 40 % of −30.01 is −12.004, by 20 and 10.01: 7.9973 and 4.0027 of 12.00.
    expect(told(sale.commission)).toBe('-12.00');
    expect(figure(sale, 'commission')).toEqual(['-8.00', '-4.00']);
  });

  it('is shared by itself beside a fee, each to the cent', () => {
    const sale = moneyOf(`channel: card, lines: [${one('1.01')}, ${one('1.01')}, ${one('1.01')}]`);
    // 40 % of 3.03 is 1.212, 2.9 % of it .08787.
    expect([told(sale.commission), told(sale.fee)]).toEqual(['1.21', '0.09']);
    expect(figure(sale, 'commission')).toEqual(['0.41', '0.40', '0.40']);
    expect(figure(sale, 'fee')).toEqual(['0.03', '0.03', '0.03']);
  });

  it('is what the sale says where it says it; what was agreed is known all the same', () => {
    const { book, record } = bookOf(`channel: gallery, commission: 2.22, lines: [${one('38')}]`);
    expect(told(saleMoney(book, record).commission)).toBe('2.22');
    const gallery = book.channels.get('gallery');
    expect(told(agreedCommission(book, gallery, record))).toBe('15.20');
  });

  it('has the tax in the price in it', () => {
    const channels = 'fair: { name: Fair, kind: fair, commission: 10%, tax-included: 20% }';
    const sales = `s1: { date: 2025-03-01, channel: fair, lines: [${one('12')}] }`;
    const book = bookFrom({ channels, sales });
    const sale = saleMoney(book, book.sales.get('s1') ?? expect.fail('no sale'));
    expect([told(sale.commission), ...figure(sale, 'net')]).toEqual(['1.20', '10.00']);
  });
});

describe('a tax in the price', () => {
  it('is no income: 120 at 20 % holds 20 (HMRC: the VAT fraction, 1/6)', () => {
    const sale = moneyOf(`channel: abroad, lines: [${one('120')}]`);
    expect([told(sale.tax), ...figure(sale, 'net')]).toEqual(['20.00', '100.00']);
  });

  it('is taken out once, and shared over the lines and the shipping', () => {
    const sale = moneyOf(`channel: abroad, shipping: 5, lines: [${one('10')}, ${one('10')}]`);
    // 25.00 ÷ 6 = 4.1667; by 10, 10 and 5: 1.668, 1.668 and .834 of 4.17.
    expect(told(sale.tax)).toBe('4.17');
    expect(figure(sale, 'taxIncluded')).toEqual(['1.67', '1.67']);
    expect(figure(sale, 'net')).toEqual(['8.33', '8.33']);
    expect(told(sale.shipping)).toBe('4.17');
  });

  it('is in the discount too, so that gross less discount is net', () => {
    const sale = moneyOf(`channel: abroad, lines: [${one('12', ', discount: 1')}]`);
    // 11.00 holds 1.8333, the discount of 1.00 .1667.
    expect(figure(sale, 'net')).toEqual(['9.17']);
    expect(figure(sale, 'discounts')).toEqual(['0.83']);
    expect(figure(sale, 'gross')).toEqual(['10.00']);
  });

  it('is of each side by itself', () => {
    const sale = moneyOf(
      `channel: abroad, lines: [${one('10')}, ${returned('4')}, ${one('10')}, ${returned('4')}]`,
    );
    // 20.00 ÷ 6 = 3.3333 by two alike, 8.00 ÷ 6 = 1.3333 by two alike.
    expect(figure(sale, 'taxIncluded')).toEqual(['1.67', '0.67', '1.66', '0.66']);
    expect(told(sale.tax)).toBe('2.00');
  });

  it('is what the sale says where it says it, on the side that is sold', () => {
    const sale = moneyOf(`channel: abroad, tax: 1.50, lines: [${one('12')}, ${returned('6')}]`);
    expect(figure(sale, 'taxIncluded')).toEqual(['1.50', '1.00']);
    expect(told(sale.tax)).toBe('0.50');
  });

  it('is not in the shipping where the channel says so', () => {
    const sale = moneyOf(`channel: post, shipping: 5, lines: [${one('10')}, ${one('10')}]`);
    // 20.00 ÷ 6 = 3.3333 by two alike; all 5.00 of the shipping are income.
    expect([told(sale.tax), told(sale.shipping)]).toEqual(['3.33', '5.00']);
    expect(figure(sale, 'taxIncluded')).toEqual(['1.67', '1.66']);
    // A stated tax is on the lines alone, too.
    const own = moneyOf(`channel: post, shipping: 5, tax: 3, lines: [${one('10')}, ${one('5')}]`);
    expect([figure(own, 'taxIncluded'), told(own.shipping)]).toEqual([['2.00', '1.00'], '5.00']);
  });

  it('comes back with what comes back, and with the shipping given back', () => {
    const sale = moneyOf(`channel: abroad, shipping: 5, lines: [${returned('10')}]`);
    // 15.00 ÷ 6 = 2.50 by 10 and 5: 1.6667 and .8333.
    expect([told(sale.tax), told(sale.shipping)]).toEqual(['-2.50', '-4.17']);
    expect(figure(sale, 'net')).toEqual(['8.33']);
    const less = moneyOf(`channel: abroad, shipping: -5, lines: [${one('12')}, ${returned('10')}]`);
    // 12.00 ÷ 6 = 2.00 of what is sold.
    expect([told(less.tax), told(less.shipping)]).toEqual(['-0.50', '-4.17']);
    expect(figure(less, 'taxIncluded')).toEqual(['2.00', '1.67']);
  });

  it('below zero is that of what comes back', () => {
    const sale = moneyOf(`channel: abroad, tax: -1.50, lines: [${one('6')}, ${returned('12')}]`);
    // 6.00 ÷ 6 = 1.00 of what is sold, and 1.50 as it is written.
    expect([figure(sale, 'taxIncluded'), told(sale.tax)]).toEqual([['1.00', '1.50'], '-0.50']);
    expect(figure(sale, 'net')).toEqual(['5.00', '10.50']);
  });
});

describe('a tax on top', () => {
  it('is collected with what is sold, and given back by a sale of returns alone', () => {
    expect(told(moneyOf(`channel: shop, tax: 3.05, lines: [${one('38')}]`).tax)).toBe('3.05');
    const back = `channel: shop, tax: 3.05, lines: [${returned('38')}]`;
    expect(told(moneyOf(back).tax)).toBe('-3.05');
  });
});

describe('what is given back', () => {
  const amounts = ({ shipping, tax, fee, commission }: SaleMoney): string[] =>
    [shipping, tax, fee, commission].map((amount) => told(amount));

  it('is all that a sale of returns alone states, with a sign or without', () => {
    const lines = `lines: [${returned('10')}, ${returned('10')}]`;
    const sale = moneyOf(
      `channel: web, shipping: 9.50, tax: 3.05, fee: 1.11, commission: 2.01, ${lines}`,
    );
    expect(amounts(sale)).toEqual(['-9.50', '-3.05', '-1.11', '-2.01']);
    // By two alike, the odd cent to the first.
    expect(figure(sale, 'fee')).toEqual(['-0.56', '-0.55']);
    expect(figure(sale, 'commission')).toEqual(['-1.01', '-1.00']);
    const written = moneyOf(
      `channel: web, shipping: -9.50, tax: -3.05, fee: -1.11, commission: -2.01, ${lines}`,
    );
    expect(amounts(written)).toEqual(amounts(sale));
  });

  it('is what is written below zero of an exchange, and nothing else', () => {
    const lines = `lines: [${one('10')}, ${returned('40')}]`;
    const back = moneyOf(`channel: web, shipping: -9.50, tax: -2.40, fee: -1.11, ${lines}`);
    expect(amounts(back)).toEqual(['-9.50', '-2.40', '-1.11', '0.00']);
    const kept = moneyOf(`channel: web, shipping: 9.50, tax: 2.40, fee: 1.11, ${lines}`);
    expect(amounts(kept)).toEqual(['9.50', '2.40', '1.11', '0.00']);
  });
});

describe('a price', () => {
  it('reads amounts to the minor unit', () => {
    const sale = moneyOf(`channel: shop, lines: [${one('10.005')}]`);
    expect(sale.lines[0]?.net).toBe(money('10.01'));
  });
});
