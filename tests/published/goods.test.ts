/** Goods on the cash basis, by the law of the sheets, each through a book. */
import { describe, expect, it } from 'vitest';
import { bookFrom } from '../helpers/book.ts';
import { figureIn, figuresIn, rowIn, summaryOf } from '../helpers/quarter.ts';

const CHANNELS = 'door: { name: Door, kind: direct, tax-place: County }';
const UK = 'format: 1\nname: A studio\ncurrency: GBP\nyear-starts: "04-06"\n';
const CLAY = 'clay: { name: Clay, kind: clay, unit: kg }';

function sold(day: string, amount: number): string {
  return `s1: { date: ${day}, channel: door, lines: [{ for: work, count: 1, price: ${amount} }] }`;
}

function clayBought(paid: string, date = '2025-12-10'): string {
  return `b1: { date: ${date}, supplier: Pit, paid: ${paid}, lines: [{ material: clay, quantity: 100 kg, cost: 1000 }] }`;
}

// HMRC, cash basis (default from 6 April 2024); litrg.org.uk, self-employment, business expenses: goods
// are an expense when they are paid for, and no stock is taken at either end.
describe('goods in the United Kingdom', () => {
  const book = bookFrom({
    studio: UK,
    materials: CLAY,
    channels: CHANNELS,
    bought: clayBought('2025-12-12'),
    sales: sold('2025-12-15', 3000),
  });
  const on = (basis: 'cash' | 'accrual', period: string) =>
    summaryOf(book, { period, basis, sheet: 'uk-sa103s' });

  it('are an expense when paid, though all of it is still there', () => {
    const cash = on('cash', '2025');
    expect(figuresIn(cash, ['line.goods', 'line.net-profit', 'net-profit'])).toEqual([
      '1000.00',
      '2000.00',
      '2000.00',
    ]);
    expect(rowIn(cash, 'closing')).toBeUndefined();
  });

  it('are stock on the accruals basis', () => {
    expect(figuresIn(on('accrual', '2025'), ['line.goods', 'line.net-profit'])).toEqual([
      '0.00',
      '3000.00',
    ]);
  });

  it('are what the two bases differ by', () => {
    const items = ['basis.cash', 'basis.goods', 'basis.accrual'];
    expect(figuresIn(on('cash', '2025'), items)).toEqual(['2000.00', '1000.00', '3000.00']);
  });

  it('belong to the year in which they are paid', () => {
    const late = bookFrom({ studio: UK, materials: CLAY, bought: clayBought('2026-04-20') });
    const goods = ['2025', '2026'].map((period) =>
      figureIn(summaryOf(late, { period, sheet: 'uk-sa103s' }), 'line.goods'),
    );
    expect(goods).toEqual(['0.00', '1000.00']);
  });
});

// HMRC BIM33630: what is taken for one's own use counts at market value on the accruals basis; on the
// cash basis its cost is disallowed (Simon's Taxes B2.205). SA103S of 2024, boxes 27 and 28.
describe('ware for one’s own use', () => {
  const book = bookFrom({
    studio: UK,
    materials: CLAY,
    products:
      'mug: { name: Mug, price: 30, second: 12, clay: { material: clay, each: 1 kg }, fired: [once] }',
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    bought: clayBought('2025-12-10'),
    pieces: `
p1:
  date: 2025-12-11
  product: mug
  made: 10
  gone:
    - { date: 2025-12-20, count: 2, how: kept }
    - { date: 2025-12-20, count: 1, how: kept, grade: second }
    - { date: 2025-12-20, count: 1, how: gift }`,
    firings:
      'f1: { date: 2025-12-12, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 10, first: 9, second: 1 }] }',
  });

  it('is in box 27 at its price, and its cost is deducted', () => {
    const accrual = summaryOf(book, { period: '2025', basis: 'accrual', sheet: 'uk-sa103s' });
    // 2 × 30 + 12; four mugs of 10 kg clay worth 10.00 a kg are gone: 40.00.
    const items = ['line.goods', 'line.net-profit', 'line.own-use', 'line.taxable-profit'];
    expect(figuresIn(accrual, items)).toEqual(['40.00', '-40.00', '72.00', '32.00']);
  });

  it('is taken off what was paid, on the cash basis', () => {
    const cash = summaryOf(book, { period: '2025', sheet: 'uk-sa103s' });
    expect(figuresIn(cash, ['line.goods', 'line.own-use'])).toEqual(['970.00', '0.00']);
  });
});

// IRS Schedule C instructions, Part III, and Publication 538: materials are deducted in the year they are
// used or sold, or paid for, whichever is later.
describe('materials in the United States', () => {
  const years = ['2025', '2026'] as const;
  const costs = (files: Parameters<typeof bookFrom>[0]) => {
    const book = bookFrom({ materials: CLAY, channels: CHANNELS, ...files });
    return years.map((period) =>
      figureIn(summaryOf(book, { period, sheet: `us-schedule-c-${period}` }), 'line.cost-of-goods'),
    );
  };

  it('used in December and paid for in January belong to the year of January', () => {
    const used = 'u1: { date: 2025-12-20, material: clay, quantity: 100 kg, for: waste }';
    expect(costs({ bought: clayBought('2026-01-05'), used })).toEqual(['0.00', '1000.00']);
    expect(costs({ bought: clayBought('2025-12-31'), used })).toEqual(['1000.00', '0.00']);
    expect(costs({ bought: clayBought('no'), used })).toEqual(['0.00', '0.00']);
  });

  it('paid for in December and used in January belong to it too', () => {
    const used = 'u1: { date: 2026-01-20, material: clay, quantity: 100 kg, for: waste }';
    expect(costs({ bought: clayBought('2025-12-31'), used })).toEqual(['0.00', '1000.00']);
  });

  it('are used first bought, first: what was paid for before goes first', () => {
    const bought = `
b0: { date: 2025-11-01, supplier: Pit, lines: [{ material: clay, quantity: 50 kg, cost: 250 }] }
${clayBought('2026-01-05')}`;
    const used = 'u1: { date: 2025-12-20, material: clay, quantity: 120 kg, for: waste }';
    // 120 of 150 kg, worth 1,250 at the moving average, are 1,000.00; of them 70 kg are unpaid: 700.00.
    expect(costs({ bought, used })).toEqual(['300.00', '700.00']);
  });

  it('are not deducted while they are in ware that is there', () => {
    const files = {
      products:
        'mug: { name: Mug, price: 30, clay: { material: clay, each: 5 kg }, fired: [once] }',
      kilns: 'kiln: { name: Kiln, fuel: electricity }',
      bought: clayBought('2026-01-05'),
      pieces: 'p1: { date: 2025-12-11, product: mug, made: 10 }',
      firings:
        'f1: { date: 2025-12-12, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 10, first: 10 }] }',
      sales: `
s1: { date: 2025-12-20, channel: door, lines: [{ product: mug, count: 4, price: 30 }] }
s2: { date: 2026-02-20, channel: door, lines: [{ product: mug, count: 6, price: 30 }] }`,
    };
    // Clay for 500.00 in ten mugs: four were sold unpaid, 200.00, which is paid in January; six later.
    expect(costs(files)).toEqual(['0.00', '500.00']);
    expect(costs({ ...files, bought: clayBought('2025-12-31') })).toEqual(['200.00', '300.00']);
  });

  it('are listed with their bill where the bases differ', () => {
    const book = bookFrom({
      materials: CLAY,
      bought: clayBought('2026-01-05'),
      used: 'u1: { date: 2025-12-20, material: clay, quantity: 100 kg, for: waste }',
    });
    const cash = summaryOf(book, { period: '2025' });
    const items = ['basis.cash', 'basis.goods', 'basis.accrual', 'used-unpaid'];
    expect(figuresIn(cash, items)).toEqual(['0.00', '-1000.00', '-1000.00', '1000.00']);
    const at = cash.rows.findIndex(({ item }) => item === 'basis.goods');
    expect(cash.behind?.()?.[at]).toEqual(['b1']);
  });
});
