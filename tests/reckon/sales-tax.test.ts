/** What becomes of collected sales tax: by place, paid over, and never an expense anywhere. */
import { describe, expect, it } from 'vitest';
import { dayFigures } from '../../src/reckon/day.ts';
import { owedByStudio } from '../../src/reckon/sales/debts.ts';
import { fairFigures } from '../../src/reckon/sales/fair.ts';
import { flow } from '../../src/reckon/flow.ts';
import { overheadOf } from '../../src/reckon/costs/overhead.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { figureIn, figuresIn, summaryOf } from '../helpers/quarter.ts';
import { told } from '../helpers/minor.ts';

const FILES: Files = {
  studio:
    'format: 1\nname: Test studio\ncurrency: USD\ntaxes: [{ place: County, percent: 6.5%, from: 2025-01-01, taxes: [ware, shipping] }]',
  channels: [
    'door: { name: Door, kind: direct, tax-place: County }',
    'fair: { name: Fair, kind: fair, tax-place: County, tax-included: 6.5% }',
  ].join('\n'),
  products: 'mug: { name: Mug }\nseeds: { name: Seeds, taxed: no }',
  classes: 'throwing: { name: Throwing, starts: 2025-02-03 }',
  fairs: 'k1: { date: 2025-02-08, name: Fair, channel: fair }',
  sales: [
    // 600.00 of ware and 39.00 of tax; 10.00 and a class of 90.00 without; shipping of 20.00 with 1.30.
    's1: { date: 2025-02-03, channel: door, tax: 40.30, shipping: 20, lines: [{ product: mug, count: 20, price: 30 }, { product: seeds, count: 1, price: 10 }, { class: throwing, count: 1, price: 90 }] }',
    // No tax on record, so none of it is taxed.
    's2: { date: 2025-02-04, channel: door, lines: [{ product: mug, count: 1, price: 30 }] }',
    // 30.00 given back with 1.95.
    's3: { date: 2025-02-05, channel: door, tax: 1.95, lines: [{ product: mug, count: 1, price: 30, returned: yes }] }',
    // Paid in April: of the second quarter on the cash basis.
    's4: { date: 2025-03-30, paid: 2025-04-02, channel: door, tax: 6.50, lines: [{ product: mug, count: 1, price: 100 }] }',
  ].join('\n'),
};

function withSpent(spent: string, more: Files = {}): ReturnType<typeof bookFrom> {
  return bookFrom({ ...FILES, ...more, spent });
}

const PAID =
  'e1: { date: 2025-03-20, to: County, for: sales-tax, tax-place: County, amount: 42.00, fair: k1 }';

/** Figures of the place, from the sales to what is owed. */
const ROWS = [
  'sales-there',
  'sales-taxed',
  'sales-untaxed',
  'shipping-taxed',
  'opening-tax',
  'sales-tax',
  'sales-tax-back',
  'sales-tax-paid',
  'closing-tax',
].map((item) => `${item}.County`);

describe('sales tax by place', () => {
  it('keeps taxed sales apart from others, and follows the tax until it is paid over', () => {
    const first = summaryOf(withSpent(PAID), { period: '2025-Q1', asOf: '2025-12-31' });
    expect(figuresIn(first, ROWS)).toEqual([
      // 600 + 10 + 90 + 30 − 30; taxed 600 − 30; not taxed 10 + 90 + 30.
      ...['700.00', '570.00', '130.00', '20.00'],
      // 40.30 − 1.95 − 42.00.
      ...[undefined, '40.30', '-1.95', '-42.00', '-3.65'],
    ]);
    const second = summaryOf(withSpent(PAID), { period: '2025-Q2', asOf: '2025-12-31' });
    expect(figuresIn(second, ROWS)).toEqual([
      ...['100.00', '100.00', '0.00', '0.00'],
      ...['-3.65', '6.50', '0.00', '0.00', '2.85'],
    ]);
    expect(figureIn(second, 'opening-tax.County', 'toDate')).toBe('0.00');
  });

  it('is the same tax by the dates of the sales on the accrual basis', () => {
    const summary = summaryOf(withSpent(PAID), { period: '2025-Q1', basis: 'accrual' });
    // 40.30 + 6.50.
    expect(figuresIn(summary, ['sales-tax.County', 'closing-tax.County'])).toEqual([
      '46.80',
      '2.85',
    ]);
  });

  it('counts a payment on the day it is made, and not while it is still a bill', () => {
    const bill = PAID.replace('amount', 'paid: no, amount');
    const summary = summaryOf(withSpent(bill), { period: '2025-Q1' });
    expect(figuresIn(summary, ['sales-tax-paid.County', 'closing-tax.County'])).toEqual([
      undefined,
      '38.35',
    ]);
    expect(owedByStudio(withSpent(bill), '2025-03-31')).toEqual([]);
    const owed = dayFigures(withSpent(bill), flow(withSpent(bill), '2025-03-31')).taxOwed;
    expect(owed.map(({ place, amount }) => [place, told(amount, 2)])).toEqual([
      ['County', '38.35'],
    ]);
  });
});

describe('sales tax that is paid over', () => {
  const plain = bookFrom({
    sales: 's1: { date: 2025-02-03, channel: door, lines: [{ for: ware, count: 20, price: 30 }] }',
  });
  const span = { from: '2025-01-01', to: '2025-12-31' };

  it('leaves a profit of 600 at 600, on any sheet and either basis', () => {
    const spent =
      'e1: { date: 2025-03-20, to: County, for: sales-tax, tax-place: County, amount: 42.00 }';
    const book = bookFrom({
      sales:
        's1: { date: 2025-02-03, channel: door, lines: [{ for: ware, count: 20, price: 30 }] }',
      spent,
    });
    for (const sheet of ['us-schedule-c-2025', 'uk-sa103s', 'plain']) {
      for (const basis of ['cash', 'accrual'] as const) {
        const summary = summaryOf(book, { period: '2025-Q1', sheet, basis });
        const items = ['net-profit', 'line.net-profit', 'expenses', 'basis.cash', 'basis.accrual'];
        expect([sheet, ...figuresIn(summary, items)]).toEqual([
          sheet,
          ...['600.00', '600.00', '0.00', '600.00', '600.00'],
        ]);
        expect(
          summary.rows.filter(({ item }) => /^(missing|line\.none)/.test(String(item))),
        ).toEqual(
          summaryOf(plain, { period: '2025-Q1', sheet, basis }).rows.filter(({ item }) =>
            /^(missing|line\.none)/.test(String(item)),
          ),
        );
      }
    }
  });

  it('is no overhead, and no cost of the fair that it names', () => {
    const [book, without] = [withSpent(PAID), withSpent('')];
    const figures = ([each]: ReturnType<typeof fairFigures>): unknown => [
      each?.spent,
      each?.profit,
    ];
    expect(figures(fairFigures(book, flow(book, '2025-12-31')))).toEqual(
      figures(fairFigures(without, flow(without, '2025-12-31'))),
    );
    const studioOnly = withSpent(PAID.replace(', fair: k1', ''));
    const overhead = overheadOf(studioOnly, flow(studioOnly, '2025-12-31'), { span, by: 'space' });
    expect([overhead.total, overhead.records]).toEqual([0n, []]);
  });

  it('stays an expense where a studio has a category of its own by that name', () => {
    const studio = 'format: 1\nname: Test studio\ncurrency: USD\ncategories: { sales-tax: "23" }';
    const spent = 'e1: { date: 2025-03-20, to: County, for: sales-tax, amount: 42.00 }';
    const summary = summaryOf(withSpent(spent, { studio, sales: '' }), { period: '2025-Q1' });
    expect(figuresIn(summary, ['expense.sales-tax', 'net-profit'])).toEqual(['42.00', '-42.00']);
  });
});

describe('a studio that is not registered', () => {
  const studio = 'format: 1\nname: Test studio\ncurrency: USD\nsales-tax: none';
  const sales =
    's1: { date: 2025-02-03, channel: post, lines: [{ for: ware, count: 20, price: 30 }] }';
  const channels = 'post: { name: Post, kind: online }';

  it('is not asked for the place of sales from the day on that their channel is untaxed', () => {
    const changing =
      'post: { name: Post, kind: online, changes: [{ from: 2025-03-01, taxed: no }] }';
    const both = `${sales}
s2: { date: 2025-03-04, channel: post, lines: [{ for: ware, count: 1, price: 7 }] }`;
    const asked = summaryOf(bookFrom({ channels: changing, sales: both }), { period: '2025-Q1' });
    // The 600.00 of February alone, and not the 7.00 of March.
    expect(figureIn(asked, 'missing.no-tax-place.post')).toBe('600.00');
  });

  it('is said once, and no sale is asked for its place', () => {
    const asked = summaryOf(bookFrom({ channels, sales }), { period: '2025-Q1' });
    expect(figureIn(asked, 'missing.no-tax-place.post')).toBe('600.00');
    const { rows, notes } = summaryOf(bookFrom({ studio, channels, sales }), { period: '2025-Q1' });
    const items = rows.map(({ item }) => String(item));
    expect(items.filter((item) => item.includes('tax') && !item.startsWith('estimate.'))).toEqual(
      [],
    );
    expect(notes.filter((note) => note.includes('sales-tax: none'))).toHaveLength(1);
  });
});
