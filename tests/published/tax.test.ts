/** The tax summary against figures in print, each through a book. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { decimal, roundTo } from '../../src/number/decimal.ts';
import { bookFrom } from '../helpers/book.ts';
import { figureIn, figuresIn, rowIn, summaryOf } from '../helpers/quarter.ts';

const CHANNELS = 'door: { name: Door, kind: direct, tax-place: County }';

/** A book of sales for so much on days, without goods. */
function takings(...sales: readonly (readonly [day: string, amount: string])[]): Book {
  const lines = sales.map(
    ([day, amount], at) =>
      `s${at}: { date: ${day}, channel: door, lines: [{ for: work, count: 1, price: ${amount} }] }`,
  );
  return bookFrom({ channels: CHANNELS, sales: lines.join('\n') });
}

function wholeMoney(text: string | undefined): string {
  return roundTo(decimal(text ?? 'none'), 0).toFixed();
}

// IRS Publication 505 for 2001, example 2.9, whose rates are those of 2025.
describe('self-employment tax', () => {
  const summary = summaryOf(takings(['2025-12-01', '38500']), { period: '2025' });

  it('on a profit of 38,500: 35,555 of it, 4,409 and 1,031', () => {
    const figures = ['earnings', 'social-security', 'medicare'].map((key) =>
      wholeMoney(figureIn(summary, `estimate.4.${key}`)),
    );
    expect(figures).toEqual(['35555', '4409', '1031']);
    // To the cent, computed here: .9235 × 38,500 = 35,554.75; half of 5,439.88.
    expect(figuresIn(summary, ['estimate.4.self-employment', 'estimate.4.half'])).toEqual([
      '5439.88',
      '2719.94',
    ]);
  });

  // IRS Schedule SE: less than 400 of net earnings owes nothing; .9235 × 433 = 399.88, × 434 = 400.80.
  it('is nothing where less than 400 is left of the profit', () => {
    const taxOn = (profit: string): string | undefined =>
      figureIn(
        summaryOf(takings(['2025-12-01', profit]), { period: '2025' }),
        'estimate.4.self-employment',
      );
    expect([taxOn('433'), taxOn('434')]).toEqual(['0.00', '61.32']);
  });

  // Wage bases: contribution and benefit bases of the Social Security Administration, from memory.
  // 12.4 % of them, computed here.
  it.each([
    ['2024', '20906.40'],
    ['2025', '21836.40'],
    ['2026', '22878.00'],
  ])('has the social security of %s up to the wage base: %s', (year, most) => {
    const rich = summaryOf(takings([`${year}-03-01`, '900000']), {
      period: year,
      sheet: `us-schedule-c-${year}`,
    });
    expect(figureIn(rich, 'estimate.4.social-security')).toBe(most);
  });

  it('with income tax at one’s own rate is what to set aside', () => {
    const own = summaryOf(takings(['2025-12-01', '38500']), { period: '2025', taxRate: '0.22' });
    // .22 × (38,500 − 2,719.94) = 7,871.61, with 5,439.88 together 13,311.49; 90 % of it by the due
    // date (Form 2210, Schedule AI, line 23); computed here.
    const items = ['income-tax', 'tax', 'set-aside'].map((key) => `estimate.4.${key}`);
    expect(figuresIn(own, items)).toEqual(['7871.61', '13311.49', '11980.34']);
  });

  it('is left out for a business year that is not the calendar’s, and says so', () => {
    const studio = 'format: 1\nname: A studio\ncurrency: USD\nyear-starts: "07-01"\n';
    const sales =
      's1: { date: 2025-12-01, channel: door, lines: [{ for: work, count: 1, price: 900 }] }';
    const { rows, notes } = summaryOf(bookFrom({ studio, channels: CHANNELS, sales }), {
      period: '2025',
    });
    expect(rows.filter(({ item }) => String(item).startsWith('estimate'))).toEqual([]);
    expect(notes.join(' ')).toContain('Estimated tax is left out: its periods are those of a year');
  });

  it('is left out for a year without figures, and says so', () => {
    const { rows, notes } = summaryOf(takings(['2027-12-01', '38500']), {
      period: '2027',
      sheet: 'us-schedule-c-2026',
    });
    expect(rows.filter(({ item }) => String(item).startsWith('estimate'))).toEqual([]);
    expect(notes).toContain(
      'Estimated tax is left out: there are no figures for 2027 in this sheet.',
    );
  });
});

// IRS Publication 505 for 2008, figure 2-E: profit to the end of each period, and a year's.
describe('annualised income', () => {
  const book = takings(
    ['2025-03-31', '13203'],
    ['2025-05-31', '9952'],
    ['2025-08-31', '21882'],
    ['2025-12-31', '36719'],
  );
  const periods = [1, 2, 3, 4];
  const summary = summaryOf(book, { period: '2025' });

  it('is 52,812, 55,572, 67,556 and 81,756', () => {
    const items = (key: string): string[] => periods.map((each) => `estimate.${each}.${key}`);
    expect(figuresIn(summary, items('profit'))).toEqual([
      '13203.00',
      '23155.00',
      '45037.00',
      '81756.00',
    ]);
    const year = figuresIn(summary, items('annualised')).map(wholeMoney);
    expect(year).toEqual(['52812', '55572', '67556', '81756']);
  });

  // IRS Form 1040-ES for 2025.
  it('is due on 15 April, 16 June, 15 September and 15 January', () => {
    const parts = periods.map((each) => rowIn(summary, `estimate.${each}.profit`)?.['part']);
    expect(parts).toEqual([
      'Estimated tax on 2025-01-01 to 2025-03-31, due 2025-04-15',
      'Estimated tax on 2025-01-01 to 2025-05-31, due 2025-06-16',
      'Estimated tax on 2025-01-01 to 2025-08-31, due 2025-09-15',
      'Estimated tax on 2025-01-01 to 2025-12-31, due 2026-01-15',
    ]);
  });

  it('stands in the quarter in which its period ends', () => {
    const periodsIn = (period: string): string[] => {
      const rows = summaryOf(book, { period, asOf: '2025-12-31' }).rows;
      const items = rows.map(({ item }) => String(item));
      return items.filter((item) => /^estimate\.\d\.profit$/.test(item));
    };
    expect(['Q1', 'Q2', 'Q3', 'Q4'].map((quarter) => periodsIn(`2025-${quarter}`))).toEqual([
      ['estimate.1.profit'],
      ['estimate.2.profit'],
      ['estimate.3.profit'],
      ['estimate.4.profit'],
    ]);
  });
});

// IRS Publication 583, sample record system: 263.60 of sales and 4.20 of sales tax, 267.80 taken.
describe('sales tax that was collected', () => {
  const book = bookFrom({
    channels: CHANNELS,
    sales:
      's1: { date: 2025-01-03, channel: door, tax: 4.20, lines: [{ for: daily sales, count: 1, price: 263.60 }] }',
  });

  it('is no income, and stands by place', () => {
    const summary = summaryOf(book, { period: '2025-Q1' });
    expect(
      figuresIn(summary, ['income', 'sales-tax.County', 'sales-there.County', 'net-profit']),
    ).toEqual(['263.60', '4.20', '263.60', '263.60']);
  });

  // The VAT fraction of HMRC's VAT guide (Notice 700): 120 at 20 % holds 20.
  it('is taken out of prices that it is in', () => {
    const included = bookFrom({
      channels: 'fair: { name: Fair, kind: fair, tax-place: Town, tax-included: 20% }',
      sales:
        's1: { date: 2025-01-03, channel: fair, lines: [{ for: pots, count: 1, price: 120 }] }',
    });
    const summary = summaryOf(included, { period: '2025-Q1' });
    expect(figuresIn(summary, ['income', 'sales-tax.Town'])).toEqual(['100.00', '20.00']);
  });
});

// OpenStax, Principles of Accounting, vol. 1, section 12.1: 120 received for three meetings.
describe('a class paid ahead', () => {
  const book = bookFrom({
    channels: CHANNELS,
    classes:
      'throwing: { name: Throwing, starts: 2025-11-03, meets: [2025-11-03, 2026-02-02, 2026-04-06], fee: 120 }',
    sales:
      's1: { date: 2025-10-05, channel: door, lines: [{ class: throwing, count: 1, price: 120 }] }',
  });

  it('is earned 40 this year and 80 the next, and all at once on the cash basis', () => {
    const [cash, accrual] = (['cash', 'accrual'] as const).map((basis) =>
      summaryOf(book, { period: '2025', asOf: '2026-12-31', basis }),
    );
    const next = summaryOf(book, { period: '2026', basis: 'accrual', sheet: 'us-schedule-c-2026' });
    expect(cash && figureIn(cash, 'classes')).toBe('120.00');
    expect(accrual && figureIn(accrual, 'classes')).toBe('40.00');
    expect(figureIn(next, 'classes')).toBe('80.00');
    expect(cash && figureIn(cash, 'basis.classes')).toBe('-80.00');
  });
});

// IRS Publications 538 and 334: goods out on consignment stay in the consignor's inventory, and no
// profit arises until the consignee sells.
describe('goods out on consignment', () => {
  const files = {
    materials: 'clay: { name: Clay, kind: clay, unit: kg }',
    products: 'mug: { name: Mug, clay: { material: clay, each: 1 kg }, fired: [once] }',
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    channels: 'gallery: { name: Gallery, kind: consignment, commission: 40% }',
    bought:
      'b1: { date: 2025-01-02, supplier: Pit, lines: [{ material: clay, quantity: 10 kg, cost: 20 }] }',
    pieces: 'p1: { date: 2025-01-03, product: mug, made: 10 }',
    firings:
      'f1: { date: 2025-01-05, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 10, first: 10 }] }',
    consigned:
      'g1: { date: 2025-02-01, channel: gallery, sent: [{ product: mug, count: 10, price: 30 }] }',
  };

  it('are stock, and no income', () => {
    const summary = summaryOf(bookFrom(files), { period: '2025-Q1' });
    expect(
      figuresIn(summary, ['closing.finished-ware-galleries', 'closing', 'income', 'net-profit']),
    ).toEqual(['20.00', '20.00', '0.00', '0.00']);
  });

  it('are sold gross when the gallery sells, with its commission an expense', () => {
    const sales =
      's1: { date: 2025-03-31, channel: gallery, lines: [{ product: mug, count: 4, price: 30 }] }';
    const summary = summaryOf(bookFrom({ ...files, sales }), { period: '2025-Q1' });
    expect(
      figuresIn(summary, [
        'consignment.gallery',
        'expense.gallery-commissions',
        'closing',
        'cost-of-goods-sold',
        'net-profit',
      ]),
    ).toEqual(['120.00', '48.00', '12.00', '8.00', '64.00']);
  });
});
