import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { bookFrom } from '../helpers/book.ts';

function shortOf(bought: string, used: string): string | undefined {
  const book = bookFrom({
    materials: 'kaolin: { name: Kaolin, kind: dry, unit: kg }',
    bought: `b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: kaolin, quantity: ${bought}, cost: 5 }] }`,
    used: `u1: { date: 2026-01-02, material: kaolin, quantity: ${used} }`,
  });
  return flow(book, '2026-01-31').shortfalls[0]?.because;
}

describe('what is said of a shortage', () => {
  it('has figures as reports show them, rounded half up', () => {
    // 1 lb is .45359237 kg.
    expect(shortOf('1 lb', '1 kg')).toBe('0.45 kg on hand, 1 kg drawn');
    expect(shortOf('1.005 kg', '3.7 kg')).toBe('1.01 kg on hand, 3.7 kg drawn');
  });

  it('has as many decimals as tell the two apart', () => {
    expect(shortOf('1.001 kg', '1.0034 kg')).toBe('1.001 kg on hand, 1.003 kg drawn');
    expect(shortOf('1 kg', '1.00004 kg')).toBe('1 kg on hand, 1.00004 kg drawn');
  });
});
