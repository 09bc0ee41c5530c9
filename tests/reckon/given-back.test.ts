/** What sales of each kind come to, by hand, and the same in every report that shows it. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { chargedFor, dueFor } from '../../src/reckon/sales/debts.ts';
import type { Money } from '../../src/number/money.ts';
import { flow } from '../../src/reckon/flow.ts';
import { taxPeriod } from '../../src/reckon/tax/tax-period.ts';
import { incomeTable } from '../../src/report/income.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';
import { figuresIn, summaryOf } from '../helpers/quarter.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const CHANNELS = `
door: { name: Door, kind: direct, tax-place: County }
web: { name: Web, kind: online, fee-percent: 2.9%, fee-each: 0.30, tax-place: County }
abroad: { name: Abroad, kind: direct, tax-included: 20%, tax-place: Abroad }
post: { name: Post, kind: online, tax-included: 20%, tax-in-shipping: no }
nook: { name: Nook, kind: consignment, commission: 40% }
`;

const QUARTER = taxPeriod('2025-q1') ?? expect.fail('no quarter');
const folders: string[] = [];

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

function one(price: string, more = ''): string {
  return `{ for: work, count: 1, price: ${price}${more} }`;
}

const BACK = ', returned: yes';

/** What the reports say of sales in the first quarter, each sale one after another from s1. */
function reports(...sales: readonly string[]) {
  const texts = sales.map((sale, at) => `s${String(at + 1)}: { date: 2025-03-01, ${sale} }`);
  const book = bookFrom({ channels: CHANNELS, sales: texts.join('\n') });
  const flows = flow(book, QUARTER.to);
  const summary = summaryOf(book, { period: '2025-q1' });
  const { totals = {} } = incomeTable(book, flows, { by: 'product', period: QUARTER });
  const shown = (key: string): string => told(totals[key] as Money);
  const record = book.sales.get('s1') ?? expect.fail('no sale');
  return {
    income: (...keys: readonly string[]) => keys.map(shown),
    quarter: (...items: readonly string[]) => figuresIn(summary, items),
    money: [told(chargedFor(book, record)), told(dueFor(book, record))],
  };
}

describe('a full return of a taxed sale', () => {
  const terms = 'channel: web, shipping: 9.50, tax: 3.05, discount: 5';

  it('takes back all that was charged, with its shipping and its tax', () => {
    const bought = reports(`${terms}, lines: [${one('43')}]`);
    // 43 − 5 + 9.50 + 3.05; the fee is 50.55 × .029 + .30 = 1.76595.
    expect(bought.money).toEqual(['50.55', '48.78']);
    const back = reports(`${terms}, fee: 1.77, lines: [${one('43', BACK)}]`);
    expect(back.money).toEqual(['-50.55', '-48.78']);
  });

  it('leaves no income, no fee and no tax to pay on', () => {
    const both = reports(
      `${terms}, lines: [${one('43')}]`,
      `${terms}, fee: 1.77, lines: [${one('43', BACK)}]`,
    );
    // Returns are 38.00 of the work and 9.50 of the shipping.
    expect(both.income('gross', 'discounts', 'returns', 'net', 'fees')).toEqual([
      '52.50',
      '5.00',
      '47.50',
      '0.00',
      '0.00',
    ]);
    expect(both.quarter('other-income', 'shipping', 'discounts', 'returns')).toEqual([
      '43.00',
      '9.50',
      '-5.00',
      '-47.50',
    ]);
    expect(both.quarter('sales-tax.County', 'sales-tax-back.County')).toEqual(['3.05', '-3.05']);
    expect(both.quarter('closing-tax.County', 'expense.card-fees')).toEqual(['0.00', '0.00']);
  });

  it('of an exchange is as it is written below zero', () => {
    const sale = reports(`channel: door, tax: -2.40, lines: [${one('10')}, ${one('40', BACK)}]`);
    // 10 − 40 − 2.40; what is passed on is less by 2.40, and income is 10 − 40.
    expect(sale.money).toEqual(['-32.40', '-32.40']);
    expect(sale.quarter('sales-tax-back.County')).toEqual(['-2.40']);
    expect(sale.income('net')).toEqual(['-30.00']);
  });
});

describe('a sale that is only a return keeps its discount', () => {
  it.each([
    // 10 % of 23.12 is 2.312: 20.81 is given back.
    { discount: '10%', price: '23.12', net: '-20.81' },
    { discount: '10.00', price: '100', net: '-90.00' },
  ])('$discount in all reports alike', async ({ discount, price, net }) => {
    const sale = `channel: door, discount: ${discount}, lines: [${one(price, BACK)}]`;
    const { income, quarter } = reports(sale);
    expect([...income('net'), ...quarter('returns', 'income')]).toEqual([net, net, net]);
    const folder = tempStudio({
      'studio.yaml': 'format: 1\nname: Test studio\ncurrency: USD\n',
      'channels.yaml': CHANNELS,
      'sales.yaml': `s1: { date: 2025-03-01, ${sale} }\n`,
    });
    folders.push(folder);
    const to = join(folder, 'out');
    expect((await runCommand('export', { year: '2025' }, { argument: to, folder })).status).toBe(0);
    const file = (name: string): string => readFileSync(join(to, 'reports', name), 'utf8');
    // Net after gross, discounts and returns.
    expect(file('income.csv').split('\n')[1]?.split(',')[6]).toBe(net);
    expect(file('quarter.csv')).toContain(`Income,returns,Returns,${net},`);
  });
});

describe('a returned line bears its share of the discount', () => {
  it('in percent: of the side that comes back, once', () => {
    const sale = reports(
      `channel: door, discount: 10%, lines: [${one('50.05')}, ${one('10.05', BACK)}, ${one('10.10', BACK)}]`,
    );
    // 5.005 → 5.01 off what is sold; 2.015 → 2.02 off 20.15: 45.04 − 18.13.
    expect(sale.money[0]).toBe('26.91');
    expect(sale.income('gross', 'discounts', 'returns', 'net')).toEqual([
      '50.05',
      '5.01',
      '18.13',
      '26.91',
    ]);
    expect(sale.quarter('discounts', 'returns', 'income')).toEqual(['-5.01', '-18.13', '26.91']);
  });

  it('in money: line by line where nothing is sold', () => {
    const sale = reports(
      `channel: door, discount: 10, lines: [${one('20', BACK)}, { for: pots, count: 1, price: 10, returned: yes }]`,
    );
    expect(sale.money[0]).toBe('-20.00');
    expect([...sale.income('returns'), ...sale.quarter('returns')]).toEqual(['20.00', '-20.00']);
  });
});

describe('a price with the tax in it', () => {
  it('has gross, discounts and net without the tax, a line’s own discount among them', () => {
    const sale = reports(
      'channel: abroad, discount: 10%, lines: [{ for: work, count: 2, price: 60, discount: 12 }]',
    );
    // 120 − 12 = 108, less 10.80: 97.20 holds 16.20; the discounts of 22.80 hold 3.80.
    expect(sale.income('gross', 'discounts', 'net')).toEqual(['100.00', '19.00', '81.00']);
    expect(sale.quarter('other-income', 'discounts', 'income', 'sales-tax.Abroad')).toEqual([
      '100.00',
      '-19.00',
      '81.00',
      '16.20',
    ]);
  });

  it('makes no income of a stated tax where something comes back', () => {
    const sale = reports(`channel: abroad, tax: 1.34, lines: [${one('12')}, ${one('6', BACK)}]`);
    // 1.34 is of what is sold: 10.66; what comes back holds 1.00 of 6.00: 5.00. Charged 6.00 in all.
    expect(sale.money[0]).toBe('6.00');
    expect([...sale.income('net'), ...sale.quarter('sales-tax.Abroad')]).toEqual(['5.66', '0.34']);
  });

  it('is in the shipping, or is not where the channel says so', () => {
    const terms = `shipping: 5, lines: [${one('10')}]`;
    // 15.00 ÷ 6 = 2.50 by 10 and 5: 1.67 and .83; of 10.00 alone 1.67.
    expect(reports(`channel: abroad, ${terms}`).quarter('shipping', 'other-income')).toEqual([
      '4.17',
      '8.33',
    ]);
    const post = reports(`channel: post, ${terms}`);
    expect(post.quarter('shipping', 'other-income')).toEqual(['5.00', '8.33']);
    expect(post.money[0]).toBe('15.00');
  });
});

describe('commission and fee', () => {
  it('are in the summary what the sales say', () => {
    const lines = [one('127.74'), one('127.73'), one('127.73')].join(', ');
    const { quarter } = reports(`channel: nook, fee: 0.63, lines: [${lines}]`);
    // 40 % of 383.20 is 153.28.
    expect(quarter('expense.gallery-commissions', 'expense.card-fees')).toEqual(['153.28', '0.63']);
  });

  it('that are given back lessen those of the period', () => {
    const { quarter, income } = reports(
      `channel: nook, fee: 0.63, lines: [${one('50')}]`,
      `channel: nook, fee: 0.20, commission: 8.00, lines: [${one('20', BACK)}]`,
    );
    // 20.00 − 8.00, .63 − .20
    expect(quarter('expense.gallery-commissions', 'expense.card-fees')).toEqual(['12.00', '0.43']);
    expect(income('fees')).toEqual(['12.43']);
  });
});
