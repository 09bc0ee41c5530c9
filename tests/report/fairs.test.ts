import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { fairTable, fairsTable } from '../../src/report/fairs.ts';
import { bookFrom } from '../helpers/book.ts';
import { seenRows, type SeenRow } from '../helpers/shown-rows.ts';

const BOOK = bookFrom({
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 20 kg, cost: 400 }] }',
  products: 'cup: { name: Cup, fired: [once], price: 20, clay: { material: clay, each: 1 kg } }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: 'green: { name: Green, kind: fair, fee-percent: 10% }',
  pieces: `
p1: { date: 2026-01-02, product: cup, made: 20, gone: [{ date: 2026-05-16, count: 2, how: broken, fair: k1 }] }
`,
  firings:
    'f1: { date: 2026-01-03, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 20 }] }',
  fairs: `
k1: { date: 2026-05-16, last: 2026-05-17, name: Green in May, channel: green, hours: 10 }
k2: { date: 2026-09-19, name: Green in September, channel: green }
`,
  sales: `
s1: { date: 2026-05-16, channel: green, discount: 10%, lines: [{ product: cup, count: 4, price: 1250 }] }
s2: { date: 2026-05-17, channel: green, lines: [{ product: cup, count: 1, price: 1100, returned: yes }] }
s3: { date: 2026-09-19, channel: green, lines: [{ product: cup, count: 2, price: 800 }] }
`,
  spent: `
e1: { date: 2026-01-10, to: Committee, for: booth, amount: 160, fair: k1 }
e2: { date: 2026-05-15, to: Garage, for: travel, amount: 112, fair: k1 }
e3: { date: 2026-05-16, to: Kiosk, for: meals, amount: 105, fair: k1 }
`,
});

const FLOWS = flow(BOOK, '2026-12-31');
const FAIRS = fairsTable(BOOK, FLOWS, { to: '2026-12-31' });

const WIDTHS = [40, 60, 80, 120, 160];

/** What is left of each row's figures once all that it cost is taken off, less the profit that is shown. */
const offBy = ({ figures }: SeenRow): number => {
  const seen = (key: string): number => figures.get(key) ?? 0;
  const spent = ['booth', 'travel', 'other', 'spent'];
  const costs = ['discounts', 'returns', 'fees', 'cost', ...spent, 'broken'];
  const takes = seen('gross') + seen('net');
  const left = costs.reduce((all, key) => all - seen(key), takes) - seen('profit');
  return Math.round(left * 100) || 0;
};

describe.each(WIDTHS)('fairs on a line of %i columns', (width) => {
  // k1: 4 × 1,250.00 − 500.00 − 1,100.00 = 3,400.00 net; its fee is 10 % of what was charged;
  // less the cups, the booth, travel, meals and two broken cups of 20.00.
  it('shows what adds up to the profit, row by row and in the total', async () => {
    const rows = await seenRows(FAIRS, width);
    expect(rows.map(offBy)).toEqual([0, 0, 0]);
    const exact = [...FAIRS.rows, FAIRS.totals ?? {}].map(({ profit }) => Number(profit) / 100);
    expect(rows.map(({ figures }) => figures.get('profit'))).toEqual(exact);
    const isFolded = rows.every(({ figures }) => figures.has('net'));
    expect(rows[0]?.figures.get(isFolded ? 'net' : 'gross')).toBe(isFolded ? 3400 : 5000);
  });

  it('shows lines of one fair that add up to its profit', async () => {
    const one = fairTable(BOOK, FLOWS, 'k1');
    const rows = one ? await seenRows(one, width) : [];
    expect(rows.map(offBy)).toEqual([0, 0, 0, 0, 0, 0]);
    const profits = rows.map(({ figures }) => Math.round((figures.get('profit') ?? NaN) * 100));
    const [total] = profits.slice(-1);
    expect(profits.slice(0, -1).reduce((all, each) => all + each, 0)).toBe(total);
  });
});

describe('fairs for programs', () => {
  it('keep every column by itself, and no sum beside it', () => {
    const money = FAIRS.columns.filter(({ type }) => type === 'money').map(({ key }) => key);
    const costs = ['fees', 'cost', 'booth', 'travel', 'other', 'broken', 'profit'];
    expect(money).toEqual(['gross', 'discounts', 'returns', ...costs]);
  });
});
