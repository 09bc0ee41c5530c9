import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { bookFrom } from '../helpers/book.ts';
import { roundTo } from '../../src/number/decimal.ts';
import { add, decimalOf } from '../../src/number/money.ts';
import { leak } from '../helpers/leak.ts';
import { told } from '../helpers/minor.ts';

// OpenStax, Principles of Accounting, Volume 1: Financial Accounting, sections 10.2 and 10.3:
// one good bought and drawn over a month, valued by the perpetual methods.
function monthOfGoods(stockValue: string) {
  return bookFrom({
    studio: `format: 1\nname: Goods\ncurrency: USD\nstock-value: ${stockValue}\n`,
    materials: 'goods: { name: Goods, kind: other, unit: each }',
    bought: `
b1: { date: 2025-07-01, supplier: Maker, lines: [{ material: goods, quantity: 150, cost: 3150 }] }
b2: { date: 2025-07-10, supplier: Maker, lines: [{ material: goods, quantity: 225, cost: 6075 }] }
b3: { date: 2025-07-25, supplier: Maker, lines: [{ material: goods, quantity: 210, cost: 6930 }] }
`,
    used: `
u1: { date: 2025-07-05, material: goods, quantity: 120 }
u2: { date: 2025-07-15, material: goods, quantity: 180 }
`,
  });
}

describe('perpetual inventory (OpenStax, vol. 1, sections 10.2 and 10.3)', () => {
  it('first-in first-out: 7,200 drawn, 8,955 left', () => {
    const value = materialValue(flow(monthOfGoods('first-in'), '2025-07-31'));
    expect(told(value.leaving.others)).toBe('7200.00');
    expect(told(value.standing.materials)).toBe('8955.00');
  });

  it('moving average: 7,253 drawn and 8,902 left to the dollar, 16,155 together to the cent', () => {
    const value = materialValue(flow(monthOfGoods('average'), '2025-07-31'));
    const drawn = value.leaving.others;
    const left = value.standing.materials;
    const dollars = [drawn, left].map((amount) => roundTo(decimalOf(amount, 2), 0).toString());
    expect(dollars).toEqual(['7253', '8902']);
    // 120 × 21 = 2,520.00; then 180 of 255 that are worth 6,705.00: 4,732.94.
    expect([told(drawn), told(left)]).toEqual(['7252.94', '8902.06']);
    expect(told(add(drawn, left))).toBe('16155.00');
    expect(told(leak(value))).toBe('0.00');
  });
});

describe('landed cost', () => {
  // potters.org/subject19077.htm
  it('0.35 a lb with 100 freight on 1,000 lb lands at 0.45 a lb', () => {
    const book = bookFrom({
      materials: 'clay: { name: Clay, kind: clay, unit: lb }',
      bought:
        'b1: { date: 2025-01-02, supplier: Pit, freight: 100, lines: [{ material: clay, quantity: 1000 lb, cost: 350.00 }] }',
      used: 'u1: { date: 2025-01-03, material: clay, quantity: 1 lb }',
    });
    const value = materialValue(flow(book, '2025-01-31'));
    expect(told(value.leaving.others)).toBe('0.45');
  });
});

describe('goods on consignment (IRS Publications 538 and 334)', () => {
  const book = bookFrom({
    materials: 'clay: { name: Clay, kind: clay, unit: lb }',
    bought:
      'b1: { date: 2025-01-02, supplier: Pit, lines: [{ material: clay, quantity: 10 lb, cost: 10 }] }',
    products: 'cup: { name: Cup, clay: { material: clay, each: 1 lb }, fired: [once], price: 20 }',
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    channels: 'gallery: { name: Gallery, kind: consignment, commission: 40% }',
    pieces: 'p1: { date: 2025-01-03, product: cup, made: 10 }',
    firings:
      'f1: { date: 2025-01-10, kiln: kiln, kind: once, load: [{ lot: p1, in: 10, first: 10 }] }',
    consigned:
      'c1: { date: 2025-01-12, channel: gallery, sent: [{ product: cup, count: 6, price: 20 }] }',
    sales:
      's1: { date: 2025-02-01, channel: gallery, lines: [{ product: cup, count: 2, price: 20 }] }',
  });

  it('stay in the maker’s inventory until the gallery sells them', () => {
    const sent = materialValue(flow(book, '2025-01-31'));
    expect(told(sent.standing.galleries)).toBe('6.00');
    expect(told(sent.leaving.sold)).toBe('0.00');
    const sold = materialValue(flow(book, '2025-02-28'));
    expect(told(sold.standing.galleries)).toBe('4.00');
    expect(told(sold.leaving.sold)).toBe('2.00');
  });
});
