import { describe, expect, it } from 'vitest';
import type { Decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import { meanPrice } from '../../src/reckon/costs/kind-price.ts';
import { productCosts, type ProductCost } from '../../src/reckon/costs/product-cost.ts';
import { costsTable } from '../../src/report/costs.ts';
import { productCostTable } from '../../src/report/product-cost.ts';
import type { Row } from '../../src/report/table.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const SPAN = { from: '2026-01-01', to: '2026-01-31' };
const ASKED = { span: SPAN, by: 'space' as const };

/** Clay at 2.00 a kg, work at 6.00 an hour, and a fair that takes a tenth. */
const STUDIO: Files = {
  studio: 'format: 1\nname: Test studio\ncurrency: USD\nlabour-rate: 6.00\n',
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 50 kg, cost: 100.00 }] }',
  products:
    'jar: { name: Jar, clay: { material: clay, each: 1 kg }, minutes: 30, second: 9.00, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  pieces: `
j1: { date: 2026-01-02, product: jar, made: 2, title: Tall one, price: 20.00, clay: { each: 3 kg }, minutes: 120 }
j2: { date: 2026-01-02, product: jar, made: 2, price: 11.00, minutes: 60 }
j3: { date: 2026-01-02, product: jar, made: 1 }
j4: { date: 2026-01-02, product: jar, made: 1, price: 50.00 }
`,
  firings:
    'f1: { date: 2026-01-05, kiln: kiln, kind: once, load: [{ lot: j1, in: 2, first: 2 }, { lot: j2, in: 2, first: 1, lost: 1 }, { lot: j3, in: 1, second: 1 }] }',
  channels: `
spring: { name: Spring fair, kind: fair, fee-percent: 10% }
shop: { name: Shop, kind: wholesale }
`,
};

function jar(more: Files = {}): ProductCost {
  const book = bookFrom({ ...STUDIO, ...more });
  const { products } = productCosts(book, flow(book, SPAN.to), ASKED);
  return products[0] ?? expect.fail('no product');
}

function texts(row: Row | undefined, ...keys: string[]): unknown[] {
  return keys.map((key) => {
    const cell = row?.[key];
    return typeof cell === 'bigint' ? told(cell) : String(cell);
  });
}

function six(amount: Decimal | undefined): string | undefined {
  return amount?.toFixed(6);
}

describe('lots with a price of their own', () => {
  it('cost and leave what just they do', () => {
    const { lotPrices } = jar();
    // j3 has no price, and j4 has not come out.
    expect(lotPrices.map(({ lot, good }) => [lot.id, good])).toEqual([
      ['j1', 2],
      ['j2', 1],
    ]);
    // j1: 3 kg and an hour a piece, 6.00 + 6.00; 20.00 less a tenth leaves 6.00 beside the 6.00 of work.
    // j2: one of two is lost, so the good one bears 2 kg and an hour, 4.00 + 6.00; 9.90 are left of 11.00.
    const figures = lotPrices.map(({ cost, sold }) =>
      [cost.total, sold.margin, sold.perHour].map(six),
    );
    expect(figures).toEqual([
      ['12.000000', '6.000000', '12.000000'],
      ['10.000000', '-0.100000', '5.900000'],
    ]);
    expect(lotPrices.map(({ sold }) => sold.kind)).toEqual(['fair', 'fair']);
  });

  it('are none where there is nobody to sell to but dealers', () => {
    expect(jar({ channels: 'shop: { name: Shop, kind: wholesale }' }).lotPrices).toEqual([]);
  });

  it('leave on average what their mean price does at the cost of all', () => {
    const { lotPrices, cost } = jar();
    // All three: 9 kg and 210 minutes, 18.00 + 21.00 over four good ones.
    expect([cost.total, cost.minutes].map(six)).toEqual(['9.750000', '52.500000']);
    // (2 × 20.00 + 11.00) ÷ 3; (2 × 18.00 + 9.90) ÷ 3 − 9.75; (5.55 + 5.25) × 60 ÷ 52.5.
    const { price, margin, perHour, kind } = meanPrice(lotPrices, cost) ?? expect.fail('no mean');
    expect([price, margin, perHour].map(six)).toEqual(['17.000000', '5.550000', '12.342857']);
    expect(kind).toBe('fair');
    expect(meanPrice([], cost)).toBeUndefined();
  });

  it('are rows of the product, and its price where it has none', () => {
    const book = bookFrom(STUDIO);
    const flows = flow(book, SPAN.to);
    const table = productCostTable(book, flows, { product: 'jar', ...ASKED });
    const rows = table?.rows.filter(({ part }) => part === 'Lots at a price of their own') ?? [];
    const shown = rows.map((row) => texts(row, 'item', 'lot', 'lotCost', 'floor', 'margin'));
    // 13.33 less a fee of 1.33 is 12.00, and 11.11 less 1.11 is 10.00.
    expect(shown).toEqual([
      ['Tall one', 'j1', '12', '13.33', '6'],
      ['j2', 'j2', '10', '11.11', '-0.1'],
    ]);
    const at = table?.rows.findIndex(({ item }) => item === 'Tall one') ?? -1;
    expect(table?.behind?.()?.[at]).toEqual(['j1', 'spring']);
    const overview = costsTable(book, flows, ASKED);
    expect(texts(overview.rows[0], 'price', 'margin')).toEqual(['17', '5.55']);
    expect(overview.notes).toContain(
      'Priced lot by lot, so the price is the mean of the lots that have one: jar.',
    );
  });

  it('leave the price of the product alone where it has one', () => {
    const products = STUDIO.products?.replace('second: 9.00', 'price: 15.00') ?? '';
    const book = bookFrom({ ...STUDIO, products });
    const { rows, notes } = costsTable(book, flow(book, SPAN.to), ASKED);
    // 15.00 less a tenth less 9.75.
    expect(texts(rows[0], 'price', 'margin')).toEqual(['15.00', '3.75']);
    expect(notes.join(' ')).not.toContain('lot by lot');
  });
});

describe('a second', () => {
  it('costs what a first does, and leaves less', () => {
    // 9.00 less a tenth less 9.75; (−1.65 + 5.25) × 60 ÷ 52.5.
    const { second } = jar();
    expect([second?.margin, second?.perHour].map(six)).toEqual(['-1.650000', '4.114286']);
    const book = bookFrom(STUDIO);
    const flows = flow(book, SPAN.to);
    const table = productCostTable(book, flows, { product: 'jar', ...ASKED });
    const row = table?.rows.find(({ item }) => item === 'second, fair');
    expect(texts(row, 'part', 'price', 'margin')).toEqual(['What it is sold for', '9.00', '-1.65']);
    expect(table?.verdict?.sentence).toBe(
      'Sold below cost: a second at 9.00 loses 1.65 per piece.',
    );
    const overview = costsTable(book, flows, ASKED);
    expect(texts(overview.rows[0], 'secondPrice', 'marginSecond')).toEqual(['9.00', '-1.65']);
    expect(overview.notes).toContain('Seconds sold below cost: jar.');
  });

  it('is none without a price for it', () => {
    const products = STUDIO.products?.replace('second: 9.00, ', '') ?? '';
    expect(jar({ products }).second).toBeUndefined();
  });
});
