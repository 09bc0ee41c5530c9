/** Pools by hand: rules 1 to 8. */
import { describe, expect, it } from 'vitest';
import { bookFrom, type Files } from '../helpers/book.ts';
import { R, exact, fraction, type Fraction } from './fraction.ts';
import { reckonAgain } from './reckon-again.ts';
import type { PoolResult } from './result.ts';
import { equally, largestRemainder } from './shares.ts';

const MATERIALS = `
clay: { name: Clay, kind: clay, unit: kg }
sand: { name: Sand, kind: dry, unit: g }
ash: { name: Ash, kind: dry, unit: g }
rust: { name: Rust, kind: colourant, unit: g }
label: { name: Label, kind: packing, unit: each }
`;

const LAST = '2026-12-31';

function again(files: Files) {
  return reckonAgain(bookFrom({ materials: MATERIALS, ...files }), LAST);
}

function pool(files: Files, id: string): PoolResult {
  return again(files).pools.get(id)!;
}

function bought(id: string, day: string, lines: string): string {
  return `${id}: { date: ${day}, supplier: S, lines: [${lines}] }\n`;
}

function used(id: string, day: string, quantity: string): string {
  return `${id}: { date: ${day}, material: clay, quantity: ${quantity} }\n`;
}

const number = ({ top, bottom }: Fraction): number => Number(top) / Number(bottom);

/** Quantity and value of each step of a pool. */
const steps = ({ movements }: PoolResult): string[] =>
  movements.map(({ record, quantity, value }) => `${record} ${number(quantity)} ${value}`);

const FIRST_IN = 'format: 1\nname: S\ncurrency: USD\nstock-value: first-in\n';

describe('rounding and sharing', () => {
  it('rounds half up of the magnitude', () => {
    expect(['2.5', '-2.5', '2.4999', '-0.5', '-0.4', '7'].map((text) => R(exact(text)))).toEqual([
      3n,
      -3n,
      2n,
      -1n,
      0n,
      7n,
    ]);
  });

  it('shares by largest remainder: 60 seats by the census of 1790', () => {
    const people = [
      630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533, 70835,
      68705, 68446, 55540,
    ];
    const seats = [11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1].map(BigInt);
    const weights = people.map((many) => fraction(BigInt(many)));
    expect(largestRemainder(60n, weights)).toEqual(seats);
    expect(largestRemainder(-60n, weights)).toEqual(seats.map((many) => -many));
  });

  it('gives ties to the first, a weight of zero nothing, and equal parts where all are zero', () => {
    const weights = (...texts: string[]): Fraction[] => texts.map(exact);
    expect(largestRemainder(2n, weights('1', '1', '1'))).toEqual([1n, 1n, 0n]);
    expect(largestRemainder(5n, weights('0', '0.5', '1.5'))).toEqual([0n, 1n, 4n]);
    expect(largestRemainder(5n, weights('0', '0'))).toEqual([3n, 2n]);
    expect(largestRemainder(0n, [])).toEqual([]);
    expect(equally(10n, 4)).toEqual([3n, 3n, 2n, 2n]);
  });
});

describe('a pool', () => {
  it('charges 1,000 labels at 3.00 drawn one by one 0 1 0 0 1 0 0 0 1 0, and so on', () => {
    const ids = Array.from({ length: 1000 }, (_, at) => `u${String(at).padStart(4, '0')}`);
    const { movements, quantity, value } = pool(
      {
        bought: bought('b1', '2026-01-01', '{ material: label, quantity: 1000, cost: 3.00 }'),
        used: ids
          .map((id) => `${id}: { date: 2026-02-01, material: label, quantity: 1 }\n`)
          .join(''),
      },
      'label',
    );
    const costs = movements.slice(1).map((one) => Number(-one.value));
    const ten = [0, 1, 0, 0, 1, 0, 0, 0, 1, 0];
    expect(costs.slice(0, 20)).toEqual([...ten, ...ten]);
    expect([costs.filter((one) => one === 1).length, costs.length]).toEqual([300, 1000]);
    expect([quantity.top, value]).toEqual([0n, 0n]);
  });

  it('is worth its average, and draws re-base nothing', () => {
    const one = pool(
      {
        bought:
          bought('b1', '2026-01-01', '{ material: clay, quantity: 3 kg, cost: 1.00 }') +
          bought('b2', '2026-01-03', '{ material: clay, quantity: 3 kg, cost: 2.00 }'),
        used:
          used('u1', '2026-01-02', '1 kg') +
          used('u2', '2026-01-02', '1 kg') +
          used('u3', '2026-01-04', '2 kg'),
      },
      'clay',
    );
    // 33.33 and 66.67 of 1.00 are 33 and 67; then half of 2.33 is 117 (116.5).
    expect(steps(one)).toEqual(['b1 3 100', 'u1 -1 -33', 'u2 -1 -34', 'b2 3 200', 'u3 -2 -117']);
  });

  it('first-in goes layer by layer, each line of a purchase a layer', () => {
    const one = pool(
      {
        studio: FIRST_IN,
        bought: bought(
          'b1',
          '2026-01-01',
          '{ material: clay, quantity: 3 kg, cost: 1.00 }, { material: clay, quantity: 3 kg, cost: 2.00 }',
        ),
        used:
          used('u1', '2026-01-02', '1 kg') +
          used('u2', '2026-01-03', '3 kg') +
          used('u3', '2026-01-04', '1 kg') +
          used('u4', '2026-01-05', '1 kg'),
      },
      'clay',
    );
    // 33; 67 and R(200 ÷ 3) = 67; then 133 − 67; then the rest.
    expect(steps(one).slice(2)).toEqual(['u1 -1 -33', 'u2 -3 -134', 'u3 -1 -66', 'u4 -1 -67']);
  });

  it('200 g of sand in three batches of a 2:1 recipe leave exactly 0 and 0', () => {
    const mixes = ['m1', 'm2', 'm3'].map(
      (id) => `${id}: { date: 2026-01-02, recipe: slip, base-weight: 100 g }`,
    );
    const { pools, shortfalls } = again({
      bought: bought(
        'b1',
        '2026-01-01',
        '{ material: sand, quantity: 200 g, cost: 1.00 }, { material: ash, quantity: 1 kg, cost: 5.00 }',
      ),
      recipes:
        'slip: { name: Slip, kind: slip, versions: [{ from: 2026-01-01, base: [{ material: sand, parts: 2 }, { material: ash, parts: 1 }] }] }',
      mixed: mixes.join('\n'),
    });
    const { quantity, value, movements } = pools.get('sand')!;
    expect([quantity, value]).toEqual([fraction(0n), 0n]);
    expect(movements.slice(1).map((one) => one.value)).toEqual([-33n, -34n, -33n]);
    expect(number(pools.get('ash')!.quantity)).toBeCloseTo(900, 9);
    expect(pools.get('slip')!.value).toBe(150n);
    expect(shortfalls).toEqual([]);
  });

  it('a draw beyond the stock is worth its unit cost, and what comes in settles it', () => {
    const files = {
      bought:
        bought('b1', '2026-01-01', '{ material: clay, quantity: 3 kg, cost: 1.00 }') +
        bought('b2', '2026-01-04', '{ material: clay, quantity: 1 kg, cost: 0.90 }') +
        bought('b3', '2026-01-06', '{ material: clay, quantity: 4 kg, cost: 2.00 }'),
      used:
        used('u1', '2026-01-02', '4 kg') +
        used('u2', '2026-01-03', '1 kg') +
        used('u3', '2026-01-05', '0.5 kg') +
        used('u4', '2026-01-07', '1 kg'),
    };
    for (const studio of ['format: 1\nname: S\ncurrency: USD\n', FIRST_IN]) {
      const { pools, went, shortfalls } = again({ ...files, studio });
      // Beyond: R(33.33), R(66.67) − 33; half of 67 is filled by 90; 0.5 at .90 a kg; then 2.00 for 4.
      expect(steps(pools.get('clay')!)).toEqual([
        'b1 3 100',
        'u1 -4 -133',
        'u2 -1 -34',
        'b2 1 90',
        // 90 leaves, R(67 ÷ 2) = 34 comes back.
        'b2 0 -56',
        'u3 -0.5 -45',
        'b3 4 200',
        // 1.5 kg of it leave with 75; the gap was costed at 33 + 45.
        'b3 0 3',
        // R(200 × 2.5 ÷ 4) − 75
        'u4 -1 -50',
      ]);
      expect(pools.get('clay')!.value).toBe(75n);
      expect(went.filter(({ account }) => account === 'differences')).toMatchObject([
        { record: 'b2', cost: { material: 56n } },
        { record: 'b3', cost: { material: -3n } },
      ]);
      expect(shortfalls.map(({ record }) => record)).toEqual(['u1', 'u2', 'u3']);
    }
  });
});

describe('a stocktake', () => {
  const counted = (quantity: string): Files => ({
    bought:
      bought('b1', '2026-01-01', '{ material: clay, quantity: 2 kg, cost: 1.00 }') +
      bought('b2', '2026-01-01', '{ material: clay, quantity: 1 kg, cost: 2.00 }'),
    used: used('u1', '2026-01-02', '2.5 kg'),
    counted: `c1: { date: 2026-01-02, materials: [{ material: clay, quantity: ${quantity} }] }\n`,
  });

  it('draws what is missing', () => {
    expect(steps(pool(counted('0.2 kg'), 'clay')).at(-1)).toBe('c1 -0.3 -30');
  });

  it('brings in what is found at the unit cost, under first-in that of the layer that came last', () => {
    const first = pool({ ...counted('1 kg'), studio: FIRST_IN }, 'clay');
    expect(steps(pool(counted('1 kg'), 'clay')).slice(-2)).toEqual(['u1 -2.5 -250', 'c1 0.5 50']);
    expect(steps(first).slice(-2)).toEqual(['u1 -2.5 -200', 'c1 0.5 100']);
  });

  it('ends a gap with its cost', () => {
    const files = { ...counted('0.3 kg'), used: used('u1', '2026-01-02', '4 kg') };
    expect(steps(pool(files, 'clay')).slice(-2)).toEqual(['u1 -4 -400', 'c1 1.3 130']);
    const first = pool({ ...files, studio: FIRST_IN }, 'clay');
    expect(steps(first).slice(-2)).toEqual(['u1 -4 -500', 'c1 1.3 260']);
    expect(first.value).toBe(60n);
  });

  it('found material changes no unit cost', () => {
    const files = {
      bought: bought('b1', '2026-01-01', '{ material: clay, quantity: 3 kg, cost: 1.00 }'),
      counted:
        'c1: { date: 2026-01-01, materials: [{ material: clay, quantity: 3.2 kg }] }\nc2: { date: 2026-01-02, materials: [{ material: clay, quantity: 3.4 kg }] }',
    };
    // 6.67 each; by the pool's 107 ÷ 3.2 the second would be 6.69: as well 7, so count much more.
    expect(steps(pool(files, 'clay'))).toEqual(['b1 3 100', 'c1 0.2 7', 'c2 0.2 7']);
    const more = { ...files, counted: files.counted.replace('3.4', '103.2') };
    expect(steps(pool(more, 'clay')).at(-1)).toBe('c2 100 3333');
  });
});

describe('batches and purchases', () => {
  const RECIPE =
    'slip: { name: Slip, kind: slip, versions: [{ from: 2026-01-01, base: [{ material: sand, parts: 1 }, { material: ash, parts: 2 }], additions: [{ material: rust, percent: 10% }, { material: sand, percent: 2% }] }] }';

  it('additions are on top of a base weight, and one material is drawn once', () => {
    const { pools } = again({
      recipes: RECIPE,
      mixed: 'm1: { date: 2026-01-02, recipe: slip, base-weight: 300 g, yields: 1 kg }',
    });
    const drawn = ['sand', 'ash', 'rust'].map((id) => steps(pools.get(id)!));
    expect(drawn).toEqual([['m1 -106 0'], ['m1 -200 0'], ['m1 -30 0']]);
    expect(number(pools.get('slip')!.quantity)).toBe(1000);
  });

  it('a total weight is shared to 12 decimals, the last takes the rest', () => {
    const { pools } = again({
      recipes: RECIPE,
      mixed: 'm1: { date: 2026-01-02, recipe: slip, total-weight: 100 g }',
    });
    const quantity = (id: string): Fraction => pools.get(id)!.quantity;
    // base 100 ÷ 1.12 = 89.285714285714; sand 29.761904761905 of it, ash the rest.
    expect(quantity('ash')).toEqual(exact('-59.523809523809'));
    expect(quantity('rust')).toEqual(exact('-8.928571428572'));
    expect(quantity('sand')).toEqual(exact('-31.547619047619'));
    expect(quantity('slip')).toEqual(exact('100'));
  });

  it('freight, tax and discount land on the lines by cost or weight', () => {
    const lines =
      'lines: [{ material: clay, quantity: 1 kg, cost: 10.00 }, { material: sand, quantity: 3 kg, cost: 5.00 }]';
    const extras = 'freight: 1.00, tax: 0.50, discount: 0.01';
    const { landed, pools } = again({
      bought: `
b1: { date: 2026-01-01, supplier: S, ${extras}, ${lines} }
b2: { date: 2026-01-02, supplier: S, share-freight-by: weight, ${extras}, ${lines} }
`,
    });
    expect(landed.get('b1')).toEqual([
      { freight: 67n, tax: 33n, discount: 1n, landed: 1099n },
      { freight: 33n, tax: 17n, discount: 0n, landed: 550n },
    ]);
    expect(landed.get('b2')!.map(({ freight }) => freight)).toEqual([25n, 75n]);
    expect(pools.get('clay')!.value).toBe(1099n + 1057n);
  });

  it('freight by weight goes by what a line says that it weighs', () => {
    const lines =
      'lines: [{ material: clay, quantity: 20 kg, cost: 50.00, weight: 21 kg }, { material: ash, quantity: 200, cost: 40.00, weight: 3 kg }, { material: rust, quantity: 2, cost: 10.00 }]';
    const { landed } = again({
      bought: `b1: { date: 2026-01-01, supplier: S, share-freight-by: weight, freight: 13.20, ${lines} }`,
    });
    // 21 and 3 of 24 kg: 11.55 and 1.65. The last line has no weight and bears nothing.
    expect(landed.get('b1')!.map(({ freight }) => freight)).toEqual([1155n, 165n, 0n]);
  });
});
