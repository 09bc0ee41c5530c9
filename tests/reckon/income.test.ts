import { describe, expect, it } from 'vitest';
import type { IncomeGroup } from '../../src/groups.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts, incomeRows } from '../../src/reckon/sales/income.ts';
import { incomeTotal, marginOf, netOf } from '../../src/reckon/sales/income-fact.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const SALES = `
s1: { date: 2025-01-05, channel: shop, lines: [{ product: cup, count: 4, price: 20 }] }
s2: { date: 2025-12-30, paid: 2026-01-04, channel: gallery, lines: [{ product: cup, count: 2, price: 20 }] }
s3: { date: 2025-02-01, channel: shop, buyer: Quill, lines: [{ class: evening, count: 2, price: 180 }] }
s4: { date: 2025-02-02, channel: shop, shipping: 9, lines: [{ product: cup, count: 1, price: 20, returned: yes }, { for: repair, count: 1, price: 15 }] }
s5: { date: 2025-03-01, paid: no, channel: shop, lines: [{ product: cup, count: 1, price: 20 }] }
`;

function earned(by: IncomeGroup, studio = '', more: Files = {}) {
  const book = bookFrom({
    studio: `format: 1\nname: S\ncurrency: USD\n${studio}`,
    products: 'cup: { name: Cup, fired: [once], price: 20, minutes: 30 }',
    classes:
      'evening: { name: Evening, starts: 2025-02-01, clay: { material: clay, each: 10 lb } }',
    materials: 'clay: { name: Clay, kind: clay, unit: lb }',
    bought:
      'b1: { date: 2025-01-01, supplier: Pit, lines: [{ material: clay, quantity: 100 lb, cost: 100 }] }',
    used: 'u1: { date: 2025-02-03, material: clay, quantity: 20 lb, for: evening }',
    channels:
      'shop: { name: Shop, kind: direct }\ngallery: { name: Gallery, kind: consignment, commission: 40% }',
    sales: SALES,
    ...more,
  });
  const flows = flow(book, '2026-12-31');
  const facts = incomeFacts(book, flows, { from: '2025-01-01', to: '2025-12-31' });
  return incomeRows(facts, by);
}

function figures(by: IncomeGroup, studio = ''): string[][] {
  return earned(by, studio).map((row) => [
    row.item,
    String(row.count),
    told(netOf(row)),
    told(row.fees),
  ]);
}

describe('income', () => {
  it('by product: classes, other income and shipping have rows of their own', () => {
    expect(figures('product')).toEqual([
      ['evening', '2', '360.00', '0.00'],
      ['repair', '1', '15.00', '0.00'],
      ['cup', '3', '60.00', '0.00'],
      ['shipping', '0', '9.00', '0.00'],
    ]);
  });

  it('on the accrual basis a sale counts on its date, paid or not', () => {
    expect(figures('product', 'basis: accrual\n')).toContainEqual(['cup', '6', '120.00', '16.00']);
  });

  it('by month, channel and buyer the same money is grouped anew', () => {
    const totals = (['product', 'channel', 'month', 'buyer'] as const).map((by) =>
      told(netOf(incomeTotal(earned(by)))),
    );
    expect(totals).toEqual(['444.00', '444.00', '444.00', '444.00']);
    expect(figures('month').map(([month]) => month)).toEqual(['2025-01', '2025-02']);
  });

  it('a class bears the clay that was used for it', () => {
    const [evening] = earned('class');
    expect(told(evening?.cost)).toBe('20.00');
    expect(evening && told(marginOf(evening))).toBe('340.00');
  });

  it('a returned piece takes its money back', () => {
    const cup = earned('product').find((row) => row.item === 'cup');
    expect(told(cup?.gross)).toBe('80.00');
    expect(told(cup?.returns)).toBe('20.00');
  });

  it('a class bears its share of a firing', () => {
    const rows = earned('class', '', {
      kilns:
        'kiln: { name: Kiln, fuel: electricity, wear: [{ part: shelves, cost: 30, firings: 10 }] }',
      firings:
        'f1: { date: 2025-03-01, kiln: kiln, kind: bisque, load: [{ class: evening, in: 2 }, { outside: neighbour, in: 1 }] }',
    });
    expect(told(rows[0]?.cost)).toBe('22.00');
  });
});

describe('margin per hour', () => {
  it('is of the ware whose minutes are known, without classes and shipping', () => {
    const rows = earned('month');
    const january = rows.find((row) => row.item === '2025-01');
    expect(january?.minutes.toString()).toBe('120');
    expect(told(january?.timedMargin)).toBe('80.00');
    const february = rows.find((row) => row.item === '2025-02');
    // A cup came back: half an hour's work less, and its money; the class and the repair count for nothing.
    expect(february?.minutes.toString()).toBe('-30');
    expect(told(february?.timedMargin)).toBe('-20.00');
  });
});
