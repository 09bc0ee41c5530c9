import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import {
  chargedFor,
  dueFor,
  invoiceTotal,
  owedByOthers,
  owedByStudio,
} from '../../src/reckon/sales/debts.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const CHANNELS = `
door: { name: Studio door, kind: direct }
online: { name: Web shop, kind: online, fee-percent: 3%, fee-each: 0.30 }
fair: { name: Fair, kind: fair, tax-included: 25% }
gallery: { name: Gallery, kind: consignment, commission: 40% }
`;

function bookWith(sales: string, others: { bought?: string; spent?: string } = {}) {
  return bookFrom({ channels: CHANNELS, sales, ...others });
}

function owed(sales: string, day = '2026-03-31'): string[] {
  const book = bookWith(sales);
  return owedByOthers(book, flow(book, day), day).map(
    ({ by, who, amount, since }) => `${by} ${who} ${told(amount)} ${since}`,
  );
}

const LINES = 'lines: [{ product: mug, count: 2, price: 50 }]';

describe('what is owed to the studio', () => {
  it('are the sales that say no, and those paid after the day; the oldest first', () => {
    const sales = `
paid: { date: 2026-03-01, channel: door, ${LINES} }
late: { date: 2026-03-20, channel: door, paid: 2026-04-01, ${LINES} }
open: { date: 2026-03-10, channel: door, paid: no, ${LINES} }
then: { date: 2026-03-05, channel: door, paid: 2026-03-31, ${LINES} }
next: { date: 2026-04-01, channel: door, paid: no, ${LINES} }
`;
    expect(owed(sales)).toEqual([
      'open Studio door 100.00 2026-03-10',
      'late Studio door 100.00 2026-03-20',
    ]);
    expect(owed(sales, '2026-03-30').map((text) => text.slice(0, 4))).toEqual([
      'then',
      'open',
      'late',
    ]);
  });

  it('is less what the channel keeps: commission of a gallery, fees of a shop', () => {
    expect(owed(`a: { date: 2026-03-01, channel: gallery, paid: no, ${LINES} }`)).toEqual([
      'a Gallery 60.00 2026-03-01',
    ]);
    const shipped = `a: { date: 2026-03-01, channel: online, paid: no, shipping: 10, ${LINES} }`;
    // 110 charged, less 3 % of it and 0.30.
    expect(owed(shipped)).toEqual(['a Web shop 106.40 2026-03-01']);
  });

  it('is by the buyer where one is named', () => {
    const [first] = owed(`a: { date: 2026-03-01, channel: door, buyer: Ada, paid: no, ${LINES} }`);
    expect(first).toMatch(/^a Ada /);
  });
});

describe('what a buyer is charged', () => {
  it.each([
    [
      'tax on top and shipping',
      `channel: door, tax: 6.5, shipping: 9, ${LINES}`,
      '115.50',
      '115.50',
    ],
    ['tax within the price', `channel: fair, ${LINES}`, '100.00', '100.00'],
    [
      'discounts of line and sale',
      'channel: door, discount: 10%, lines: [{ product: mug, count: 1, price: 60, discount: 10 }]',
      '45.00',
      '45.00',
    ],
    [
      'what came back',
      'channel: door, lines: [{ product: mug, count: 2, price: 50 }, { product: mug, count: 1, price: 50, returned: yes }]',
      '50.00',
      '50.00',
    ],
    ['commission, which is not off it', `channel: gallery, ${LINES}`, '100.00', '60.00'],
  ])('counts %s', (...[, sale, charged, due]) => {
    const book = bookWith(`a: { date: 2026-03-01, ${sale} }`);
    const record = book.sales.get('a')!;
    expect(told(chargedFor(book, record))).toBe(charged);
    expect(told(dueFor(book, record))).toBe(due);
  });
});

describe('what the studio owes', () => {
  const bought = `
b1: { date: 2026-03-08, supplier: Clay Co, paid: no, freight: 12, tax: 3, discount: 5, lines: [{ material: m, quantity: 1 kg, cost: 40 }] }
b2: { date: 2026-03-01, supplier: Clay Co, lines: [{ material: m, quantity: 1 kg, cost: 40 }] }
`;
  const spent = `
e1: { date: 2026-03-02, to: Town hall, for: booth, amount: 60, paid: 2026-04-02 }
e2: { date: 2026-03-03, to: Garage, for: travel, amount: 9, paid: 2026-03-09 }
`;

  it('is unpaid purchases with freight, tax and discount, and unpaid expenses', () => {
    const book = bookWith('', { bought, spent });
    const debts = owedByStudio(book, '2026-03-31').map(
      ({ by, who, amount, since }) => `${by} ${who} ${told(amount)} ${since}`,
    );
    expect(debts).toEqual(['e1 Town hall 60.00 2026-03-02', 'b1 Clay Co 50.00 2026-03-08']);
    expect(owedByStudio(book, '2026-03-01')).toEqual([]);
    expect(told(invoiceTotal(book, book.bought.get('b1')!))).toBe('50.00');
  });
});
