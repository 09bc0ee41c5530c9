/** The tax summary of a small studio, reckoned by hand. */
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { taxPeriod } from '../../src/reckon/tax/tax-period.ts';
import { quarterTable } from '../../src/report/quarter/quarter.ts';
import { bookFrom } from '../helpers/book.ts';
import { builtIn, figureIn, figuresIn, rowIn, summaryOf } from '../helpers/quarter.ts';

const SETTINGS = `
format: 1
name: Hill Street
currency: USD
closed-through: 2025-05-31
categories: { kiln-insurance: insurance, permits: "23", gifts: nowhere, booth: "8" }
`;

const FILES = {
  studio: SETTINGS,
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  products: 'mug: { name: Mug, clay: { material: clay, each: 1 kg }, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: electricity }',
  channels: `
door: { name: Door, kind: direct }
shop: { name: Shop, kind: online, tax-place: County, fee-percent: 10% }
gallery: { name: Gallery, kind: consignment, commission: 40% }
`,
  bought: `
b1: { date: 2025-01-02, supplier: Pit, lines: [{ material: clay, quantity: 10 kg, cost: 20 }] }
b2: { date: 2025-05-02, supplier: Pit, paid: no, lines: [{ material: clay, quantity: 10 kg, cost: 20 }] }
`,
  pieces: `
p1:
  date: 2025-01-03
  product: mug
  made: 10
  gone:
    - { date: 2025-05-05, count: 1, how: kept }
    - { date: 2025-05-05, count: 2, how: gift }
`,
  firings:
    'f1: { date: 2025-01-05, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 10, first: 10 }] }',
  consigned:
    'g1: { date: 2025-04-01, channel: gallery, sent: [{ product: mug, count: 1, price: 40 }] }',
  sales: `
s1: { date: 2025-03-20, channel: door, paid: 2025-04-02, lines: [{ product: mug, count: 1, price: 30 }] }
s2: { date: 2025-04-10, channel: shop, fee: 3, commission: 2, discount: 5, shipping: 8, tax: 4, lines: [{ product: mug, count: 2, price: 30 }] }
s3: { date: 2025-06-20, channel: gallery, paid: no, lines: [{ product: mug, count: 1, price: 40 }] }
s4: { date: 2025-06-21, channel: door, paid: no, lines: [{ for: hire of the kiln, count: 1, price: 25 }, { for: a talk, count: 1, price: 15 }] }
s5: { date: 2025-06-22, channel: shop, lines: [{ product: mug, count: 1, price: 30, returned: yes }] }
`,
  spent: `
e1: { date: 2025-03-30, to: Insurer, for: kiln-insurance, amount: 50, paid: 2025-04-01 }
e2: { date: 2025-04-05, to: Town, for: permits, amount: 7 }
e3: { date: 2025-04-06, to: Florist, for: gifts, amount: 9 }
e4: { date: 2025-04-07, to: Fair, for: booth, amount: 80, paid: no }
e5: { date: 2025-04-08, to: Somebody, for: other, amount: 4 }
e6: { date: 2025-04-09, to: Bookseller, for: purchases, amount: 6 }
e7: { date: 2025-04-11, to: Garage, for: car, amount: 12, distance: 16.09344 km }
`,
};

const book = bookFrom(FILES);
const cash = summaryOf(book, { period: '2025-Q2' });
const accrual = summaryOf(book, { period: '2025-Q2', basis: 'accrual' });

describe('income', () => {
  it('counts on the day it is paid, or on its date', () => {
    const items = ['sales.door', 'sales.shop', 'consignment.gallery', 'firing', 'other-income'];
    expect(figuresIn(cash, items)).toEqual(['30.00', '60.00', undefined, undefined, undefined]);
    expect(figuresIn(accrual, items)).toEqual(['0.00', '60.00', '40.00', '25.00', '15.00']);
  });

  it('has shipping, discounts and returns apart, and no sales tax', () => {
    expect(figuresIn(cash, ['shipping', 'discounts', 'returns', 'income'])).toEqual([
      '8.00',
      '-5.00',
      '-30.00',
      '63.00',
    ]);
    expect(figuresIn(cash, ['sales-tax.County', 'sales-there.County'])).toEqual(['4.00', '25.00']);
  });

  it('is on lines 1 and 2, with other work of the trade', () => {
    expect(
      figuresIn(accrual, ['line.gross-receipts', 'line.returns', 'line.other-income']),
    ).toEqual(['143.00', '30.00', '0.00']);
  });
});

describe('expenses', () => {
  it('part what a shop kept into its fee and its commission', () => {
    // The return of s5 bears no fee, for nothing came in; s2 bears 3 and 2.
    expect(figuresIn(cash, ['expense.card-fees', 'expense.gallery-commissions'])).toEqual([
      '3.00',
      '2.00',
    ]);
  });

  it('of the studio’s own categories are on the line that it says', () => {
    expect(rowIn(cash, 'expense.kiln-insurance')).toMatchObject({ sheetLine: '15' });
    expect(rowIn(cash, 'expense.permits')).toMatchObject({ sheetLine: '23' });
    expect(rowIn(accrual, 'expense.booth')).toMatchObject({ sheetLine: '8' });
    expect(figuresIn(accrual, ['line.insurance', 'line.licences', 'line.advertising'])).toEqual([
      '0.00',
      '7.00',
      '80.00',
    ]);
  });

  it('that are on no line are told, and make the difference to the profit', () => {
    expect(rowIn(cash, 'missing.no-line.gifts')).toMatchObject({
      name: '1 expense for gifts: not on any line of the sheet (e3)',
    });
    expect(rowIn(cash, 'line.none')).toMatchObject({
      name: 'In the profit, but not on this sheet: gifts, spent.purchases',
    });
    expect(figureIn(cash, 'line.none')).toBe('-15.00');
  });

  it('never pass for another amount of the book, whatever their category is called', () => {
    expect(figuresIn(cash, ['expense.purchases', 'purchases', 'line.purchases'])).toEqual([
      '6.00',
      '20.00',
      '18.00',
    ]);
  });
});

describe('cost of goods sold', () => {
  it('is what was there and was bought, less what was kept and what is there', () => {
    const items = ['opening', 'purchases', 'own-use', 'closing', 'cost-of-goods-sold'];
    // Each mug has clay for 2. Of 9 that are there 1 is kept, 2 given away, 3 sold, and 1 comes back.
    expect(figuresIn(cash, items)).toEqual(['18.00', '20.00', '2.00', '28.00', '8.00']);
    expect(figuresIn(cash, ['consumed.sold', 'consumed.given-away'])).toEqual(['4.00', '4.00']);
  });

  it('is the same on both bases', () => {
    expect(figureIn(accrual, 'cost-of-goods-sold')).toBe('8.00');
  });
});

describe('the records behind the cost of goods', () => {
  const ids = (item: string): readonly string[] | undefined => {
    const row = cash.rows.findIndex((each) => each['item'] === item);
    return cash.behind?.()?.[row];
  };

  it('are what came and left in the period, and what stands at its end', () => {
    expect(ids('purchases')).toEqual(['b2']);
    expect(ids('own-use')).toEqual(['p1']);
    expect(ids('consumed.sold')).toEqual(['s2', 's3', 's5']);
    expect(ids('consumed.given-away')).toEqual(['p1']);
    expect(ids('consumed.lost')).toEqual([]);
    expect(ids('closing.materials-in-stock')).toEqual(['clay']);
    expect(ids('closing.finished-ware-studio')).toEqual(['p1']);
    expect(ids('opening.materials-in-stock')).toEqual([]);
  });

  it('are told apart from those of the year before the period', () => {
    const row = cash.rows.findIndex(({ item }) => item === 'purchases');
    expect(cash.further?.behind()?.[row]).toEqual(['b1']);
  });
});

describe('the two bases', () => {
  it('differ by what is listed', () => {
    const items = ['sales-unpaid', 'sales-paid', 'bills-unpaid', 'bills-paid'];
    expect(
      figuresIn(
        cash,
        items.map((item) => `basis.${item}`),
      ),
    ).toEqual(['64.00', '-30.00', '-80.00', '50.00']);
    const profits = ['basis.cash', 'basis.accrual', 'net-profit'];
    expect(figuresIn(cash, profits)).toEqual(['-38.00', '-34.00', '-38.00']);
    expect(figuresIn(accrual, profits)).toEqual(['-38.00', '-34.00', '-34.00']);
  });

  it('name the records', () => {
    const at = cash.rows.findIndex(({ item }) => item === 'basis.sales-unpaid');
    expect(cash.behind?.()?.[at]).toEqual(['s3', 's4']);
  });
});

describe('what to look at', () => {
  it('has what is unpaid at the end, and what has no place of sales tax', () => {
    const rows = ['no-tax-place.door', 'unpaid-consignment', 'unpaid-sales', 'unpaid-bills'];
    expect(rows.map((row) => rowIn(cash, `missing.${row}`)?.['name'])).toEqual([
      'Door: 1 sale, no place for sales tax (s1)',
      'Galleries owe for 1 statement (s3)',
      'Buyers owe for 1 sale (s4)',
      'You owe 2 bills (e4, b2)',
    ]);
    expect(
      figuresIn(
        cash,
        rows.map((row) => `missing.${row}`),
      ),
    ).toEqual(['30.00', '24.00', '40.00', '100.00']);
  });

  it('has what was spent on nothing in particular', () => {
    expect(rowIn(cash, 'missing.other-expenses.other')).toMatchObject({
      name: '1 expense for other: say what for (e5)',
    });
  });
});

describe('driving', () => {
  it('stands beside the car expenses, and is not taken off', () => {
    expect(figuresIn(cash, ['distance', 'distance.car', 'line.car'])).toEqual([
      '7.00',
      '12.00',
      '12.00',
    ]);
    expect(rowIn(cash, 'distance')).toMatchObject({ name: 'By the rate: 10 mi' });
  });
});

describe('what is closed', () => {
  it('is told of a period that is closed in part, wholly, or not at all', () => {
    const words = ['2025-Q1', '2025-Q2', '2025-Q3'].map(
      (period) => rowIn(summaryOf(book, { period }), 'closed')?.['name'],
    );
    expect(words).toEqual([
      'Books closed: all of this period (closed through 2025-05-31)',
      'Books closed: its days through 2025-05-31',
      'Books closed: not this period (closed through 2025-05-31)',
    ]);
  });

  it('has the records that were changed since', () => {
    const period = taxPeriod('2025-Q2');
    if (!period) throw new Error('no period');
    const table = quarterTable(book, flow(book, '2025-06-30'), {
      period,
      sheet: builtIn('plain'),
      changedSinceClosed: [{ id: 's2', words: 'price changed' }, { id: 'e2' }],
    });
    expect(rowIn(table, 'closed.s2')).toMatchObject({ name: 's2: price changed' });
    expect(rowIn(table, 'closed.e2')).toMatchObject({ name: 'e2: changed since' });
  });

  it('names the first twelve of many, and counts the rest', () => {
    const period = taxPeriod('2025-Q2');
    if (!period) throw new Error('no period');
    const ids = Array.from({ length: 15 }, (_, index) => `e${String(index)}`);
    const table = quarterTable(book, flow(book, '2025-06-30'), {
      period,
      sheet: builtIn('plain'),
      changedSinceClosed: ids.map((id) => ({ id })),
    });
    const named = table.rows.filter(({ item }) => String(item).startsWith('closed.'));
    expect(named).toHaveLength(13);
    expect(named.at(-1)).toMatchObject({
      name: 'and 3 more records, to be read with: saggar review',
    });
    expect(table.behind?.()?.[table.rows.indexOf(named.at(-1) ?? {})]).toEqual(ids.slice(12));
  });
});

describe('the notes', () => {
  it('say first what it is, and leave the rest to those who may decide', () => {
    expect(cash.notes[0]).toBe(
      'A summary for a tax preparer, not advice: local rules and licensed advice decide what counts, and where.',
    );
  });

  it('say that a period is not over', () => {
    const early = summaryOf(book, { period: '2025-Q2', asOf: '2025-05-31' });
    expect(early.notes).toContain('The period is not over: these figures go up to 2025-05-31.');
    expect(cash.notes.join(' ')).not.toContain('is not over');
  });

  it('say that a sheet is for another year, currency or start of the year', () => {
    const other = summaryOf(book, { period: '2025-Q2', sheet: 'us-schedule-c-2024' });
    const uk = summaryOf(book, { period: '2025-Q2', sheet: 'uk-sa103s' });
    expect(other.notes).toContain('The sheet is for 2024, and not for 2025: lines may have moved.');
    expect(uk.notes).toContain('The sheet is in GBP, and the book in USD.');
    expect(uk.notes).toContain("The sheet's year starts on 04-06, and the studio's on 01-01.");
  });
});
