/** Shrinkage, absorption and throwing sizes against printed values. */
import { expect, it } from 'vitest';
import { claysMeasured, throwingSizes } from '../../src/reckon/claims/shrinkage.ts';
import { bookFrom } from '../helpers/book.ts';

const DAY = '2026-06-30';

function studioOf(tests: string, products = '') {
  return bookFrom({
    materials: 'buff: { name: Buff, kind: clay, unit: kg }',
    recipes:
      'green: { name: Green, kind: glaze, cone: "6", versions: [{ from: 2026-01-01, base: [] }] }',
    products,
    tests,
  });
}

const BAR = 't1: { date: 2026-01-02, kind: shrinkage, clay: buff, cone: "6", shrinkage: ';

// potters.org/subject01835.htm: 10 in to 8.5 in is 15 %.
it('(wet − fired) ÷ wet', () => {
  const [clay] = claysMeasured(studioOf(`${BAR}{ wet: 10 in, fired: 8.5 in } }`), DAY);
  expect(clay?.fired?.toString()).toBe('0.15');
});

// rcboisjoli.blogspot.com/2011/04: 150 mm, 144 dry, 141 bisqued, 133 fired: 11.33 % in all; a fired
// 20 cm needs 22.556 cm. (It prints 12.7 %, which is the enlargement.)
it('a fired size ÷ (1 − shrinkage)', () => {
  const book = studioOf(
    `${BAR}{ wet: 150, dry: 144 mm, bisqued: 14.1 cm, fired: 133 } }`,
    'jar: { name: Jar, clay: { material: buff, each: 1 kg }, glazes: [{ recipe: green, each: 9 g }], size: { height: 20 cm, of: fired } }\ntile: { name: Tile, clay: { material: buff, each: 1 kg }, size: { width: 150, of: wet } }',
  );
  const [clay] = claysMeasured(book, DAY);
  const shown = [clay?.dry, clay?.bisqued, clay?.fired].map((each) => each?.toFixed(4));
  expect(shown).toEqual(['0.0400', '0.0600', '0.1133']);
  const [jar, tile] = throwingSizes(book, DAY);
  expect(jar?.wet.height?.toFixed(2)).toBe('225.56');
  expect(tile?.fired.width?.toFixed(6)).toBe('133.000000');
});

// (soaked − dry) ÷ dry, by weight, the mean of the pieces (ASTM C373; memory).
it('water taken up by dry weight', () => {
  const book = studioOf(
    't1: { date: 2026-01-02, kind: absorption, clay: buff, cone: "6", absorption: { dry: 200 g, soaked: 203 g } }\nt2: { date: 2026-01-03, kind: absorption, clay: buff, cone: "6", absorption: { dry: 0.1 kg, soaked: 102.5 g } }',
  );
  const [clay] = claysMeasured(book, DAY);
  expect(clay?.absorption?.toString()).toBe('0.02');
  expect(clay?.pieces).toBe(2);
});

it('a clay that was not measured at the cone of the glaze gives no size', () => {
  const book = studioOf(
    `${BAR.replace('"6"', '"04"')}{ wet: 100, fired: 95 } }`,
    'jar: { name: Jar, clay: { material: buff, each: 1 kg }, glazes: [{ recipe: green, each: 9 g }], size: { height: 20 cm, of: fired } }',
  );
  expect(throwingSizes(book, DAY)).toEqual([]);
});
