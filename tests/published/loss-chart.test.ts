import { describe, expect, it } from 'vitest';
import { chartFirings } from '../../src/reckon/kilns/loss-chart.ts';
import { lossFacts } from '../../src/reckon/kilns/losses.ts';
import { bookFrom } from '../helpers/book.ts';

// D. C. Montgomery, Introduction to Statistical Quality Control, 2nd ed. 1991, pp. 152–155 (the juice
// cans; the pattern of the NIST/SEMATECH e-Handbook 6.3.3.2), as thirty firings of fifty pieces.
const LOST = [
  12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7,
  13, 9, 6,
];

function chart(left: (sample: number) => boolean) {
  const firings = LOST.map((lost, index) => {
    const day = String(index + 1).padStart(2, '0');
    return `f${day}: { date: 2025-01-${day}, kiln: kiln, kind: glaze, load: [{ outside: cans, in: 50, first: ${String(50 - lost)}, lost: ${String(lost)} }] }`;
  });
  const kept = firings.filter((_, index) => !left(index + 1));
  const book = bookFrom({
    kilns: 'kiln: { name: Kiln, fuel: electricity }',
    firings: kept.join('\n'),
  });
  return chartFirings(lossFacts(book, { to: '2025-12-31' }, '2025-12-31'));
}

describe('control chart of losses (Montgomery, pp. 152–155)', () => {
  it('centre .2313, limits .0524 and .4102, firings 15 and 23 out of line', () => {
    const firings = chart(() => false);
    expect(firings[0]?.centre.toFixed(4)).toBe('0.2313');
    expect(firings[0]?.limits.upper.toFixed(4)).toBe('0.4102');
    expect(firings[0]?.limits.lower.toFixed(4)).toBe('0.0524');
    const out = firings.filter((each) => each.outOfLine).map(({ firing }) => firing.id);
    expect(out).toEqual(['f15', 'f23']);
  });

  it('without those two: .2150, .3893 and .0407, and firing 21 is out of line', () => {
    const firings = chart((sample) => sample === 15 || sample === 23);
    expect(firings[0]?.centre.toFixed(4)).toBe('0.2150');
    expect(firings[0]?.limits.upper.toFixed(4)).toBe('0.3893');
    expect(firings[0]?.limits.lower.toFixed(4)).toBe('0.0407');
    const out = firings.filter((each) => each.outOfLine).map(({ firing }) => firing.id);
    expect(out).toEqual(['f21']);
  });

  it('Laney p′ (Quality Engineering 14(4), 2002): upper .528472, lower 0, none out (computed beforehand)', () => {
    const firings = chart(() => false);
    expect(firings[0]?.laney?.upper.toFixed(6)).toBe('0.528472');
    expect(firings[0]?.laney?.lower.toFixed(6)).toBe('0.000000');
    expect(firings.filter((each) => each.outOfLaney)).toEqual([]);
  });
});
