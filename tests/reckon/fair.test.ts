import { describe, expect, it } from 'vitest';
import { ZERO } from '../../src/number/decimal.ts';
import { fairFigures, fairOfSale, salesAtNoFair } from '../../src/reckon/sales/fair.ts';
import { flow } from '../../src/reckon/flow.ts';
import { netOf } from '../../src/reckon/sales/income-fact.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const BOOK = bookFrom({
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: 20 kg, cost: 40 }] }',
  products: 'cup: { name: Cup, fired: [once], price: 20, clay: { material: clay, each: 1 kg } }',
  classes: 'lids: { name: Lids, starts: 2026-09-01, sessions: 4 }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  channels: `
green: { name: Green, kind: fair, fee-percent: 10% }
hall: { name: Hall, kind: fair }
door: { name: Door, kind: direct }
`,
  pieces: `
p1: { date: 2026-01-02, product: cup, made: 20, gone: [{ date: 2026-05-16, count: 2, how: broken, fair: k1 }, { date: 2026-05-16, count: 1, how: gift }] }
`,
  firings:
    'f1: { date: 2026-01-03, kiln: kiln, kind: once, load: [{ lot: p1, in: 20, first: 20 }] }',
  fairs: `
k1: { date: 2026-05-16, last: 2026-05-17, name: Green in May, channel: green, hours: 10 }
k2: { date: 2026-09-19, name: Green in September, channel: green }
`,
  sales: `
s1: { date: 2026-05-16, channel: green, lines: [{ product: cup, count: 4, price: 25 }] }
s2: { date: 2026-05-17, channel: green, paid: no, fee: 0, discount: 5, lines: [{ product: cup, count: 1, price: 20, returned: yes }, { class: lids, count: 1, price: 80 }] }
s3: { date: 2026-05-20, channel: green, fair: k1, fee: 0, lines: [{ product: cup, count: 1, price: 30 }] }
s4: { date: 2026-05-16, channel: door, lines: [{ product: cup, count: 1, price: 20 }] }
s5: { date: 2026-05-18, channel: green, lines: [{ product: cup, count: 1, price: 20 }] }
`,
  spent: `
e1: { date: 2026-01-10, to: Committee, for: booth, amount: 60, fair: k1 }
e2: { date: 2026-05-15, to: Garage, for: travel, amount: 12, fair: k1 }
e3: { date: 2026-05-15, to: Hostel, for: car, amount: 8, fair: k1, paid: no }
e4: { date: 2026-05-16, to: Kiosk, for: meals, amount: 5, channel: green, fair: k1 }
e5: { date: 2026-05-16, to: Kiosk, for: meals, amount: 7, channel: green }
e6: { date: 2026-06-10, to: Committee, for: booth, amount: 70, fair: k2 }
`,
});

function figures(asOf: string): unknown {
  return fairFigures(BOOK, flow(BOOK, asOf)).map((each) => {
    const { fair, sales, money, booth, travel, other, goneCost, profit, perHour } = each;
    const amounts = [netOf(money), money.fees, money.cost, booth, travel, other, goneCost, profit];
    const words = amounts.map((amount) => told(amount)).join(' ');
    return `${fair.id}, ${String(sales.length)} sales: ${words}, ${perHour?.toFixed() ?? '-'} an hour`;
  });
}

describe('a fair', () => {
  it('has what was sold on its days or names it, and what was spent for it, paid or not', () => {
    // 100 + 80 − 5 − 20 + 30; a cup cost 2: four sold, one back, one sold, two broken.
    expect(figures('2026-06-30')).toEqual([
      'k1, 3 sales: 185.00 10.00 8.00 60.00 20.00 5.00 4.00 78.00, 7.8 an hour',
      'k2, 0 sales: 0.00 0.00 0.00 70.00 0.00 0.00 0.00 -70.00, - an hour',
    ]);
  });

  it('counts what was dated by the day, and no more', () => {
    expect(figures('2026-05-15')).toEqual([
      'k1, 0 sales: 0.00 0.00 0.00 60.00 20.00 0.00 0.00 -80.00, -8 an hour',
      'k2, 0 sales: 0.00 0.00 0.00 0.00 0.00 0.00 0.00 0.00, - an hour',
    ]);
  });

  it('of two on one day is the one that began last, and never of another channel', () => {
    const [may] = BOOK.fairs.values();
    const [sale] = BOOK.sales.values();
    if (!may || !sale) throw new Error('no fair');
    const long = { ...may, id: 'long', date: '2026-05-01', last: '2026-05-31' };
    expect(fairOfSale([may, long], sale)).toBe('k1');
    expect(fairOfSale([long, may], sale)).toBe('k1');
    expect(fairOfSale([may, long], { ...sale, date: '2026-05-18' })).toBe('long');
    expect(fairOfSale([may, long], { ...sale, channel: 'hall' })).toBeUndefined();
  });

  it('is missed where a sale through such a channel has none', () => {
    expect(salesAtNoFair(BOOK, { to: '2026-06-30' }).map(({ id }) => id)).toEqual(['s5']);
    expect(salesAtNoFair(BOOK, { to: '2026-05-17' })).toEqual([]);
  });

  it('earns nothing an hour where no hours are put down', () => {
    const [may] = fairFigures(
      {
        ...BOOK,
        fairs: new Map([...BOOK.fairs].map(([id, fair]) => [id, { ...fair, hours: ZERO }])),
      },
      flow(BOOK, '2026-06-30'),
    );
    expect(may?.perHour).toBeUndefined();
  });
});
