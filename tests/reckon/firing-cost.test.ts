import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { decimal } from '../../src/number/decimal.ts';
import { firingCost, wearOf } from '../../src/reckon/kilns/firing-cost.ts';
import { flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { materialValue } from '../../src/reckon/stock/where.ts';
import { bookFrom } from '../helpers/book.ts';
import { leak } from '../helpers/leak.ts';
import { money, told } from '../helpers/minor.ts';

const LOAD =
  '[{ outside: A, in: 2 }, { outside: B, in: 1, space: 1.5 }, { outside: C, in: 1, space: 0.5 }]';

/** Two firings of the same: wood from stock and electricity, cones, an hour and a quarter of tending. */
function studio(load: string): { book: Book; flows: Flows } {
  const common = `supplies: [{ material: cones, quantity: 3 }], tended: 1.25`;
  const book = bookFrom({
    studio: 'format: 1\nname: Test studio\ncurrency: USD\nlabour-rate: 7.33\n',
    materials: `
cones: { name: Cones, kind: cone, unit: each }
wood: { name: Wood, kind: fuel, unit: kg }
`,
    bought:
      'b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: cones, quantity: 7, cost: 1.00 }, { material: wood, quantity: 30 kg, cost: 10.00 }] }',
    kilns: `
electric: { name: Electric, fuel: electricity, wear: [{ part: shelves, cost: 10, firings: 3 }, { part: coils, cost: 5, firings: 7 }] }
climber: { name: Climber, fuel: wood }
`,
    tariffs: 't1: { from: 2026-01-01, fuel: electricity, price: 0.1007, per: kWh }',
    firings: `
f1: { date: 2026-01-02, kiln: electric, kind: bisque, energy: 10 kWh, ${common}, load: ${load} }
f2: { date: 2026-01-03, kiln: climber, kind: bisque, fuel-used: { material: wood, quantity: 7 kg }, ${common}, load: ${load} }
`,
  });
  return { book, flows: flow(book, '2026-01-31') };
}

/** What each line bears, part by part. */
function shares({ ware }: Flows, id: string): string[] {
  return (ware.firings.get(id)?.shares ?? []).map((share) =>
    [share.energy, share.fuel, share.wear, share.supplies, share.labour]
      .map((amount) => told(amount))
      .join(' '),
  );
}

describe('the cost of a firing', () => {
  it('is rounded once for each of its parts', () => {
    const { ware } = studio(LOAD).flows;
    const { energyCost, wearCost, suppliesCost, labourCost, fuelCost, total } =
      ware.firings.get('f1') ?? expect.fail('no firing');
    // 1.007; 3.33 + 0.71; 1.00 × 3 ÷ 7 = .4286; 1.25 × 7.33 = 9.1625.
    const parts = [energyCost, fuelCost, wearCost, suppliesCost, labourCost, total];
    expect(parts.map((amount) => told(amount))).toEqual([
      '1.01',
      '0.00',
      '4.04',
      '0.43',
      '9.16',
      '14.64',
    ]);
    // 10.00 × 7 ÷ 30 = 2.3333 of wood; six cones of seven are .86.
    const second = ware.firings.get('f2');
    expect([second?.fuelCost, second?.suppliesCost].map((amount) => told(amount))).toEqual([
      '2.33',
      '0.43',
    ]);
    expect(second?.energyCost).toBeUndefined();
  });

  it('is shared over the load by pieces × space, part by part, by largest remainder', () => {
    const { flows } = studio(LOAD);
    // Two, one and a half, a half, of four.
    // 50.5 37.875 12.625; 202 151.5 50.5; 21.5 16.125 5.375; 458 343.5 114.5.
    expect(shares(flows, 'f1')).toEqual([
      '0.50 0.00 2.02 0.22 4.58',
      '0.38 0.00 1.52 0.16 3.44',
      '0.13 0.00 0.50 0.05 1.14',
    ]);
    // 116.5 87.375 29.125 of fuel.
    expect(shares(flows, 'f2')).toEqual([
      '0.00 1.17 0.00 0.22 4.58',
      '0.00 0.87 0.00 0.16 3.44',
      '0.00 0.29 0.00 0.05 1.14',
    ]);
  });

  it('of an empty kiln stands under classes and others, and in no row of income', () => {
    const { book, flows } = studio('[]');
    const value = materialValue(flows);
    // Cones of both, and the wood.
    expect(told(value.leaving.others)).toBe('3.19');
    expect(told(leak(value))).toBe('0.00');
    expect(incomeFacts(book, flows, { from: '2026-01-01', to: '2026-12-31' })).toEqual([]);
  });

  it('charges the same wear at every firing, though it may not be all in the end', () => {
    const part = { part: 'shelf', cost: decimal(100), firings: decimal(300) };
    // A third of a dollar: 99.00 when three hundred are over.
    expect(told(wearOf([part], '2026-01-01', 2))).toBe('0.33');
    expect(told(wearOf([part], '2026-01-01', 0), 0)).toBe('0');
    expect(told(wearOf([part], '2026-01-01', 3), 3)).toBe('0.333');
  });

  it('has no energy where nobody knows it, and says that it is unknown', () => {
    const book = bookFrom({
      kilns: 'kiln: { name: Kiln, fuel: electricity }',
      firings: 'f1: { date: 2026-01-02, kiln: kiln, kind: bisque, load: [] }',
    });
    const drawn = { supplies: money('0'), fuel: undefined, glaze: [] };
    const cost = firingCost(book, drawn, book.firings.get('f1') ?? expect.fail('no firing'));
    expect([cost.energyCost, told(cost.total)]).toEqual([undefined, '0.00']);
  });
});
