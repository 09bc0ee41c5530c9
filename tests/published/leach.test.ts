/** Limits of lead and cadmium that leach from ware, at their edges, in both units. */
import { describe, expect, it } from 'vitest';
import type { LeachLimit, WareCategory } from '../../src/book.ts';
import { heldAgainst, parseLeached, type Leached } from '../../src/reckon/claims/leached.ts';
import { LEACH_LIMITS } from '../../schema/generated/leach-limits.js';

type Sheet = keyof typeof LEACH_LIMITS;

function limitOf(sheet: Sheet, ware: WareCategory, metal: 'lead' | 'cadmium'): LeachLimit {
  const found = LEACH_LIMITS[sheet].limits.find(
    (each) => each.ware === ware && each.metal === metal,
  );
  if (!found) throw new Error(`${sheet} has no limit of ${metal} for ${ware}`);
  return found;
}

function held(limit: LeachLimit, ...texts: readonly string[]): string {
  return heldAgainst(
    limit,
    texts.flatMap((text): Leached[] => [parseLeached(text)!]),
  );
}

// FDA, Compliance Policy Guides 545.450 (lead) and 545.400 (cadmium), and Food Code 4-101.13:
// µg/mL of leaching solution; what exceeds them is over.
const FDA: readonly [WareCategory, 'lead' | 'cadmium', string, string][] = [
  ['flatware', 'lead', '3.0', '3.01'],
  ['small-hollowware', 'lead', '2.0', '2.01'],
  ['large-hollowware', 'lead', '1.0', '1.01'],
  ['cup', 'lead', '0.5', '0.51'],
  ['pitcher', 'lead', '0.5', '0.51'],
  ['flatware', 'cadmium', '0.5', '0.51'],
  ['small-hollowware', 'cadmium', '0.5', '0.51'],
  ['large-hollowware', 'cadmium', '0.25', '0.251'],
];

describe('US FDA action levels', () => {
  it.each(FDA)('%s, %s: %s is within, %s is over', (...[ware, metal, within, over]) => {
    const limit = limitOf('us-fda', ware, metal);
    for (const unit of ['µg/mL', 'ug/mL', 'mg/L', 'μg/mL'])
      expect([held(limit, `${within} ${unit}`), held(limit, `${over} ${unit}`)]).toEqual([
        'under',
        'over',
      ]);
    expect(held(limit, `${within} mg/dm2`)).toBe('not-comparable');
  });

  it('flatware goes by the mean of six, cups by any of six', () => {
    const six = ['2.0', '2.0', '2.0', '2.0', '2.0', '7.9'].map((each) => `${each} µg/mL`);
    expect(held(limitOf('us-fda', 'flatware', 'lead'), ...six)).toBe('under');
    const cups = ['0.1', '0.1', '0.1', '0.1', '0.1', '0.6'].map((each) => `${each} µg/mL`);
    expect(held(limitOf('us-fda', 'cup', 'lead'), ...cups)).toBe('over');
    const farther = ['2.1', '2.1', '2.1', '2.1', '2.1', '7.9'].map((each) => `${each} µg/mL`);
    expect(held(limitOf('us-fda', 'flatware', 'lead'), ...farther)).toBe('over');
  });

  it('under an amount that is above the limit says nothing', () => {
    const lead = limitOf('us-fda', 'cup', 'lead');
    expect(held(lead, 'under 0.5 µg/mL')).toBe('under');
    expect(held(lead, 'under 1 µg/mL')).toBe('too-coarse');
    expect(held(lead, 'under 1 µg/mL', '0.6 µg/mL')).toBe('over');
    const plates = limitOf('us-fda', 'flatware', 'lead');
    expect(held(plates, 'under 4 µg/mL', '1 µg/mL')).toBe('under');
    expect(held(plates, 'under 4 µg/mL', '2.5 µg/mL')).toBe('too-coarse');
  });
});

// Council Directive 84/500/EEC, article 2.
const EU: readonly [WareCategory, 'lead' | 'cadmium', string, string][] = [
  ['flatware', 'lead', '0.8 mg/dm2', '1.21 mg/dm2'],
  ['flatware', 'cadmium', '0.07 mg/dm2', '0.106 mg/dm2'],
  ['cup', 'lead', '4.0 mg/L', '6.01 mg/L'],
  ['cup', 'cadmium', '0.3 mg/L', '0.451 mg/L'],
  ['cooking', 'lead', '1.5 mg/L', '2.26 mg/L'],
  ['storage', 'cadmium', '0.1 mg/L', '0.151 mg/L'],
];

describe('EU directive 84/500/EEC', () => {
  it.each(EU)('%s, %s: %s is within, %s is over', (...[ware, metal, within, over]) => {
    const limit = limitOf('eu-84-500', ware, metal);
    expect([held(limit, within), held(limit, over)]).toEqual(['under', 'over']);
    expect(held(limit, over, within, within, within)).toBe('over');
  });

  it('over by not more than half passes with three more whose mean is within', () => {
    const limit = limitOf('eu-84-500', 'cup', 'lead');
    const held4 = (...each: readonly number[]) => held(limit, ...each.map((mg) => `${mg} mg/L`));
    expect(held4(5.9)).toBe('over');
    expect(held4(6, 3, 4, 5)).toBe('under');
    expect(held4(6, 3, 4.1, 5)).toBe('over');
    expect(held4(6, 6, 3, 3)).toBe('under');
    expect(held4(6, 6.1, 1, 1)).toBe('over');
    expect(held4(6, 3, 4)).toBe('over');
  });

  it('a result by area is nothing against a limit by volume', () => {
    expect(held(limitOf('eu-84-500', 'flatware', 'lead'), '0.5 mg/L')).toBe('not-comparable');
  });
});

it.each(['none found', '0,35 mg/L', '0.35', 'under mg/L', '0.35 ppm', 'mg/L 3'])(
  '"%s" stays words',
  (text) => {
    expect(parseLeached(text)).toBeUndefined();
  },
);
