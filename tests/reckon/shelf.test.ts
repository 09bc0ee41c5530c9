import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { placedPieces } from '../../src/reckon/ware/lot.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

/** A lot of so many firsts and seconds, of which so much clay was bought; the galleries' ids are not in order. */
function studio(lot: { first: number; second: number; clay: string }, sent: string) {
  const made = String(lot.first + lot.second);
  return bookFrom({
    materials: 'clay: { name: Clay, kind: clay, unit: lb }',
    bought: `b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: clay, quantity: ${made} lb, cost: ${lot.clay} }] }`,
    products: 'cup: { name: Cup, fired: [once], clay: { material: clay, each: 1 lb } }',
    kilns: 'kiln: { name: Kiln, fuel: wood }',
    channels: `
zinnia: { name: Zinnia, kind: consignment }
arbor: { name: Arbor, kind: consignment }
`,
    pieces: `p1: { date: 2026-01-02, product: cup, made: ${made} }`,
    firings: `f1: { date: 2026-01-03, kiln: kiln, kind: once, load: [{ lot: p1, in: ${made}, first: ${String(lot.first)}, second: ${String(lot.second)} }] }`,
    consigned: sent,
  });
}

function placed(book: ReturnType<typeof studio>): string[] {
  const lot = flow(book, '2026-12-31').ware.lots.get('p1') ?? expect.fail('no lot');
  return placedPieces(lot).map(({ place, grade, count, cost }) => {
    return `${place || 'studio'} ${grade} ${String(count)} ${told(cost.clay) ?? ''}`;
  });
}

const SENT = `
g1: { date: 2026-02-01, channel: zinnia, sent: [{ product: cup, count: 2 }] }
g2: { date: 2026-02-02, channel: arbor, sent: [{ product: cup, count: 1 }, { product: cup, grade: second, count: 1 }] }
`;

describe('what a grade at a place holds of the cost of its lot', () => {
  it('is its share by count: the odd cents to the largest remainders', () => {
    // 14.29 each of 1.00: 28.57, 14.29, 14.29, 14.29, 28.57.
    expect(placed(studio({ first: 5, second: 2, clay: '1.00' }, SENT))).toEqual([
      'studio first 2 0.29',
      'studio second 1 0.14',
      'arbor first 1 0.14',
      'arbor second 1 0.14',
      'zinnia first 2 0.29',
    ]);
  });

  it('is in the order of the studio, the galleries by id, firsts before seconds', () => {
    const sent = `
g1: { date: 2026-02-01, channel: zinnia, sent: [{ product: cup, grade: second, count: 1 }] }
g2: { date: 2026-02-02, channel: arbor, sent: [{ product: cup, grade: second, count: 1 }, { product: cup, count: 1 }] }
`;
    // 2 cents and a half each of 0.13: the odd ones to the first three.
    expect(placed(studio({ first: 2, second: 3, clay: '0.13' }, sent))).toEqual([
      'studio first 1 0.03',
      'studio second 1 0.03',
      'arbor first 1 0.03',
      'arbor second 1 0.02',
      'zinnia second 1 0.02',
    ]);
  });

  it('moves no money when pieces are sent or come back', () => {
    const back = `${SENT}g3: { date: 2026-02-03, channel: zinnia, back: [{ product: cup, count: 2 }] }\n`;
    const book = studio({ first: 5, second: 2, clay: '1.00' }, back);
    const standing = (day: string): string[] => {
      const value = materialValue(flow(book, day)).standing;
      return [told(value.studio), told(value.galleries)];
    };
    expect(standing('2026-01-31')).toEqual(['1.00', '0.00']);
    expect(standing('2026-02-02')).toEqual(['0.43', '0.57']);
    // Four firsts and a second here, 57.14 and 14.29; a first and a second there, 14.29 each. The odd
    // cent goes to the first of the three.
    expect(standing('2026-02-03')).toEqual(['0.72', '0.28']);
    expect([...flow(book, '2026-12-31').ware.facts].map(({ reason }) => reason)).toEqual([
      'made',
      'fired',
    ]);
  });
});
