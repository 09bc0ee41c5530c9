import { describe, expect, it } from 'vitest';
import { inUnit } from '../../src/number/measure.ts';
import { flow } from '../../src/reckon/flow.ts';
import { revisedVersions } from '../../src/reckon/stock/recipe-changes.ts';
import { recipeFigures, type RecipeFigures } from '../../src/reckon/stock/recipe-figures.ts';
import { bookFrom } from '../helpers/book.ts';

const BOOK = bookFrom({
  materials: `
silica: { name: Silica, kind: dry, unit: kg, contains: [silica] }
chalk: { name: Chalk, kind: dry, unit: kg }
copper: { name: Copper, kind: colourant, unit: g, contains: [copper] }
`,
  bought: `
b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: silica, quantity: 10 kg, cost: 20 }, { material: chalk, quantity: 10 kg, cost: 10 }] }
b2: { date: 2026-01-02, supplier: Pit, lines: [{ material: copper, quantity: 100 g, cost: 8 }] }
`,
  recipes: `
green:
  name: Green
  kind: glaze
  versions:
    - { from: 2026-01-01, base: [{ material: silica, parts: 30 }, { material: chalk, parts: 10 }] }
    - { from: 2026-02-01, base: [{ material: silica, parts: 75 }, { material: chalk, parts: 25 }], additions: [{ material: copper, percent: 4% }] }
    - { from: 2026-03-01, base: [{ material: silica, parts: 80 }, { material: chalk, parts: 20 }] }
wash: { name: Wash, kind: wash, versions: [{ from: 2026-01-01, base: [{ material: ash, parts: 1 }] }] }
`,
  products: `
mug: { name: Mug, glazes: [{ recipe: green, each: 30 g }, { recipe: green, each: 5 g, where: rim }, { recipe: wash, each: 2 g }] }
tile: { name: Tile, fired: [once], glazes: [{ recipe: green, each: 10 g }] }
`,
  pieces: `
p1: { date: 2026-01-05, product: mug, made: 10 }
p2: { date: 2026-02-10, product: mug, made: 8 }
p3: { date: 2026-02-11, product: tile, made: 3 }
p4: { date: 2026-02-11, product: mug, made: 4, glazes: [] }
`,
  mixed: `
m1: { date: 2026-01-10, recipe: green, base-weight: 400 g }
m2: { date: 2026-02-05, recipe: green, base-weight: 100 g }
`,
  firings: `
f1: { date: 2026-01-08, kiln: k, kind: bisque, load: [{ lot: p1, in: 10, first: 9, lost: 1 }] }
f2: { date: 2026-01-20, kiln: k, kind: glaze, load: [{ lot: p1, in: 6, first: 6 }] }
f3: { date: 2026-02-20, kiln: k, kind: bisque, load: [{ lot: p4, in: 4, first: 4 }] }
`,
  tests: `
t1: { date: 2026-02-25, kind: leach, lot: p1 }
t2: { date: 2026-02-20, kind: tile, mix: m2 }
t3: { date: 2026-01-15, kind: tile, recipe: green, change: more chalk }
t4: { date: 2026-12-31, kind: tile, recipe: green }
t5: { date: 2026-03-20, kind: tile, mix: m2, version-of: 2026-01-03 }
`,
});

function figuresOn(day: string, id = 'green'): RecipeFigures {
  return recipeFigures(BOOK, flow(BOOK, day)).find(({ recipe }) => recipe.id === id)!;
}

describe('a recipe on a day', () => {
  it('costs what its materials cost that came in last, additions on top of the base', () => {
    // 75 g at 0.002, 25 g at 0.001 and 4 g at 0.08, of 104 g.
    const cost = 75 * 0.002 + 25 * 0.001 + 4 * 0.08;
    expect(figuresOn('2026-02-15').perGram.toNumber()).toBeCloseTo(cost / 104, 12);
    expect(figuresOn('2026-02-15').unpriced).toEqual([]);
    expect(figuresOn('2026-02-15', 'wash').unpriced).toEqual(['ash']);
  });

  it('has in its bucket what was mixed less what was put on ware, against what waits for it', () => {
    const { inBucket, waiting, left } = figuresOn('2026-02-28');
    // 400 + 104 mixed, 6 mugs of 35 g glazed; 3 mugs wait bisqued, 3 tiles wait raw, 8 mugs for bisque.
    expect(inUnit(inBucket, 'g').toNumber()).toBe(504 - 6 * 35);
    expect(waiting.pieces).toBe(3 + 3);
    expect(waiting.lots).toEqual(['p1', 'p3']);
    expect(inUnit(waiting.needed, 'g').toNumber()).toBe(3 * 35 + 3 * 10);
    expect(inUnit(left, 'g').toNumber()).toBe(504 - 6 * 35 - 135);
  });

  it('has its tests newest first, each of the version that was on what was tested', () => {
    const { tests, version } = figuresOn('2026-02-28');
    const told = tests.map(({ test, version: of }) => [test.id, of?.from]);
    expect(version?.from).toBe('2026-02-01');
    expect(told).toEqual([
      ['t1', '2026-01-01'],
      ['t2', '2026-02-01'],
      ['t3', '2026-01-01'],
    ]);
  });

  it('has a test of the version that the test itself says', () => {
    const [newest] = figuresOn('2026-03-31').tests;
    expect([newest?.test.id, newest?.version?.from]).toEqual(['t5', '2026-01-01']);
  });

  it('tells the metals of the version in force', () => {
    expect(figuresOn('2026-02-28').contains).toEqual(['silica', 'copper']);
    expect(figuresOn('2026-03-28').contains).toEqual(['silica']);
    expect(figuresOn('2025-03-28').version).toBeUndefined();
  });
});

describe('the versions of a recipe', () => {
  const [third, second, first] = revisedVersions(BOOK.recipes.get('green')!);
  const told = (each: typeof first) =>
    each?.changes.map(({ material, before, after }) => [
      material,
      before?.toString(),
      after?.toString(),
    ]);

  it('are told by what changed, and the first by all that is in it', () => {
    expect(told(first)).toEqual([
      ['silica', undefined, '30'],
      ['chalk', undefined, '10'],
    ]);
    expect(told(third)).toEqual([
      ['silica', '75', '80'],
      ['chalk', '25', '20'],
      ['copper', '0.04', undefined],
    ]);
    expect(third?.isScaled).toBe(false);
  });

  it('are the same where only the sum of the parts is another', () => {
    expect(second?.isScaled).toBe(true);
    expect(told(second)).toEqual([['copper', undefined, '0.04']]);
  });
});
