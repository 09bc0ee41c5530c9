import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { costsTable } from '../../src/report/costs.ts';
import { incomeTable } from '../../src/report/income.ts';
import { bookFrom, type Files } from '../helpers/book.ts';

const DAY = '2026-03-31';
const YEAR = { from: '2026-01-01', to: '2026-12-31' };

/**
 * Twenty mugs at 12 minutes, 240 minutes in all; 2 crack, 18 are fired and 2 of them are lost, so 16 are
 * good. Half of the 1.2 tended hours is a class's: 36 minutes. So 276 minutes are behind the 16, 17.25
 * each, and at 30.00 an hour that is 138.00. With 16.00 of clay they cost 154.00, 9.625 each.
 */
const STUDIO: Files = {
  studio: 'format: 1\nname: Test studio\ncurrency: USD\nlabour-rate: 30.00\n',
  materials: 'clay: { name: Clay, kind: clay, unit: lb }',
  products: `
mug:
  name: Mug
  clay: { material: clay, each: 1 lb }
  fired: [bisque, glaze]
  minutes: 12
  price: 20.00
`,
  classes: 'evening: { name: Evening, starts: 2026-01-01 }',
  channels: 'door: { name: Door, kind: direct }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  bought:
    'b1: { date: 2026-01-02, supplier: Pit, lines: [{ material: clay, quantity: 100 lb, cost: 80.00 }] }',
  pieces:
    'p1: { date: 2026-01-05, product: mug, made: 20, lost: [{ date: 2026-01-08, count: 2, why: cracked }] }',
  firings: `
f1: { date: 2026-01-10, kiln: kiln, kind: bisque, load: [{ lot: p1, in: 18, first: 18 }] }
f2:
  date: 2026-01-20
  kiln: kiln
  kind: glaze
  tended: 1.2
  load: [{ lot: p1, in: 18, first: 16, lost: 2 }, { class: evening, in: 18 }]
`,
};

const sale = (id: string, ...lines: readonly string[]): string =>
  `${id}: { date: 2026-02-01, channel: door, paid: 2026-02-01, lines: [${lines.map((line) => `{ product: mug, price: 20.00, ${line} }`).join(', ')}] }`;

/** What an hour brings by `costs` and by `income`. */
function hours(sales: string, more: Files = {}): { costs: string; income: string } {
  const book = bookFrom({ ...STUDIO, sales, ...more });
  const flows = flow(book, DAY);
  const costs = costsTable(book, flows, { span: { from: YEAR.from, to: DAY }, by: 'space' });
  const income = incomeTable(book, flows, { by: 'product', period: YEAR });
  const inIncome = income.rows.find(({ item }) => item === 'mug');
  return {
    costs: eight(costs.rows[0]?.['perHour']),
    income: eight(inIncome?.['marginPerHour']),
  };
}

function eight(figure: unknown): string {
  return Number(String(figure)).toFixed(8);
}

describe('what is left for an hour of work', () => {
  // (20.00 − 9.625 + 8.625) × 60 ÷ 17.25; of all: (320.00 − 154.00 + 138.00) × 60 ÷ 276.
  const HOUR = ((19 * 60) / 17.25).toFixed(8);

  it('is the same in costs and in income: before that work is paid, over all minutes behind a good piece', () => {
    expect(hours(sale('s1', 'count: 16'))).toEqual({ costs: HOUR, income: HOUR });
  });

  it('is the same where some are sold and one comes back', () => {
    // Sold 4.00 of clay and 34.50 of work, back 1.00 and 8.63: (60.00 − 28.87 + 25.87) × 60 ÷ 51.75.
    const sales = sale('s1', 'count: 4') + '\n' + sale('s2', 'count: 1, returned: yes');
    expect(hours(sales)).toEqual({ costs: HOUR, income: HOUR });
  });

  it('is of what a piece that was sold before it was finished is guessed to cost', () => {
    // The 17th costs what one of the 16 did: R(154.00 ÷ 16) in parts, 1.00 and 8.63. Minutes: 17 × 17.25.
    const all = ((340 - 17) * 60) / (17 * 17.25);
    expect(hours(sale('s1', 'count: 17')).income).toBe(all.toFixed(8));
  });

  it('is all that is left where no work is charged', () => {
    // (20.00 − 16.00 ÷ 16) × 60 ÷ 17.25: the same, since work is paid from it either way.
    const studio = 'format: 1\nname: Test studio\ncurrency: USD\n';
    expect(hours(sale('s1', 'count: 16'), { studio })).toEqual({ costs: HOUR, income: HOUR });
  });
});
