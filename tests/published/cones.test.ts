/** Cones against a table in print. */
import { describe, expect, it } from 'vitest';
import { compareCones, guideTemperature, parseCone } from '../../src/number/cone.ts';

// Older table for large cones heated at 150 °C an hour: mauipotter.com/resources_cone_chart.html
const PRINTED: readonly (readonly [string, number])[] = [
  ['022', 600],
  ['010', 900],
  ['06', 999],
  ['05', 1046],
  ['04', 1060],
  ['03 1/2', 1080],
  ['03', 1101],
  ['01', 1137],
  ['1', 1154],
  ['4', 1186],
  ['5', 1196],
  ['6', 1222],
  ['8', 1263],
  ['9', 1280],
  ['10', 1305],
  ['13', 1346],
];

describe('the cone table at 150 °C an hour', () => {
  it.each(PRINTED)('gives cone %s about %d °C', (cone, degrees) => {
    expect(guideTemperature(parseCone(cone)!)).toBe(degrees);
  });

  it('rises in the order of the cones', () => {
    const printed = PRINTED.map(([cone]) => parseCone(cone)!);
    expect(printed.toReversed().toSorted(compareCones)).toEqual(printed);
    const degrees = printed.map(guideTemperature);
    expect(degrees.toSorted((a, b) => a! - b!)).toEqual(degrees);
  });
});

describe('the order of cones', () => {
  // A table for 60 °C an hour prints 1186 °C for cone 5, which is cone 4's temperature in the table
  // above (same source): a temperature alone does not tell the cone, so cones go by name.
  it('is not told by the temperature: 1186 °C is cone 4 here and cone 5 elsewhere', () => {
    expect(guideTemperature('4')).toBe(1186);
    expect(guideTemperature('5')).not.toBe(1186);
    expect(compareCones('4', '5')).toBeLessThan(0);
  });

  // Usual ranges, common practice: bisque 08 to 04, mid-range 5 to 6, stoneware 9 to 10.
  it('keeps the usual ranges apart', () => {
    const usual = ['08', '07', '06', '05', '04', '5', '6', '9', '10'];
    expect(usual.toSorted(compareCones)).toEqual(usual);
    expect(usual.toSorted()).not.toEqual(usual);
  });
});
