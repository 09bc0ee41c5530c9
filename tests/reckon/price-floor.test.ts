import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Sale } from '../../src/book.ts';
import { ONE, ZERO, decimal, roundTo, sum, type Decimal } from '../../src/number/decimal.ts';
import { minorDigits } from '../../src/number/money.ts';
import { dearestFloor, floorAt, leftOf } from '../../src/reckon/price-floor.ts';
import { saleMoney } from '../../src/reckon/sale-money.ts';
import { bookFrom } from '../helpers/book.ts';

function bookWith(channel: string, currency = 'USD'): Book {
  return bookFrom({
    studio: `format: 1\nname: Test studio\ncurrency: ${currency}\n`,
    products: 'mug: { name: Mug }',
    channels: `there: ${channel}`,
  });
}

function floorOf(book: Book, cost: string | Decimal): Decimal | undefined {
  const channel = book.channels.get('there') ?? expect.fail('no channel');
  const digits = minorDigits(book.studio.currency) ?? 2;
  return floorAt(book, channel, {
    cost: typeof cost === 'string' ? decimal(cost) : cost,
    minorDigits: digits,
  });
}

/** What a real sale of one mug leaves: reckoned from its lines, apart from what `leftOf` does. */
function marginOfSale(book: Book, price: Decimal, cost: Decimal): Decimal {
  const sale: Sale = {
    id: 's1',
    file: 'sales.yaml',
    date: '2026-01-05',
    channel: 'there',
    lines: [{ product: 'mug', count: 1, price }],
  };
  const { lines } = saleMoney(book, sale, minorDigits(book.studio.currency) ?? 2);
  return sum(lines.map(({ amount, fees }) => amount.minus(fees))).minus(cost);
}

describe('floorAt', () => {
  it.each([
    ['{ name: the cost itself rounded up, kind: direct }', '12.341', '12.35'],
    ['{ name: cost ÷ (1 − .4), kind: consignment, commission: 40% }', '12.00', '20'],
    [
      '{ name: (cost + .3) ÷ .971, kind: online, fee-percent: 2.9%, fee-each: 0.30 }',
      '12',
      '12.67',
    ],
    ['{ name: 10 × 1.2, kind: fair, tax-included: 20% }', '10.00', '12'],
    ['{ name: nothing for nothing, kind: direct }', '0', '0'],
  ])('at a channel %s', (channel, cost, floor) => {
    expect(floorOf(bookWith(channel), cost)?.toString()).toBe(floor);
  });

  // The formula says 1666.67 and 16.6667; the gallery takes 666 of 1666 (666.4), and 6.666 of 16.666.
  it('is in whole units of the currency, as a sale is rounded', () => {
    const gallery = '{ name: G, kind: consignment, commission: 40% }';
    expect(floorOf(bookWith(gallery, 'JPY'), '1000')?.toString()).toBe('1666');
    expect(floorOf(bookWith(gallery, 'KWD'), '10.000')?.toString()).toBe('16.666');
  });

  it('is none where the channel takes everything', () => {
    const all = '{ name: G, kind: consignment, commission: 80%, fee-percent: 20% }';
    expect(floorOf(bookWith(all), '1.00')).toBeUndefined();
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
    fc.assert(
      fc.property(books, costs, (book, cost) => {
        const floor = floorOf(book, cost) ?? expect.fail('no floor');
        const digits = minorDigits(book.studio.currency) ?? 2;
        const unit = digits === 0 ? ONE : decimal(`0.${'0'.repeat(digits - 1)}1`);
        expect(floor.decimalPlaces()).toBeLessThanOrEqual(digits);
        expect(marginOfSale(book, floor, cost).gte(ZERO)).toBe(true);
        for (let more = 1; more < 8; more += 1) {
          const price = floor.plus(unit.times(decimal(more)));
          expect(marginOfSale(book, price, cost).gte(ZERO)).toBe(true);
        }
        if (floor.isZero()) return;
        expect(marginOfSale(book, floor.minus(unit), cost).lt(ZERO)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });
});

describe('leftOf', () => {
  it('is the price less tax in it, fee and commission: 120 − 20 − (3.48 + .30) − 30', () => {
    const book = bookWith(
      '{ name: C, kind: online, commission: 25%, fee-percent: 2.9%, fee-each: 0.30, tax-included: 20% }',
    );
    const channel = book.channels.get('there') ?? expect.fail('no channel');
    const left = leftOf(book, channel, { price: decimal(120), minorDigits: 2 });
    expect(left.toFixed(2)).toBe('66.22');
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
  const asked = { cost: decimal(9), minorDigits: 2 };

  it('is the highest of its kind, the first id of equal ones', () => {
    const dearest = dearestFloor(book, 'fair', asked);
    expect([dearest?.channel.id, dearest?.price?.toString()]).toEqual(['a-fair', '10']);
  });

  it('is without a price where one channel of the kind takes everything', () => {
    const dearest = dearestFloor(book, 'wholesale', asked);
    expect([dearest?.channel.id, dearest?.price]).toEqual(['greedy', undefined]);
  });

  it('is none for a kind that the studio does not sell by', () => {
    expect(dearestFloor(book, 'online', asked)).toBeUndefined();
  });
});
