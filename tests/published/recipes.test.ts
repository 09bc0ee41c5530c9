import { inBaseUnits } from '../../src/number/measure.ts';
import { describe, expect, it } from 'vitest';
import { sum, type Decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import { bookFrom } from '../helpers/book.ts';

// A base of 40/30/20/10 with additions of 2 % and 8 % on top (computed beforehand; additions on top
// of 100 as in potters.org/subject82414.htm).
function weighed(weight: string): Record<string, Decimal> {
  const materials = ['feldspar', 'silica', 'whiting', 'kaolin', 'cobalt', 'iron'];
  const book = bookFrom({
    materials: materials.map((id) => `${id}: { name: ${id}, kind: dry, unit: g }`).join('\n'),
    bought: `b1: { date: 2025-01-01, supplier: Pit, lines: [${materials
      .map((id) => `{ material: ${id}, quantity: 10000 g, cost: 10 }`)
      .join(', ')}] }`,
    recipes: `
blue:
  name: Blue
  kind: glaze
  versions:
    - from: 2025-01-01
      base:
        - { material: feldspar, parts: 40 }
        - { material: silica, parts: 30 }
        - { material: whiting, parts: 20 }
        - { material: kaolin, parts: 10 }
      additions:
        - { material: cobalt, percent: 2% }
        - { material: iron, percent: 8% }
`,
    mixed: `m1: { date: 2025-01-02, recipe: blue, ${weight} }`,
  });
  const moved = [...flow(book, '2025-01-31').stock.movements];
  const mixed = moved.filter(({ reason }) => reason === 'mixed' || reason === 'into-mix');
  return Object.fromEntries(
    mixed.map(({ pool, quantity }) => [pool, inBaseUnits(quantity).abs()] as const),
  );
}

function shown(weights: Record<string, Decimal>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(weights).map(([id, weight]) => [id, weight.toFixed(2)] as const),
  );
}

describe('weighing out a recipe', () => {
  it('5,000 g of base: 2,000, 1,500, 1,000, 500 g, and 100 and 400 g on top, 5,500 g in all', () => {
    expect(shown(weighed('base-weight: 5000 g'))).toEqual({
      feldspar: '2000.00',
      silica: '1500.00',
      whiting: '1000.00',
      kaolin: '500.00',
      cobalt: '100.00',
      iron: '400.00',
      blue: '5500.00',
    });
  });

  it('5,000 g in all: 4,545.45 g of base', () => {
    const { blue, cobalt, iron, ...base } = weighed('total-weight: 5000 g');
    expect(sum(Object.values(base)).toFixed(2)).toBe('4545.45');
    expect(cobalt?.toFixed(2)).toBe('90.91');
    expect(iron?.toFixed(2)).toBe('363.64');
    expect(blue?.toString()).toBe('5000');
  });
});
