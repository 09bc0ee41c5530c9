import { describe, expect, it } from 'vitest';
import { landedCosts } from '../../src/reckon/landed.ts';
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

  it('has freight by weight where the purchase says so, and by cost where a weight is unknown', () => {
    const by = 'freight: 1.00, share-freight-by: weight';
    // A sixth, a third and a half: 16.67, 33.33, 50.
    expect(landed(ALIKE.join(', '), by)).toEqual(['10.17', '10.33', '10.50']);
    const counted = [...ALIKE.slice(1), '{ material: m, quantity: 3, cost: 10.00 }'];
    expect(landed(counted.join(', '), by)).toEqual(['10.34', '10.33', '10.33']);
  });

  it('shares by count where everything was free', () => {
    const free = '{ material: m, quantity: 1 kg, cost: 0 }';
    expect(landed(`${free}, ${free}`, 'freight: 0.05')).toEqual(['0.03', '0.02']);
  });
});
