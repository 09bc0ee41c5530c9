/** Payments ahead, the car by its rate and payees, against the forms in print, each through a book. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import type { Money } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { taxView } from '../../src/reckon/tax/tax-view.ts';
import { expenseChart } from '../../src/report/charts/tax.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';
import { builtIn, figureIn, figuresIn, summaryOf } from '../helpers/quarter.ts';

const CHANNELS = 'door: { name: Door, kind: direct, tax-place: County }';

/** A book of sales for so much on days, without goods. */
function takings(...sales: readonly (readonly [day: string, amount: string])[]): Book {
  const lines = sales.map(
    ([day, amount], at) =>
      `s${at}: { date: ${day}, channel: door, lines: [{ for: work, count: 1, price: ${amount} }] }`,
  );
  return bookFrom({ channels: CHANNELS, sales: lines.join('\n') });
}
// IRS Form 2210, Schedule AI, lines 2 and 23 to 26: 22.5, 45, 67.5 and 90 % of the tax on the annualized
// income, less what the earlier columns required. Profits of Publication 505 for 2008, figure 2-E; the
// tax computed here: .9235 × 52,812 = 48,771.88; × .124 = 6,047.71, × .029 = 1,414.38, together
// 7,462.09; × .225 = 1,678.97; and so on (45,037 × 1.5 = 67,555.50).
describe('the annualized method', () => {
  const book = takings(
    ['2025-03-31', '13203'],
    ['2025-05-31', '9952'],
    ['2025-08-31', '21882'],
    ['2025-12-31', '36719'],
  );
  const asked = (key: string, of = book): (string | undefined)[] => {
    const items = [1, 2, 3, 4].map((each) => `estimate.${each}.${key}`);
    return figuresIn(summaryOf(of, { period: '2025' }), items);
  };

  it('asks for its share of the tax by each day', () => {
    expect(asked('tax')).toEqual(['7462.09', '7852.07', '9545.29', '11551.76']);
    expect(asked('set-aside')).toEqual(['1678.97', '3533.43', '6443.07', '10396.58']);
    expect(asked('payment')).toEqual(['1678.97', '1854.46', '2909.64', '3953.51']);
  });

  it('asks for nothing more where the year got worse', () => {
    const worse = bookFrom({
      channels: CHANNELS,
      sales:
        's1: { date: 2025-03-31, channel: door, lines: [{ for: work, count: 1, price: 40000 }] }',
      spent: 'e1: { date: 2025-05-01, to: Builder, for: repairs, amount: 39000 }',
    });
    expect(asked('payment', worse).slice(1)).toEqual(['0.00', '0.00', '0.00']);
  });

  it('shows a payment until the day that it is due', () => {
    const on = (asOf: string): string[] =>
      summaryOf(book, { period: '2025-Q2', asOf }).rows.flatMap(({ item }) =>
        /^estimate\.\d\.payment$/.test(String(item)) ? [String(item)] : [],
      );
    expect([on('2025-04-10'), on('2025-04-15'), on('2025-04-16'), on('2025-06-05')]).toEqual([
      ['estimate.1.payment'],
      ['estimate.1.payment'],
      [],
      ['estimate.2.payment'],
    ]);
  });
});

// IRS Form 2210, part I: a quarter, each time, of 100 % of last year's tax, 110 % where the income was
// above 150,000; of 90 % of this year's where that is less.
describe('the regular method', () => {
  const regular = (lastYear: string, key: string): (string | undefined)[] => {
    const book = bookFrom({
      studio: `format: 1\nname: A studio\ncurrency: USD\ntax-years: [{ year: "2024", ${lastYear} }]\n`,
      channels: CHANNELS,
      sales:
        's0: { date: 2025-02-01, channel: door, lines: [{ for: work, count: 1, price: 38500 }] }',
    });
    const items = [1, 2, 3, 4].map((each) => `estimate.${each}.${key}`);
    return figuresIn(summaryOf(book, { period: '2025' }), items);
  };

  it('asks for a quarter of last year’s tax each time', () => {
    expect(regular('tax: 4000', 'regular-payment')).toEqual(Array(4).fill('1000.00'));
    expect(regular('tax: 4000, income: 150000', 'regular-payment')).toEqual(
      Array(4).fill('1000.00'),
    );
  });

  it('asks for 110 % of it where the income was high', () => {
    expect(regular('tax: 4000, income: 150000.01', 'regular-set-aside')).toEqual([
      '1100.00',
      '2200.00',
      '3300.00',
      '4400.00',
    ]);
  });

  it('asks for no more than 90 % of this year’s tax once the year is over', () => {
    // .9 × 5,439.88 = 4,895.89.
    expect(regular('tax: 6000', 'regular-year')[3]).toBe('4895.89');
  });

  it('is left out where last year’s tax is not known', () => {
    expect(regular('tax: 4000', 'regular-year')[0]).toBe('4000.00');
    const none = summaryOf(takings(['2025-02-01', '38500']), { period: '2025' });
    expect(figureIn(none, 'estimate.1.regular-year')).toBeUndefined();
  });
});

// IRS Notice 2026-10: 72.5 cents a mile. The rate takes the place of what the car cost.
describe('the car by its rate', () => {
  const book = (year: string): Book =>
    bookFrom({
      studio: 'format: 1\nname: A studio\ncurrency: USD\ncar: mileage\n',
      spent: `
e1: { date: ${year}-02-01, to: Garage, for: car, amount: 90, distance: 100 mi }
e2: { date: ${year}-02-01, to: Caterer, for: contract, amount: 1999.99 }
e3: { date: ${year}-02-02, to: Helper, for: contract, amount: 1000 }
e4: { date: ${year}-03-02, to: helper, for: contract, amount: 1000 }`,
    });

  it('is on line 9, and not what it cost', () => {
    const summary = summaryOf(book('2026'), { period: '2026', sheet: 'us-schedule-c-2026' });
    expect(figuresIn(summary, ['line.car', 'expense.mileage', 'expense.car'])).toEqual([
      '72.50',
      '72.50',
      undefined,
    ]);
  });

  it('is in the chart of expenses as in their total: 72.50 and what was paid to others', () => {
    const year = book('2026');
    const view = {
      ...taxView(year, flow(year, '2026-12-31')),
      sheet: builtIn('us-schedule-c-2026'),
    };
    const { table } = expenseChart(view, { from: '2026-01-01', to: '2026-12-31' });
    expect(told(table.totals?.['amount'] as Money)).toBe('4072.49');
  });

  // Form 1099-NEC: 600 through 2025, 2,000 from 2026, from memory.
  it('stands beside payees who were paid the least for an information return', () => {
    const payees = (year: string): unknown[] =>
      summaryOf(book(year), { period: year, sheet: `us-schedule-c-${year}` })
        .rows.filter(({ item }) => String(item).startsWith('payee.'))
        .map(({ name }) => name);
    expect([payees('2025'), payees('2026')]).toEqual([['Caterer', 'Helper'], ['Helper']]);
  });
});
