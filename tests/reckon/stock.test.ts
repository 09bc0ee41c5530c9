import { describe, expect, it } from 'vitest';
import { becauseOf } from '../../src/check/shortage-words.ts';
import { flow } from '../../src/reckon/flow.ts';
import { valueOf } from '../../src/reckon/stock/pool.ts';
import { bookFrom } from '../helpers/book.ts';
import { measured, told } from '../helpers/minor.ts';

function shortOf(bought: string, used: string): string | undefined {
  const book = bookFrom({
    materials: 'kaolin: { name: Kaolin, kind: dry, unit: kg }',
    bought: `b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: kaolin, quantity: ${bought}, cost: 5 }] }`,
    used: `u1: { date: 2026-01-02, material: kaolin, quantity: ${used} }`,
  });
  const [first] = flow(book, '2026-01-31').shortfalls;
  return first && becauseOf(book, first);
}

describe('what is said of a shortage', () => {
  it('has figures as reports show them, rounded half up', () => {
    // 1 lb is .45359237 kg.
    expect(shortOf('1 lb', '1 kg')).toBe('0.45 kg on hand, 1 kg needed');
    expect(shortOf('1.005 kg', '3.7 kg')).toBe('1.01 kg on hand, 3.7 kg needed');
  });

  it('has as many decimals as tell the two apart', () => {
    expect(shortOf('1.001 kg', '1.0034 kg')).toBe('1.001 kg on hand, 1.003 kg needed');
    expect(shortOf('1 kg', '1.00004 kg')).toBe('1 kg on hand, 1.00004 kg needed');
  });
});

describe('a bag that is used up exactly', () => {
  const materials = `
sand: { name: Sand, kind: dry, unit: g }
ash: { name: Ash, kind: dry, unit: g }
`;
  const mixed = (first: string, second: string): string =>
    `mix: { name: Mix, kind: glaze, versions: [{ from: 2026-01-01, base: [${first}, ${second}] }] }`;
  const SAND = '{ material: sand, parts: 2 }';
  const ASH = '{ material: ash, parts: 1 }';

  it.each([
    ['first', mixed(SAND, ASH)],
    ['last', mixed(ASH, SAND)],
  ])(
    'leaves nothing, is short of nothing and costs all: two parts of three, named %s',
    (_, recipes) => {
      const book = bookFrom({
        materials,
        recipes,
        bought: `b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: sand, quantity: 200 g, cost: 4.00 }, { material: ash, quantity: 100 g, cost: 1.00 }] }`,
        mixed: `
m1: { date: 2026-01-02, recipe: mix, base-weight: 100 g }
m2: { date: 2026-01-03, recipe: mix, base-weight: 100 g }
m3: { date: 2026-01-04, recipe: mix, base-weight: 100 g }
`,
      });
      const { stock, shortfalls } = flow(book, '2026-01-31');
      expect(shortfalls).toEqual([]);
      const left = ['sand', 'ash', 'mix'].map((id) => {
        const { pool } = stock.pools.get(id) ?? expect.fail(`no ${id}`);
        return `${id} ${measured(pool.onHand)} ${told(valueOf(pool))}`;
      });
      // What the last draw took more or less than it was weighed is in no bucket.
      expect(left).toEqual(['sand 0 0.00', 'ash 0 0.00', 'mix 300 5.00']);
      // 133.33, 266.67, 400.
      const sand = [...stock.movements].filter(({ pool, value }) => pool === 'sand' && value < 0n);
      expect(sand.map(({ value }) => told(value))).toEqual(['-1.33', '-1.34', '-1.33']);
    },
  );
});
