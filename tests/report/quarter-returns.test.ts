/** Sales tax returns and what processors report, of a small studio; worked by hand in the comments. */
import { describe, expect, it } from 'vitest';
import { bookFrom } from '../helpers/book.ts';
import { figuresIn, rowIn, summaryOf } from '../helpers/quarter.ts';

/**
 * - s1 (Q1): two mugs at 30.00 and a class for 50.00 at the door, tax 4.20 on the mugs (7 %): 114.20 charged.
 * - s2 (Q2): a fair with the tax of 5 % in its prices: 105.00 charged, of which 5.00 is tax; the card reader
 *   takes 65.00 of it and 1.30.
 * - s3 (Q2): the shop, 40.00, shipping 6.00, tax 2.80; a fee of 2.00.
 * - s4 (Q3): one mug comes back to the shop: 20.00 and tax 1.40 are given back; no fee.
 * - e1 (Q2): 4.20 is paid over to County.
 */
const book = bookFrom({
  studio: 'format: 1\nname: Returns\ncurrency: USD\n',
  channels: `
door: { name: Door, kind: direct, tax-place: County }
fair: { name: Fair, kind: fair, tax-place: Town, tax-included: 5%, fee-percent: 2% }
shop: { name: Shop, kind: online, tax-place: County, fee-percent: 2% }
`,
  classes:
    'wheel: { name: Wheel, starts: 2025-03-01, sessions: 1, hours: 2, places: 8, fee: 50, taxed: no }',
  products: 'mug: { name: Mug, price: 30 }',
  sales: `
s1: { date: 2025-02-01, channel: door, tax: 4.20, lines: [{ product: mug, count: 2, price: 30 }, { class: wheel, count: 1, price: 50 }] }
s2: { date: 2025-04-05, channel: fair, card: 65, fee: 1.30, lines: [{ product: mug, count: 3, price: 35 }] }
s3: { date: 2025-05-05, channel: shop, shipping: 6, tax: 2.80, fee: 2, lines: [{ product: mug, count: 1, price: 40 }] }
s4: { date: 2025-08-05, channel: shop, tax: 1.40, fee: 0, lines: [{ product: mug, count: 1, price: 20, returned: yes }] }
`,
  spent: 'e1: { date: 2025-04-20, to: County, for: sales-tax, tax-place: County, amount: 4.20 }',
});
const year = summaryOf(book, { period: '2025' });

describe('a sales tax return', () => {
  function returnOf(place: string, period: string): (string | undefined)[] {
    const keys = ['gross', 'exempt', 'taxable', 'due', 'paidOver'];
    return figuresIn(
      year,
      keys.map((key) => `return.${place}.${period}.${key}`),
    );
  }

  it('has gross, exempt, taxable, due and paid over, quarter by quarter', () => {
    expect(returnOf('County', '2025-Q1')).toEqual(['110.00', '50.00', '60.00', '4.20', '0.00']);
    expect(returnOf('County', '2025-Q2')).toEqual(['40.00', '0.00', '40.00', '2.80', '4.20']);
  });

  it('takes back what was given back', () => {
    expect(returnOf('County', '2025-Q3')).toEqual(['-20.00', '0.00', '-20.00', '-1.40', '0.00']);
  });

  it('shows sales without the tax that is in their prices', () => {
    expect(returnOf('Town', '2025-Q2')).toEqual(['100.00', '0.00', '100.00', '5.00', '0.00']);
  });

  it('is not there where nothing was sold', () => {
    expect(rowIn(year, 'return.Town.2025-Q1.gross')).toBeUndefined();
  });

  it('of a quarter alone is one', () => {
    const quarter = summaryOf(book, { period: '2025-Q2' });
    const items = quarter.rows.map(({ item }) => String(item));
    expect(items.filter((item) => /^return\..*gross$/.test(item))).toEqual([
      'return.County.2025-Q2.gross',
      'return.Town.2025-Q2.gross',
    ]);
  });
});

describe('a sales tax return of a place that files by itself', () => {
  const returns = (filing: string, period: string): unknown[] => {
    const files = {
      studio: `format: 1
name: Returns
currency: USD
taxes: [{ place: County, percent: 7%, from: 2025-01-01, filing: ${filing} }]
`,
      channels: 'door: { name: Door, kind: direct, tax-place: County }',
      products: 'mug: { name: Mug, price: 30 }',
      sales: `
s1: { date: 2025-02-01, channel: door, tax: 4.20, lines: [{ product: mug, count: 2, price: 30 }] }
s2: { date: 2025-10-02, channel: door, tax: 2.10, lines: [{ product: mug, count: 1, price: 30 }] }
s3: { date: 2025-12-31, channel: door, tax: 6.30, lines: [{ product: mug, count: 3, price: 30 }] }
`,
    };
    const { rows } = summaryOf(bookFrom(files), { period });
    return rows.flatMap(({ part, item, amount }) =>
      String(item).endsWith('.due') ? [`${String(part)}: ${String(amount)}`] : [],
    );
  };

  it('is one for each month that has something on it', () => {
    expect(returns('monthly', '2025-Q4')).toEqual([
      'Sales tax return, County, 2025-10: 2025-10-01 to 2025-10-31: 210',
      'Sales tax return, County, 2025-12: 2025-12-01 to 2025-12-31: 630',
    ]);
  });

  it('is the whole year in its last quarter, and in none before', () => {
    expect(returns('yearly', '2025-Q1')).toEqual([]);
    const whole = ['Sales tax return, County, 2025: 2025-01-01 to 2025-12-31: 1260'];
    expect([returns('yearly', '2025-Q4'), returns('yearly', '2025')]).toEqual([whole, whole]);
  });
});

describe('what went through readers and shops', () => {
  const of = (channel: string, ...keys: readonly string[]): (string | undefined)[] =>
    figuresIn(
      year,
      keys.map((key) => `processed.${channel}.${key}`),
    );

  it('comes to the gross of their form, and to what they paid out', () => {
    // 40.00 - 20.00 = 20.00; tax 2.80 - 1.40; refund 21.40; gross 40.00 + 6.00 + 2.80 = 48.80.
    expect(of('shop', 'sales', 'shipping', 'tax', 'back', 'gross')).toEqual([
      ...['20.00', '6.00', '1.40', '21.40', '48.80'],
    ]);
    // 48.80 - 21.40 - 2.00
    expect(of('shop', 'refunds', 'fees', 'out')).toEqual(['21.40', '2.00', '25.40']);
  });

  it('leaves out what was paid in cash', () => {
    expect(of('fair', 'sales', 'tax', 'otherwise', 'gross', 'fees', 'out')).toEqual([
      ...['100.00', '5.00', '-40.00', '65.00', '1.30', '63.70'],
    ]);
  });

  it('is not there where no card is taken, nor for a quarter', () => {
    expect(rowIn(year, 'processed.door.gross')).toBeUndefined();
    expect(rowIn(summaryOf(book, { period: '2025-Q2' }), 'processed.shop.gross')).toBeUndefined();
  });
});
