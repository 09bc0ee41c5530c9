import { describe, expect, it } from 'vitest';
import type { OverheadBasis } from '../../src/groups.ts';
import { decimal, type Decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import { belowCost, productCosts, type ProductCost } from '../../src/reckon/costs/product-cost.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

/** Clay at .80 and glaze at 5.00 a pound, cartons at .75; 20 mugs made, 18 fired, 16 good. */
const STUDIO: Files = {
  studio: 'format: 1\nname: Test studio\ncurrency: USD\nlabour-rate: 30.00\n',
  materials: `
clay: { name: Clay, kind: clay, unit: lb }
dry: { name: Dry, kind: dry, unit: lb }
carton: { name: Carton, kind: packing, unit: each }
`,
  recipes:
    'clear: { name: Clear, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: dry, parts: 100 }] }] }',
  products: `
mug:
  name: Mug
  clay: { material: clay, each: 1 lb }
  glazes: [{ recipe: clear, each: 0.1 lb }]
  packing: [{ material: carton, each: 1 }]
  minutes: 12
  price: 20.00
  wholesale: 10.00
cup:
  name: Cup
  clay: { material: clay, each: 0.5 lb }
  glazes: [{ recipe: clear, each: 0.04 lb }]
  packing: [{ material: carton, each: 1 }]
  minutes: 6
  space: 0.5
`,
  channels: `
door: { name: Door, kind: direct }
shop: { name: Shop, kind: wholesale }
gallery: { name: Gallery, kind: consignment, commission: 50% }
`,
  kilns:
    'kiln: { name: Kiln, fuel: electricity, wear: [{ part: elements, cost: 180, firings: 100 }] }',
  tariffs: 't1: { from: 2026-01-01, fuel: electricity, price: 0.10, per: kWh }',
  bought: `
b1:
  date: 2026-01-02
  supplier: Pit
  lines:
    - { material: clay, quantity: 100 lb, cost: 80.00 }
    - { material: dry, quantity: 10 lb, cost: 50.00 }
    - { material: carton, quantity: 100, cost: 75.00 }
`,
  mixed: 'm1: { date: 2026-01-03, recipe: clear, total-weight: 10 lb }',
  pieces:
    'p1: { date: 2026-01-05, product: mug, made: 20, lost: [{ date: 2026-01-08, count: 2, why: cracked }] }',
  firings: `
f1: { date: 2026-01-10, kiln: kiln, kind: bisque, energy: 90 kWh, load: [{ lot: p1, in: 18, first: 18 }] }
f2: { date: 2026-01-20, kiln: kiln, kind: glaze, energy: 180 kWh, tended: 0.6, load: [{ lot: p1, in: 18, first: 15, second: 1, lost: 2 }] }
`,
  // 69.00 of rent and what the 30.00 of utilities are above the 27.00 of the firings: 72.00 over the
  // room of 36 that was fired. The rest is selling, wear, or work that the hours stand for.
  spent: `
rent: { date: 2026-01-01, to: Sheds, for: rent-place, amount: 69.00 }
power: { date: 2026-01-31, to: Power, for: utilities, amount: 30.00 }
elements: { date: 2026-01-15, to: Kilns, for: kiln-parts, amount: 180.00, kiln: kiln }
booth: { date: 2026-01-15, to: Fair, for: booth, amount: 50.00 }
help: { date: 2026-01-15, to: A helper, for: contract, amount: 60.00, channel: door }
pitch: { date: 2026-01-15, to: Fair, for: insurance, amount: 15.00, fair: spring }
wages: { date: 2026-01-15, to: A hand, for: wages, amount: 40.00 }
later: { date: 2026-02-01, to: Sheds, for: rent-place, amount: 69.00 }
`,
};

const JANUARY = { from: '2026-01-01', to: '2026-01-31' };

function costsOf(
  more: Files = {},
  { by = 'space', span = JANUARY }: { by?: OverheadBasis; span?: typeof JANUARY } = {},
): ReturnType<typeof productCosts> & { of: (id: string) => ProductCost } {
  const joined = Object.fromEntries(
    Object.entries(more).map(([kind, text]) => [
      kind,
      kind === 'studio' ? text : `${STUDIO[kind as keyof Files] ?? ''}\n${text}`,
    ]),
  );
  const book = bookFrom({ ...STUDIO, ...joined });
  const costs = productCosts(book, flow(book, '2026-03-31'), { span, by });
  const of = (id: string): ProductCost =>
    costs.products.find(({ product }) => product.id === id) ?? expect.fail(`no ${id}`);
  return { ...costs, of };
}

function partsOf({ cost }: ProductCost): Record<string, string> {
  const parts = Object.entries({ ...cost.parts, uplift: cost.uplift, total: cost.total });
  return Object.fromEntries(parts.map(([part, amount]) => [part, amount.toFixed()]));
}

function text(amount: Decimal | undefined, places = 6): string | undefined {
  return amount?.toFixed(places);
}

/** 16.00 clay, 120.00 + 18.00 labour, 9.00 glaze, 27.00 energy, 3.60 wear, 72.00 overhead: ÷ 16. */
const MUG = {
  clay: '0.8',
  glaze: '0.5',
  energy: '1.5',
  wear: '0.2',
  supplies: '0',
  packing: '0.75',
  labour: '7',
  overhead: '4',
  uplift: '2.6',
  total: '17.35',
};

describe('the cost of a product from its lots', () => {
  it('is what each piece takes, and what the lost ones took', () => {
    const mug = costsOf().of('mug');
    expect(partsOf(mug)).toEqual(MUG);
    expect([mug.made, mug.good, mug.estimated]).toEqual([20, 16, false]);
    expect([text(mug.cost.labour), text(mug.cost.minutes)]).toEqual(['8.625000', '17.250000']);
  });

  it('spreads overhead by minutes of work when asked: 72.00 over 276', () => {
    const { overhead, of } = costsOf({}, { by: 'labour' });
    expect([told(overhead.total), String(overhead.over)]).toEqual(['72.00', '276']);
    // 12 minutes of making, and 36 of tending over 18 pieces.
    expect(text(of('mug').cost.parts.overhead)).toBe(((72 / 276) * 14).toFixed(6));
    expect(text(of('mug').cost.total)).toBe('17.350000');
  });

  it('says what it keeps out of overhead', () => {
    const { overhead } = costsOf();
    const { total, energyPaid, wearPaid, workPaid, records } = overhead;
    const amounts = [total, energyPaid, wearPaid, workPaid].map((amount) => told(amount));
    expect(amounts).toEqual(['72.00', '27.00', '180.00', '40.00']);
    expect(records).toEqual(['power', 'rent']);
  });

  it('counts kiln parts and wages where nothing else stands for them', () => {
    const studio = 'format: 1\nname: Test studio\ncurrency: USD\n';
    const spent = 'x1: { date: 2026-01-15, to: Kilns, for: kiln-parts, amount: 9.00, kiln: other }';
    const kilns = 'other: { name: Other, fuel: electricity }';
    const { overhead } = costsOf({ studio, spent, kilns });
    expect(told(overhead.total)).toBe('121.00');
  });

  it('takes no more off utilities than there are', () => {
    const spent = 'back: { date: 2026-01-31, to: Power, for: utilities, amount: 1.00 }';
    expect(told(costsOf({ spent }).overhead.total)).toBe('73.00');
    const none = costsOf({}, { span: { from: '2026-02-01', to: '2026-02-28' } });
    expect([told(none.overhead.total), String(none.overhead.rate)]).toEqual(['69.00', '0']);
  });

  it('lets the good ones of other lots bear a lot that was lost whole', () => {
    const lost = costsOf({
      pieces: 'p2: { date: 2026-01-06, product: mug, made: 4 }',
      firings:
        'f3: { date: 2026-01-12, kiln: kiln, kind: bisque, energy: 0 kWh, load: [{ lot: p2, in: 4, lost: 4 }] }',
    }).of('mug');
    expect([lost.made, lost.good]).toEqual([24, 16]);
    // 3.20 of clay, 24.00 of work and 1.80 of wear more on 16 mugs; the overhead is shared by 40 of
    // room, and all of it was fired for these mugs.
    expect(text(lost.cost.total)).toBe('19.162500');
  });

  it('counts a firing again in the costs, and its losses, and no piece twice', () => {
    const again = costsOf({
      firings:
        'f3: { date: 2026-01-25, kiln: kiln, kind: glaze, energy: 12 kWh, load: [{ lot: p1, in: 4, first: 3, lost: 1, refire: yes }] }',
    }).of('mug');
    expect(again.good).toBe(15);
    // 1.20 and 1.80 more; of the utilities 1.80 are left, over 40 of room, all for these mugs.
    const spent = 265.6 + 3 - 1.2;
    expect(text(again.cost.total)).toBe((spent / 15 + 0.75).toFixed(6));
    expect(text(again.cost.parts.energy)).toBe((0.5 + 19.2 / 18).toFixed(6));
  });

  it('takes each lot once, on the day that it came out', () => {
    const before = costsOf({}, { span: { from: '2026-01-01', to: '2026-01-19' } });
    expect(before.of('mug').estimated).toBe(true);
    const on = costsOf({}, { span: { from: '2026-01-20', to: '2026-01-20' } });
    expect(on.of('mug').good).toBe(16);
  });
});

describe('the cost of a product of which nothing came out', () => {
  const cup = costsOf().of('cup');

  it('is that of its recipe, at the stock cost of today, with the usual share of the firings', () => {
    // Half the room of a mug. A tenth of what is made is lost, and a ninth of what is glazed.
    const each = { clay: '0.4', glaze: '0.2', energy: '0.75', wear: '0.1', supplies: '0' };
    const more = { packing: '0.75', labour: '3.5', overhead: '2' };
    expect(partsOf(cup)).toMatchObject({ ...each, ...more });
    expect(cup.estimated).toBe(true);
    const making = (0.4 + 3) * (20 / 18) * (18 / 16);
    const firings = (0.25 + 0.05 + 1 + (0.2 + 0.5 + 0.05 + 0.5 + 1)) * (18 / 16);
    expect(text(cup.cost.total)).toBe((making + firings + 0.75).toFixed(6));
  });

  it('takes the firings of earlier days where the span has none of a kind', () => {
    const february = { from: '2026-02-01', to: '2026-02-28' };
    const later = costsOf({}, { span: february }).of('cup');
    expect(partsOf(later)).toMatchObject({
      energy: '0.75',
      wear: '0.1',
      labour: '3.5',
      overhead: '0',
    });
    const firings =
      'f9: { date: 2026-02-10, kiln: kiln, kind: glaze, energy: 40 kWh, load: [{ outside: a friend, in: 8, first: 8 }] }';
    // 4.00 for 8 of room: half of .50, and half of the .50 of the bisque before.
    expect(text(costsOf({ firings }, { span: february }).of('cup').cost.parts.energy)).toBe(
      '0.500000',
    );
  });

  it('costs a glaze that was never mixed by its materials', () => {
    const recipes =
      'new: { name: New, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: clay, parts: 1 }, { material: dry, parts: 1 }] }] }';
    const products = 'dish: { name: Dish, glazes: [{ recipe: new, each: 1 lb }] }';
    // Half clay at .80, half dry at 5.00.
    expect(text(costsOf({ recipes, products }).of('dish').cost.parts.glaze)).toBe('2.900000');
  });

  it('has no prices where it asks for none', () => {
    expect(cup.prices.map(({ price, margin }) => [price, margin])).toEqual([
      [undefined, undefined],
      [undefined, undefined],
      [undefined, undefined],
    ]);
    const covered = cup.prices.map(({ floor }) => decimal(told(floor) ?? '0').gte(cup.cost.total));
    expect(covered).toEqual([true, true, true]);
  });
});

describe('prices', () => {
  const mug = costsOf().of('mug');

  it('have a floor, a margin and an hour’s pay by kind of channel', () => {
    const prices = mug.prices.map(({ kind, floor, margin, perHour }) => [
      kind,
      told(floor),
      text(margin, 2),
      text(perHour, 2),
    ]);
    // An hour: (margin + 8.625) × 60 ÷ 17.25.
    expect(prices).toEqual([
      ['direct', '17.35', '2.65', '39.22'],
      ['wholesale', '17.35', '-7.35', '4.43'],
      ['consignment', '34.70', '-7.35', '4.43'],
    ]);
    expect(belowCost(mug).map(({ kind }) => kind)).toEqual(['wholesale', 'consignment']);
  });

  it('pay the same for an hour whether the studio has a labour-rate or none', () => {
    const studio = 'format: 1\nname: Test studio\ncurrency: USD\n';
    const free = costsOf({ studio }).of('mug');
    expect(free.cost.labour.toString()).toBe('0');
    // 40.00 of wages are overhead now: 2.50 more on each of 16.
    const [direct] = free.prices;
    expect(text(direct?.perHour, 2)).toBe((((11.275 - 2.5) * 60) / 17.25).toFixed(2));
  });

  it('pay nothing for an hour that nobody wrote down', () => {
    const pieces = 'p2: { date: 2026-01-05, product: bare, made: 1 }';
    const products = 'bare: { name: Bare, price: 5 }';
    const firings = `
f4: { date: 2026-01-11, kiln: kiln, kind: bisque, energy: 0 kWh, load: [{ lot: p2, in: 1, first: 1 }] }
f5: { date: 2026-01-21, kiln: kiln, kind: glaze, energy: 0 kWh, load: [{ lot: p2, in: 1, first: 1 }] }
`;
    const bare = costsOf({ pieces, products, firings }).of('bare');
    expect(bare.estimated).toBe(false);
    expect(bare.prices.map(({ perHour }) => perHour)).toEqual([undefined, undefined, undefined]);
  });
});

describe('a tenth more', () => {
  it('moves the cost by exactly what it adds', () => {
    const tenths = costsOf().of('mug').tenths;
    // 2 of 20 become 2.2, and 2 of 18 too.
    const made = (136 / 20) * (20 / 17.8) * (18 / 15.8);
    const fired = (46.8 + 82.8) / 15.8;
    expect(tenths.map(({ of, total }) => [of, text(total)])).toEqual([
      ['losses', (made + fired + 0.75).toFixed(6)],
      ['energy', (17.35 + 2.7 / 16).toFixed(6)],
      ['clay', (17.35 + 1.6 / 16).toFixed(6)],
    ]);
  });
});
