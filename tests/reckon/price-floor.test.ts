import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Sale } from '../../src/book.ts';
import { ONE, ZERO, decimal, roundTo, type Decimal } from '../../src/number/decimal.ts';
import {
  NO_MONEY,
  add,
  decimalOf,
  less,
  minorDigits,
  times,
  total,
  type Money,
} from '../../src/number/money.ts';
import { dearestFloor, floorAt, leftOf } from '../../src/reckon/costs/kind-price.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { holds } from '../helpers/law.ts';
import { bookFrom } from '../helpers/book.ts';
import { money, told } from '../helpers/minor.ts';

const UNIT = 1n as Money;

function bookWith(channel: string, currency = 'USD'): Book {
  return bookFrom({
    studio: `format: 1\nname: Test studio\ncurrency: ${currency}\n`,
    products: 'mug: { name: Mug }',
    channels: `there: ${channel}`,
  });
}

function floorOf(book: Book, cost: Decimal): Money | undefined {
  return floorAt(book, book.channels.get('there') ?? expect.fail('no channel'), cost);
}

function digitsIn(book: Book): number {
  return minorDigits(book.studio.currency) ?? expect.fail('no currency');
}

/** What a real sale of one mug leaves: reckoned from its lines, apart from what `leftOf` does. */
function marginOfSale(book: Book, price: Money, cost: Decimal): Decimal {
  const sale: Sale = {
    id: 's1',
    file: 'sales.yaml',
    date: '2026-01-05',
    channel: 'there',
    lines: [{ product: 'mug', count: 1, price: decimalOf(price, digitsIn(book)) }],
  };
  const { lines } = saleMoney(book, sale);
  const left = total(lines.map(({ net, fee, commission }) => less(net, fee, commission)));
  return decimalOf(left, digitsIn(book)).minus(cost);
}

describe('floorAt', () => {
  it.each([
    ['{ name: the cost itself rounded up, kind: direct }', '12.341', '12.35'],
    ['{ name: cost ÷ (1 − .4), kind: consignment, commission: 40% }', '12.00', '20.00'],
    [
      '{ name: (cost + .3) ÷ .971, kind: online, fee-percent: 2.9%, fee-each: 0.30 }',
      '12',
      '12.67',
    ],
    ['{ name: 10 × 1.2, kind: fair, tax-included: 20% }', '10.00', '12.00'],
    ['{ name: nothing for nothing, kind: direct }', '0', '0.00'],
  ])('at a channel %s', (channel, cost, floor) => {
    expect(told(floorOf(bookWith(channel), decimal(cost)))).toBe(floor);
  });

  // The formula says 1666.67 and 16.6667; the gallery takes 666 of 1666 (666.4), and 6.666 of 16.666.
  it('is in whole units of the currency, as a sale is rounded', () => {
    const gallery = '{ name: G, kind: consignment, commission: 40% }';
    expect(told(floorOf(bookWith(gallery, 'JPY'), decimal(1000)), 0)).toBe('1666');
    expect(told(floorOf(bookWith(gallery, 'KWD'), decimal(10)), 3)).toBe('16.666');
  });

  it('is none where the channel takes everything', () => {
    const all = '{ name: G, kind: consignment, commission: 80%, fee-percent: 20% }';
    expect(floorOf(bookWith(all), ONE)).toBeUndefined();
  });

  const percent = (most: number): fc.Arbitrary<string> =>
    fc.integer({ min: 0, max: most * 10 }).map((tenths) => `${String(tenths / 10)}%`);
  const fees = fc
    .tuple(percent(10), fc.nat({ max: 3 }))
    .map(([share, each]) => `fee-percent: ${share}, fee-each: ${String(each)}`);
  const channels = fc
    .tuple(percent(60), fees, percent(25))
    .map(
      ([commission, fee, tax]) =>
        `{ name: C, kind: online, commission: ${commission}, ${fee}, tax-included: ${tax} }`,
    );
  const books = fc
    .tuple(channels, fc.constantFrom('USD', 'JPY', 'KWD'))
    .map(([channel, currency]) => bookWith(channel, currency));
  const costs = fc
    .nat({ max: 9_999_999 })
    .map((all) => roundTo(decimal(all).times(decimal('0.0007')), 4));

  it('leaves nothing missing, and one unit less leaves something missing, in a real sale', () => {
    holds(
      fc.property(books, costs, (book, cost) => {
        const floor = floorOf(book, cost) ?? expect.fail('no floor');
        expect(marginOfSale(book, floor, cost).gte(ZERO)).toBe(true);
        for (let more = 1; more < 8; more += 1) {
          const price = add(floor, times(UNIT, more));
          expect(marginOfSale(book, price, cost).gte(ZERO)).toBe(true);
        }
        if (floor === NO_MONEY) return;
        expect(marginOfSale(book, less(floor, UNIT), cost).lt(ZERO)).toBe(true);
      }),
      400,
    );
  });
});

describe('leftOf', () => {
  it('is the price less tax in it, fee and commission: 120 − 20 − (3.48 + .30) − 30', () => {
    const book = bookWith(
      '{ name: C, kind: online, commission: 25%, fee-percent: 2.9%, fee-each: 0.30, tax-included: 20% }',
    );
    const channel = book.channels.get('there') ?? expect.fail('no channel');
    expect(told(leftOf(book, channel, money('120.00')))).toBe('66.22');
  });
});

describe('dearestFloor', () => {
  const book = bookFrom({
    channels: `
b-fair: { name: B, kind: fair, commission: 10% }
a-fair: { name: A, kind: fair, commission: 10% }
cheap: { name: Cheap, kind: fair }
greedy: { name: Greedy, kind: wholesale, commission: 100% }
fine: { name: Fine, kind: wholesale }
`,
  });
  const cost = decimal(9);

  it('is the highest of its kind, the first id of equal ones', () => {
    const dearest = dearestFloor(book, 'fair', cost);
    expect([dearest?.channel.id, told(dearest?.price)]).toEqual(['a-fair', '10.00']);
  });

  it('is without a price where one channel of the kind takes everything', () => {
    const dearest = dearestFloor(book, 'wholesale', cost);
    expect([dearest?.channel.id, dearest?.price]).toEqual(['greedy', undefined]);
  });

  it('is none for a kind that the studio does not sell by', () => {
    expect(dearestFloor(book, 'online', cost)).toBeUndefined();
  });
});
