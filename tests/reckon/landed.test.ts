import { describe, expect, it } from 'vitest';
import { landedCosts } from '../../src/reckon/stock/stock-flow.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

function landed(lines: string, more: string): string[] {
  const book = bookFrom({
    bought: `b1: { date: 2026-01-01, supplier: Pit, ${more}, lines: [${lines}] }`,
  });
  const bought = book.bought.get('b1') ?? expect.fail('no purchase');
  return landedCosts(book, bought).map((cost) => told(cost));
}

const ALIKE = [1, 2, 3].map((weight) => `{ material: m, quantity: ${weight} kg, cost: 10.00 }`);

describe('the landed cost of a purchase', () => {
  it('has freight, tax and discount in it, each shared by itself by the lines’ cost', () => {
    // 34 33 33 of freight, 17 17 16 of tax, less 4 3 3 of discount.
    expect(landed(ALIKE.join(', '), 'freight: 1.00, tax: 0.50, discount: 0.10')).toEqual([
      '10.47',
      '10.47',
      '10.46',
    ]);
  });

  it('has freight by weight where the purchase says so, tax and discount still by cost', () => {
    const by = 'freight: 1.00, share-freight-by: weight';
    // A sixth, a third and a half: 16.67, 33.33, 50.
    expect(landed(ALIKE.join(', '), by)).toEqual(['10.17', '10.33', '10.50']);
    // 50 lb are 22,679.6185 g, of 32,679.6185 g with the 10 kg: freight 20.00 is 13.88 and 6.12.
    // Costs 10.00 and 30.00: tax 4.00 is 1.00 and 3.00, the discount of 2.00 is 0.50 and 1.50.
    const mixed =
      '{ material: m, quantity: 2 x 25 lb, cost: 10.00 }, { material: n, quantity: 10 kg, cost: 30.00 }';
    expect(landed(mixed, 'freight: 20.00, share-freight-by: weight, tax: 4, discount: 2')).toEqual([
      '24.38',
      '37.62',
    ]);
  });

  it('takes the weight that a line says, also where its quantity is one', () => {
    const lines = [
      '{ material: m, quantity: 20 kg, cost: 50.00, weight: 21 kg }',
      '{ material: n, quantity: 200, cost: 40.00, weight: 2 x 1.5 kg }',
      '{ material: o, quantity: 2 L, cost: 10.00, weight: 2400 g }',
    ];
    // 21 + 3 + 2.4 = 26.4 kg. 13.20 of freight is 0.50 a kg: 10.50, 1.50 and 1.20.
    expect(landed(lines.join(', '), 'freight: 13.20, share-freight-by: weight')).toEqual([
      '60.50',
      '41.50',
      '11.20',
    ]);
  });

  it('never goes over to cost: a line without a weight bears no freight', () => {
    const by = 'freight: 1.00, share-freight-by: weight';
    const counted = [...ALIKE.slice(1), '{ material: m, quantity: 3, cost: 10.00 }'];
    // 2 and 3 of 5 kg; nothing for the third.
    expect(landed(counted.join(', '), by)).toEqual(['10.40', '10.60', '10.00']);
    // No weight at all: each the same, 50 and 50, though they cost 10.00 and 30.00.
    const none =
      '{ material: m, quantity: 3, cost: 10.00 }, { material: n, quantity: 1 L, cost: 30.00 }';
    expect(landed(none, by)).toEqual(['10.50', '30.50']);
  });

  it('shares by count where everything was free', () => {
    const free = '{ material: m, quantity: 1 kg, cost: 0 }';
    expect(landed(`${free}, ${free}`, 'freight: 0.05')).toEqual(['0.03', '0.02']);
  });
});
