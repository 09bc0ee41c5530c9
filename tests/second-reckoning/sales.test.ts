/** The money of sales by hand: rules 18 to 21, 23 and 25. */
import { describe, expect, it } from 'vitest';
import { bookFrom, type Files } from '../helpers/book.ts';
import { mileage } from './mileage.ts';
import { reckonAgain } from './reckon-again.ts';
import type { SaleResult } from './result.ts';

const CHANNELS = `
door: { name: Door, kind: direct }
web: { name: Web, kind: online, fee-percent: 2.9%, fee-each: 0.30 }
nook: { name: Nook, kind: consignment, commission: 40% }
abroad: { name: Abroad, kind: direct, tax-included: 20% }
post: { name: Post, kind: online, tax-included: 20%, tax-in-shipping: no }
`;

function resultOf(sale: string, files: Files = {}): SaleResult {
  const book = bookFrom({
    channels: CHANNELS,
    sales: `s1: { date: 2026-03-02, ${sale} }`,
    ...files,
  });
  return reckonAgain(book, '2026-12-31').sales.get('s1')!;
}

type Line = SaleResult['lines'][number];

/** Some amounts of each line, as numbers. */
const each = (sale: SaleResult, ...keys: (keyof Line)[]): number[][] =>
  sale.lines.map((line) => keys.map((key) => Number(line[key])));

const back = 'returned: yes';

describe('discounts', () => {
  it('in percent are once a line, and the sale’s of what is left', () => {
    const sale = resultOf(
      'channel: door, discount: 10%, lines: [{ for: a, count: 3, price: 0.55, discount: 10% }, { for: b, count: 1, price: 1.00, discount: 0.25 }]',
    );
    // 165 less R(16.5); 223 × 10 % is 22 by 148 and 75.
    expect(each(sale, 'amount', 'lineDiscount', 'saleDiscount', 'net', 'gross')).toEqual([
      [165, 17, 15, 133, 165],
      [100, 25, 7, 68, 100],
    ]);
    expect(sale.charged).toBe(201n);
  });

  it('in percent are of each side; an amount is of what is sold', () => {
    const lines = `lines: [{ for: a, count: 1, price: 1.05 }, { for: b, count: 1, price: 0.55, ${back} }]`;
    const percent = resultOf(`channel: door, discount: 10%, ${lines}`);
    expect(each(percent, 'saleDiscount', 'net')).toEqual([
      [11, 94],
      [6, 49],
    ]);
    const amount = resultOf(`channel: door, discount: 0.10, ${lines}`);
    expect(each(amount, 'saleDiscount')).toEqual([[10], [0]]);
    expect(amount.charged).toBe(40n);
  });

  it('an amount lessens what is given back where nothing is sold', () => {
    const sale = resultOf(
      `channel: door, discount: 0.10, lines: [{ for: b, count: 1, price: 0.55, ${back} }]`,
    );
    expect(each(sale, 'saleDiscount', 'net')).toEqual([[10, 45]]);
    expect(sale.charged).toBe(-45n);
  });
});

describe('fees and commission', () => {
  it('a card takes of all that went through it, and the sold lines bear it', () => {
    const sale = resultOf(
      `channel: web, shipping: 9.50, tax: 3.05, lines: [{ for: a, count: 1, price: 38 }, { for: b, count: 1, price: 22 }, { for: c, count: 1, price: 10, ${back} }]`,
    );
    // 62.55 × .029 + .30 = 2.11395 by 38 and 22
    expect(sale.fee).toBe(211n);
    expect(each(sale, 'fee')).toEqual([[134], [77], [0]]);
    expect(sale.charged).toBe(6255n);
  });

  it('what was paid beforehand did not go through the card', () => {
    const paid = (amount: string): SaleResult =>
      resultOf(
        `channel: web, advances: [{ advance: a1, amount: ${amount} }], lines: [{ for: a, count: 1, price: 38 }]`,
      );
    // 8 × .029 + .30
    expect([paid('30').fee, paid('38').fee]).toEqual([53n, 0n]);
  });

  it('nothing is taken of a refund; a stated fee of one was given back', () => {
    const refund = `lines: [{ for: a, count: 1, price: 38, ${back} }, { for: a, count: 1, price: 38, ${back} }]`;
    expect(resultOf(`channel: web, ${refund}`).fee).toBe(0n);
    expect(each(resultOf(`channel: web, fee: 0.15, ${refund}`), 'fee')).toEqual([[-8], [-7]]);
  });

  it('commission is of sold less back, once', () => {
    const sale = resultOf(
      `channel: nook, shipping: 5, lines: [{ for: a, count: 1, price: 1.01 }, { for: a, count: 1, price: 1.01 }, { for: a, count: 1, price: 0.51, ${back} }]`,
    );
    // 40 % of 1.51 = .604
    expect(each(sale, 'commission')).toEqual([[30], [30], [0]]);
    const refund = resultOf(`channel: nook, lines: [{ for: a, count: 1, price: 0.51, ${back} }]`);
    expect([refund.commission, each(refund, 'commission')]).toEqual([-20n, [[-20]]]);
  });
});

describe('a tax in the price', () => {
  it('is R once a side, over lines and shipping, which is the last weight', () => {
    const sale = resultOf(
      `channel: abroad, shipping: 0.10, lines: [{ for: a, count: 1, price: 0.10 }, { for: b, count: 1, price: 0.10 }, { for: c, count: 1, price: 0.09, ${back} }]`,
    );
    // 30 ÷ 6 = 5 by thirds; 9 ÷ 6 = 1.5
    expect(each(sale, 'tax', 'net')).toEqual([
      [2, 8],
      [2, 8],
      [2, 7],
    ]);
    expect([sale.shippingTax, sale.charged]).toEqual([1n, 21n]);
  });

  it('is in the discounts too: gross is net and discounts without it', () => {
    const sale = resultOf(
      'channel: abroad, lines: [{ for: a, count: 1, price: 1.20, discount: 0.15 }]',
    );
    // 105: tax 17.5; in the discount 2.5
    expect(each(sale, 'tax', 'net', 'gross')).toEqual([[18, 87, 99]]);
  });

  it('a stated tax is on top, or where prices contain one the tax in them', () => {
    const lines = 'tax: 0.07, lines: [{ for: a, count: 1, price: 1.20 }]';
    const [onTop, within] = [
      resultOf(`channel: door, ${lines}`),
      resultOf(`channel: abroad, ${lines}`),
    ];
    expect([each(onTop, 'tax', 'net'), onTop.tax, onTop.charged]).toEqual([[[0, 120]], 7n, 127n]);
    expect([each(within, 'tax', 'net'), within.tax, within.charged]).toEqual([
      [[7, 113]],
      0n,
      120n,
    ]);
  });

  it('a stated tax is of one side: of returns alone it was given back', () => {
    const line = `{ for: a, count: 1, price: 1.20, ${back} }`;
    const refund = resultOf(`channel: door, tax: 0.07, lines: [${line}]`);
    expect([each(refund, 'net'), refund.tax, refund.charged]).toEqual([[[120]], -7n, -127n]);
    const mixed = resultOf(
      `channel: abroad, tax: 0.07, lines: [{ for: a, count: 1, price: 1.20 }, ${line}]`,
    );
    expect(each(mixed, 'tax', 'net')).toEqual([
      [7, 113],
      [20, 100],
    ]);
  });
});

describe('what is given back', () => {
  it('is all that a sale of returns alone states, its shipping with the tax in it', () => {
    const lines = `lines: [{ for: a, count: 1, price: 10, ${back} }]`;
    const onTop = resultOf(`channel: door, shipping: 5, tax: 1, commission: 2, ${lines}`);
    expect(onTop).toMatchObject({ shipping: -500n, tax: -100n, commission: -200n });
    expect(onTop.charged).toBe(-1600n);
    const within = resultOf(`channel: abroad, shipping: 5, ${lines}`);
    // 15.00 ÷ 6 by 10 and 5
    expect([each(within, 'tax', 'net'), within.shippingTax]).toEqual([[[167, 833]], -83n]);
    expect(within.charged).toBe(-1500n);
  });

  it('is what is below zero where something comes back', () => {
    const lines = `lines: [{ for: a, count: 1, price: 6 }, { for: b, count: 1, price: 12, ${back} }]`;
    const onTop = resultOf(`channel: door, tax: -2.40, ${lines}`);
    expect([onTop.tax, onTop.charged]).toEqual([-240n, -840n]);
    const within = resultOf(`channel: abroad, tax: -1.50, ${lines}`);
    expect([each(within, 'tax'), within.tax, within.charged]).toEqual([[[100], [150]], 0n, -600n]);
  });

  it('has no tax in its shipping where the channel says so', () => {
    const line = '{ for: a, count: 1, price: 12 }';
    const sale = resultOf(`channel: post, shipping: 5, lines: [${line}]`);
    expect([each(sale, 'tax'), sale.shippingTax, sale.charged]).toEqual([[[200]], 0n, 1700n]);
  });
});

describe('a class fee', () => {
  const classes =
    'lids: { name: Lids, starts: 2026-03-01, meets: [2026-03-15, 2026-03-01, 2026-04-10] }';
  const parts = (sale: string): string[] => {
    const [line] = resultOf(`channel: door, ${sale}`, { classes }).lines;
    return line!.meetings.map(({ day, gross, discount }) => `${day} ${gross} ${discount}`);
  };

  it('is earned in equal parts, first meetings first, earlier ones on the sale’s day', () => {
    expect(parts('discount: 0.05, lines: [{ class: lids, count: 1, price: 1.00 }]')).toEqual([
      '2026-03-02 34 2',
      '2026-03-15 33 2',
      '2026-04-10 33 1',
    ]);
  });

  it('is given back over the meetings to come, else on the refund’s day', () => {
    const refund = `lines: [{ class: lids, count: 1, price: 1.01, ${back} }]`;
    expect(parts(refund)).toEqual(['2026-03-15 51 0', '2026-04-10 50 0']);
    const today = { classes: 'lids: { name: Lids, starts: 2026-02-23, sessions: 3 }' };
    const [own] = resultOf(`channel: door, ${refund}`, today).lines;
    expect(own!.meetings.map(({ day }) => day)).toEqual(['2026-03-02', '2026-03-09']);
    const reduced = `discount: 0.05, ${refund}`;
    expect(parts(reduced)).toEqual(['2026-03-15 48 0', '2026-04-10 48 0']);
    const late = { classes: 'lids: { name: Lids, starts: 2026-02-20, sessions: 2 }' };
    const [line] = resultOf(`channel: door, ${refund}`, late).lines;
    expect(line!.meetings).toEqual([{ day: '2026-03-02', gross: 101n, discount: 0n }]);
  });
});

describe('a currency', () => {
  it.each([
    { currency: 'JPY', price: '120', amount: 120n, tax: 20n },
    { currency: 'KWD', price: '1.205', amount: 1205n, tax: 201n },
  ])('$currency has its own smallest unit', ({ currency, price, amount, tax }) => {
    const studio = `format: 1\nname: S\ncurrency: ${currency}\n`;
    const sale = resultOf(`channel: abroad, lines: [{ for: a, count: 1, price: ${price} }]`, {
      studio,
    });
    expect(sale.lines).toMatchObject([{ amount, tax }]);
  });
});

describe('mileage', () => {
  it('runs in the order of the journeys within the tax year', () => {
    const journey = (id: string, day: string, distance: string): string =>
      `${id}: { date: ${day}, to: A, for: car, amount: 0, distance: ${distance} }\n`;
    const book = bookFrom({
      studio: 'format: 1\nname: S\ncurrency: USD\nyear-starts: "04-06"\n',
      spent:
        journey('x3', '2026-04-06', '0.9 mi') +
        journey('x1', '2026-04-05', '0.5 mi') +
        journey('x2', '2026-04-04', '0.9 mi') +
        journey('x4', '2026-04-07', '16.09344 km') +
        journey('x5', '2027-01-01', '5 mi'),
    });
    const rates = { unit: 'mi', rates: [{ upTo: '10', rate: '0.45' }, { rate: '0.25' }] } as const;
    // 40.5 → 41, 63 → 63; 40.5 → 41, 450 + .9 × 25 = 472.5 → 473
    expect([...mileage(book, '2026-12-31', rates)]).toEqual([
      ['x2', 41n],
      ['x1', 22n],
      ['x3', 41n],
      ['x4', 432n],
    ]);
  });
});
