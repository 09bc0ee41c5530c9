/** The tax of a sale by the rate of its place, by hand: what is taxed, on which side, and from which day on. */
import { describe, expect, it } from 'vitest';
import { taxByRate } from '../../src/reckon/tax/sale-tax.ts';
import { bookFrom } from '../helpers/book.ts';
import { figuresIn, summaryOf } from '../helpers/quarter.ts';
import { told } from '../helpers/minor.ts';

const RATES = [
  '{ place: County, percent: 6.5%, from: 2026-01-01, taxes: [ware, shipping] }',
  '{ place: County, percent: 7%, from: 2026-04-01 }',
  '{ place: Town, percent: 10%, from: 2026-01-01, taxes: [ware, classes, firing, other], by: line }',
  '{ place: County, percent: 5%, from: 2025-01-01 }',
].join(', ');

interface At {
  readonly currency?: string;
  readonly digits?: number;
  readonly settings?: string;
}

/** The tax that is written with a sale; undefined where there is none to write. */
function taxOf(sale: string, { currency = 'USD', digits = 2, settings = '' }: At = {}): unknown {
  const book = bookFrom({
    studio: `{ format: 1, name: Test studio, currency: ${currency}, taxes: [${RATES}]${settings} }`,
    channels: [
      'door: { name: Door, kind: direct, tax-place: County }',
      'market: { name: Market, kind: fair, tax-place: Town }',
      'fair: { name: Fair, kind: fair, tax-place: County, tax-included: 6.5% }',
      'shop: { name: Shop, kind: wholesale, tax-place: County, taxed: no }',
      'post: { name: Post, kind: online }',
    ].join('\n'),
    products: 'mug: { name: Mug }\nseeds: { name: Seeds, taxed: no }',
    classes:
      'throwing: { name: Throwing, starts: 2026-03-01 }\nkids: { name: Kids, starts: 2026-03-01, taxed: yes }',
    sales: `s1: { ${sale} }`,
  });
  const record = book.sales.get('s1') ?? expect.fail('no sale');
  const tax = taxByRate(book, record)?.tax;
  return tax === undefined ? undefined : told(tax, digits);
}

const AT_DOOR = 'date: 2026-02-03, channel: door';
const MUGS = '{ product: mug, count: 4, price: 32 }';
const BACK = '{ product: mug, count: 1, price: 32, returned: yes }';

describe('the tax of a sale', () => {
  it('is of its ware, after discounts', () => {
    // 128 × .065 = 8.32; (128 − 10 %) × .065 = 7.488; (128 − 28) × .065 = 6.50.
    expect(taxOf(`${AT_DOOR}, lines: [${MUGS}]`)).toBe('8.32');
    expect(taxOf(`${AT_DOOR}, discount: 10%, lines: [${MUGS}]`)).toBe('7.49');
    expect(taxOf(`${AT_DOOR}, discount: 28, lines: [${MUGS}]`)).toBe('6.50');
  });

  it('leaves out lines that are not taxed, with their part of the discount', () => {
    // A discount of 20 on 128 + 32: 16 and 4; (128 − 16) × .065 = 7.28.
    const seeds = '{ product: seeds, count: 1, price: 32 }';
    const lines = `lines: [${MUGS}, ${seeds}, { class: throwing, count: 1, price: 90 }]`;
    expect(taxOf(`${AT_DOOR}, lines: [${MUGS}, ${seeds}], discount: 20`)).toBe('7.28');
    expect(taxOf(`${AT_DOOR}, ${lines}`)).toBe('8.32');
    expect(taxOf(`${AT_DOOR}, lines: [${seeds}]`)).toBeUndefined();
  });

  it('goes by what a line says, then its channel, then its product or class, then its place', () => {
    const line = (words: string): string => `lines: [{ ${words}, count: 1, price: 100 }]`;
    expect(taxOf(`${AT_DOOR}, ${line('product: mug, taxed: no')}`)).toBeUndefined();
    expect(taxOf(`${AT_DOOR}, ${line('product: seeds, taxed: yes')}`)).toBe('6.50');
    expect(taxOf(`${AT_DOOR}, ${line('class: kids')}`)).toBe('6.50');
    expect(taxOf(`${AT_DOOR}, ${line('for: kiln rental')}`)).toBeUndefined();
    const shop = 'date: 2026-02-03, channel: shop';
    expect(taxOf(`${shop}, ${line('product: mug')}`)).toBeUndefined();
    expect(taxOf(`${shop}, ${line('class: kids')}`)).toBeUndefined();
    expect(taxOf(`${shop}, ${line('product: mug, taxed: yes')}`)).toBe('6.50');
    const market = 'date: 2026-02-03, channel: market';
    expect(taxOf(`${market}, ${line('class: throwing')}`)).toBe('10.00');
    expect(taxOf(`${market}, ${line('for: kiln rental')}`)).toBe('10.00');
    expect(taxOf(`${market}, ${line('for: repair work')}`)).toBe('10.00');
  });

  it('of a return alone is what is given back, and of an exchange is of two sides', () => {
    // 32 × .065 = 2.08; 128 × .065 − 2.08 = 6.24; 1.50 × .07 = .105 and .50 × .07 = .035: .11 − .04.
    expect(taxOf(`${AT_DOOR}, lines: [${BACK}]`)).toBe('2.08');
    expect(taxOf(`${AT_DOOR}, lines: [${MUGS}, ${BACK}]`)).toBe('6.24');
    const cheap =
      '{ product: mug, count: 1, price: 1.50 }, { product: mug, count: 1, price: .50, returned: yes }';
    expect(
      taxOf(`date: 2026-04-01, channel: door, lines: [${cheap.replace(' .50', ' 0.50')}]`),
    ).toBe('0.07');
    // More comes back than is sold: 32 − 128 is −96, × .065 = −6.24.
    const more =
      '{ product: mug, count: 4, price: 32, returned: yes }, { product: mug, count: 1, price: 32 }';
    expect(taxOf(`${AT_DOOR}, lines: [${more}]`)).toBe('-6.24');
  });

  it('is of shipping where the place taxes it', () => {
    // (128 + 10) × .065 = 8.97; given back with the ware, (32 + 10) × .065 = 2.73.
    expect(taxOf(`${AT_DOOR}, shipping: 10, lines: [${MUGS}]`)).toBe('8.97');
    expect(taxOf(`${AT_DOOR}, shipping: 10, lines: [${BACK}]`)).toBe('2.73');
    expect(taxOf(`date: 2026-04-01, channel: door, shipping: 10, lines: [${MUGS}]`)).toBe('8.96');
  });

  it('goes by the rate that is in force on its day, whatever the order of the entries', () => {
    // 128 × .065 on the last day, 128 × .07 on the first, 128 × .05 the year before; none earlier.
    expect(taxOf(`date: 2026-03-31, channel: door, lines: [${MUGS}]`)).toBe('8.32');
    expect(taxOf(`date: 2026-04-01, channel: door, lines: [${MUGS}]`)).toBe('8.96');
    expect(taxOf(`date: 2025-12-31, channel: door, lines: [${MUGS}]`)).toBe('6.40');
    expect(taxOf(`date: 2024-12-31, channel: door, lines: [${MUGS}]`)).toBeUndefined();
  });

  it('goes by the place of the sale, else of its channel', () => {
    expect(taxOf(`date: 2026-02-03, channel: post, lines: [${MUGS}]`)).toBeUndefined();
    expect(taxOf(`date: 2026-02-03, channel: post, tax-place: Town, lines: [${MUGS}]`)).toBe(
      '12.80',
    );
    expect(taxOf(`${AT_DOOR}, tax-place: Town, lines: [${MUGS}]`)).toBe('12.80');
  });

  it('is not added where the prices have it in them, or nobody is registered', () => {
    expect(taxOf(`date: 2026-02-03, channel: fair, lines: [${MUGS}]`)).toBeUndefined();
    const settings = ', sales-tax: none';
    expect(taxOf(`${AT_DOOR}, lines: [${MUGS}]`, { settings })).toBeUndefined();
  });

  it('is of whole minor units of any currency', () => {
    // 1,230 × .065 = 79.95 yen; 1.234 × .065 = .08021 dinar; lines of 5 and 5 yen at 10 %: 1 + 1, not 1.
    const yen = { currency: 'JPY', digits: 0 };
    const dinar = { currency: 'KWD', digits: 3 };
    const at = (where: string, ...prices: string[]): string =>
      `date: 2026-02-03, channel: ${where}, lines: [${prices.map((price) => `{ product: mug, count: 1, price: ${price} }`).join(', ')}]`;
    expect(taxOf(at('door', '1230'), yen)).toBe('80');
    expect(taxOf(at('door', '1.234'), dinar)).toBe('0.080');
    expect(taxOf(at('market', '5', '5'), yen)).toBe('2');
  });
});

describe('a line without tax where the prices have a tax in them', () => {
  it('has none in its price, and the whole of what it brings is not taxed', () => {
    // 106.50 holds 6.50; the 20 of the other line hold nothing; 100 + 20 are sales.
    const book = bookFrom({
      channels: 'fair: { name: Fair, kind: fair, tax-place: County, tax-included: 6.5% }',
      products: 'mug: { name: Mug }\nseeds: { name: Seeds, taxed: no }',
      sales:
        's1: { date: 2025-01-03, channel: fair, lines: [{ product: mug, count: 1, price: 106.50 }, { product: seeds, count: 1, price: 20 }] }',
    });
    const items = ['sales-there', 'sales-taxed', 'sales-untaxed', 'sales-tax'];
    const summary = summaryOf(book, { period: '2025-Q1' });
    expect(
      figuresIn(
        summary,
        items.map((item) => `${item}.County`),
      ),
    ).toEqual(['120.00', '100.00', '20.00', '6.50']);
  });
});
