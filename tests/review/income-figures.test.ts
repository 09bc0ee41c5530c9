import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import { quartersOf } from '../../src/reckon/tax/tax-period.ts';
import type { SideFigure } from '../../src/review/figures.ts';
import { INCOME_FIGURES, incomeFigures } from '../../src/review/income-figures.ts';
import { bookFrom } from '../helpers/book.ts';

/** A bowl of 2.00 of clay, sold once a quarter for ever less: 20.00, 19.00 and so on, half paid away. */
const QUARTERS = ['2025', '2026'].flatMap((year) => quartersOf(year)).slice(0, 6);
const book = bookFrom({
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  bought:
    'b1: { date: 2025-01-01, supplier: Pit, lines: [{ material: clay, quantity: 10 kg, cost: 20.00 }] }',
  products: 'bowl: { name: Bowl, clay: { material: clay, each: 1 kg }, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: wood }',
  pieces: 'p1: { date: 2025-01-02, product: bowl, made: 6 }',
  firings: 'f1: { date: 2025-01-03, kiln: kiln, kind: once, load: [{ lot: p1, in: 6, first: 6 }] }',
  channels: 'shop: { name: Shop, kind: wholesale, commission: 50% }',
  sales: QUARTERS.map(
    ({ to }, at) =>
      `s${at}: { date: ${to}, channel: shop, lines: [{ product: bowl, count: 1, price: ${20 - at}.00 }] }`,
  ).join('\n'),
});
const flows = flow(book, '2026-06-30');

function texts(figures: readonly SideFigure[]): string[] {
  return figures.map(({ figure, of, value }) => `${figure} ${of} ${value?.toString() ?? ''}`);
}

describe('what was earned by quarter', () => {
  it('is income, what selling took, and what is left after the cost', () => {
    expect(texts(incomeFigures(book, flows, QUARTERS.slice(0, 2)))).toEqual([
      'income 2025-Q1 20',
      'fees and commission 2025-Q1 10',
      'margin 2025-Q1 8',
      'income 2025-Q2 19',
      'fees and commission 2025-Q2 9.5',
      'margin 2025-Q2 7.5',
    ]);
  });

  it('is without the margin of more than a year of quarters, and else the same', () => {
    const each = QUARTERS.flatMap((quarter) => incomeFigures(book, flows, [quarter]));
    const without = each.filter(({ figure }) => figure !== 'margin');
    expect(texts(incomeFigures(book, flows, QUARTERS))).toEqual(texts(without));
    expect(without.at(-2)?.value?.eq(decimal('15'))).toBe(true);
    const four = incomeFigures(book, flows, QUARTERS.slice(0, 4));
    expect(four.filter(({ figure }) => figure === 'margin')).toHaveLength(4);
  });

  it('goes by names that are shown in an order', () => {
    const named = new Set(
      incomeFigures(book, flows, QUARTERS.slice(0, 1)).map((each) => each.figure),
    );
    expect([...named]).toEqual(INCOME_FIGURES);
  });
});
