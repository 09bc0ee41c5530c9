import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/number/date.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { incomeTotal } from '../../src/reckon/sales/income-fact.ts';
import { outOn } from '../../src/reckon/kilns/out-of-kiln.ts';
import { lossFacts } from '../../src/reckon/kilns/losses.ts';
import { firingsInKiln } from '../../src/reckon/ware/standing.ts';
import { goodsBetween, materialValue } from '../../src/reckon/stock/where.ts';
import { runRules } from '../../src/check/rules.ts';
import { totalOf } from '../../src/reckon/costs/cost.ts';
import { soldLines } from '../helpers/accounts.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { leak } from '../helpers/leak.ts';

/** A studio of years that keeps its book from July on. */
function studio(settings: string, more: Files = {}): Files {
  return {
    studio: `format: 1\nname: Middle Pottery\n${settings}\n`,
    materials: `
clay: { name: Clay, kind: clay, unit: kg }
silica: { name: Silica, kind: dry, unit: kg }
`,
    recipes: `
clear: { name: Clear, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: silica, parts: 100 }] }] }
`,
    products: `
mug:
  name: Mug
  clay: { material: clay, each: 500 g }
  glazes: [{ recipe: clear, each: 20 g }]
  price: 30
`,
    kilns: 'shed: { name: Shed, fuel: wood }',
    channels: `
door: { name: Door, kind: direct }
gallery: { name: Gallery, kind: consignment }
`,
    pieces: `
p1: { date: 2026-06-01, product: mug, made: 24 }
p2: { date: 2026-05-01, product: mug, made: 12 }
`,
    counted: `
c1:
  date: 2026-07-01
  materials:
    - { material: clay, quantity: 100 kg, cost: 120 }
    - { material: clear, quantity: 3 kg, cost: 20 }
  pieces:
    - { product: mug, lot: p1, stage: greenware, count: 20, cost: 12 }
    - { product: mug, lot: p2, stage: bisqueware, count: 10, cost: 7 }
    - { product: mug, count: 8, cost: 9 }
    - { product: mug, place: gallery, count: 5, cost: 6 }
`,
    bought: `
b1: { date: 2026-03-01, supplier: Pit, lines: [{ material: clay, quantity: 50 kg, cost: 60 }] }
b2: { date: 2026-07-08, supplier: Pit, lines: [{ material: clay, quantity: 100 kg, cost: 180 }] }
`,
    firings: `
f1: { date: 2026-07-10, unloaded: 2026-07-12, kiln: shed, kind: bisque, load: [{ lot: p1, in: 20, first: 19, lost: 1 }] }
f2: { date: 2026-07-20, kiln: shed, kind: glaze, load: [{ lot: p1, in: 19, first: 19 }, { lot: p2, in: 10, first: 10 }] }
`,
    sales: `
s1: { date: 2026-03-05, channel: door, lines: [{ product: mug, count: 3, price: 30 }] }
s2: { date: 2026-07-02, channel: door, lines: [{ product: mug, count: 4, price: 30 }] }
s3: { date: 2026-07-25, channel: gallery, lines: [{ product: mug, count: 2, price: 30 }] }
s4: { date: 2026-07-26, channel: door, lines: [{ product: mug, lot: p1, count: 2, price: 30 }] }
`,
    used: 'u1: { date: 2026-07-30, material: clay, quantity: 120 kg, for: studio }',
    ...more,
  };
}

function pathOf(at: object): unknown {
  return 'path' in at ? at.path : undefined;
}

const STARTS = 'starts: 2026-07-01';

function goodsOf(book: ReturnType<typeof bookFrom>, from: string, to: string) {
  const on = (day: string) => materialValue(flow(book, day));
  return goodsBetween(on(addDays(from, -1)), on(to));
}

describe('a studio that starts in the middle', () => {
  // In cents, or in whole yen: the amounts above are whole, so one is a hundred times the other.
  it.each([
    { currency: 'USD', valuing: 'average', unit: 100n },
    { currency: 'USD', valuing: 'first-in', unit: 100n },
    { currency: 'JPY', valuing: 'average', unit: 1n },
  ])(
    'has what was counted as stock at the start: $currency, $valuing',
    ({ currency, valuing, unit }) => {
      const book = bookFrom(studio(`currency: ${currency}\nstock-value: ${valuing}\n${STARTS}`));
      const goods = goodsOf(book, '2026-07-01', '2026-07-31');
      expect(goods.opening).toEqual({
        materials: 120n * unit,
        mixes: 20n * unit,
        greenware: 12n * unit,
        bisqueware: 7n * unit,
        'in-kiln': 0n,
        studio: 9n * unit,
        galleries: 6n * unit,
      });
      expect(goods.purchases).toBe(180n * unit);
      expect(goods.consumed.differences).toBe(0n);
      expect(leak(materialValue(flow(book, '2026-07-31')))).toBe(0n);
      expect(runRules(book, '2026-07-31')).toEqual([]);
    },
  );

  // 100 kg for 120 and 100 kg for 180. Average: 120 kg × 300 ÷ 200 = 180. First in: 120 + 20 × 1.80 = 156.
  it.each([
    ['average', 18000n],
    ['first-in', 15600n],
  ])('draws the opening stock by %s', (valuing, used) => {
    const book = bookFrom(studio(`currency: USD\nstock-value: ${valuing}\n${STARTS}`));
    const goods = goodsOf(book, '2026-07-01', '2026-07-31');
    expect(goods.consumed.others).toBe(used);
  });

  it('fires and sells what was there, at what it had cost', () => {
    const book = bookFrom(studio(`currency: USD\n${STARTS}`));
    const { ware, stock } = flow(book, '2026-07-31');
    const costs = [...soldLines(ware)].map(([id, [line]]) => [id, totalOf(line?.cost ?? {})]);
    // 4 of 8 for 9.00: 4.50. 2 of 5 for 6.00: 2.40. Of p1 12.00, with 29 pieces × 20 g = 580 g of
    // 3,000 g for 20.00 = 3.87, of which 19 pieces bear 2.54 (19 ÷ 29 × 387 = 253.55, the larger rest):
    // 2 of 19 take 12.00 × 2 ÷ 19 = 1.26 and 2.54 × 2 ÷ 19 = 0.27.
    // What was sold before the book starts has a cost that nobody knows.
    expect(costs).toEqual([
      ['s1', 0n],
      ['s2', 450n],
      ['s3', 240n],
      ['s4', 153n],
    ]);
    expect([...stock.movements].filter(({ reason }) => reason === 'clay')).toEqual([]);
  });

  it('counts sales before the start, of which the cost is not known', () => {
    const book = bookFrom(studio(`currency: USD\n${STARTS}`));
    const flows = flow(book, '2026-07-31');
    const of = (from: string, to: string) => incomeTotal(incomeFacts(book, flows, { from, to }));
    expect(of('2026-01-01', '2026-06-30')).toMatchObject({ gross: 9000n, cost: 0n, unknown: true });
    expect(of('2026-07-01', '2026-07-31')).toMatchObject({
      gross: 24000n,
      cost: 843n,
      unknown: false,
    });
  });

  it('needs no starts where the count is the first that the book knows', () => {
    const files = studio('currency: USD');
    const book = bookFrom({ ...files, bought: '', sales: '', used: '' });
    expect(runRules(book, '2026-07-31')).toEqual([]);
    expect(goodsOf(book, '2026-07-01', '2026-07-31').opening.greenware).toBe(1200n);
  });

  it('says where a count with a cost is not of the beginning', () => {
    const found = runRules(bookFrom(studio('currency: USD')), '2026-07-31');
    expect(
      found.filter(({ rule }) => rule === 'opening-count').map(({ at }) => pathOf(at)),
    ).toEqual([['c1', 'materials', 0, 'cost']]);
  });
});

describe('a kiln that was unloaded later', () => {
  // 24 pots of 0.50 kg at 1.00 a kg: 12.00. All of one lot are lost, on the day of unloading.
  const files: Files = {
    studio: 'format: 1\nname: Test\ncurrency: USD\n',
    materials: 'clay: { name: Clay, kind: clay, unit: kg }',
    bought:
      'b1: { date: 2026-06-01, supplier: Pit, lines: [{ material: clay, quantity: 24 kg, cost: 24 }] }',
    products: 'pot: { name: Pot, price: 9, fired: [once], clay: { material: clay, each: 500 g } }',
    kilns: 'shed: { name: Shed, fuel: wood }',
    channels: 'door: { name: Door, kind: direct }',
    pieces: `
p1: { date: 2026-06-02, product: pot, made: 24 }
p2: { date: 2026-06-02, product: pot, made: 24 }
`,
    firings: `
f1:
  date: 2026-06-29
  unloaded: 2026-07-02
  kiln: shed
  kind: once
  load: [{ lot: p1, in: 24, first: 20, lost: 4 }, { lot: p2, in: 24, lost: 24 }]
`,
  };
  const book = bookFrom(files);

  it('holds its ware until then, and loses none before', () => {
    const june = goodsOf(book, '2026-06-01', '2026-06-30');
    expect([june.closing['in-kiln'], june.consumed.lost]).toEqual([2400n, 0n]);
    const july = goodsOf(book, '2026-07-01', '2026-07-31');
    expect([july.opening['in-kiln'], july.consumed.lost]).toEqual([2400n, 1200n]);
    expect(july.closing.studio).toBe(1200n);
  });

  it('is in the kiln by the day, and in losses by the day of the firing once it is out', () => {
    expect(firingsInKiln(book, flow(book, '2026-07-01')).map(({ count }) => count)).toEqual([48]);
    expect(firingsInKiln(book, flow(book, '2026-07-02'))).toEqual([]);
    const lost = (asOf: string) =>
      lossFacts(book, { to: asOf }, asOf)
        .filter(({ stage }) => stage === 'once')
        .map(({ day, lost: count }) => [day, count]);
    expect(lost('2026-07-01')).toEqual([]);
    expect(lost('2026-07-31')).toEqual([
      ['2026-06-29', 4],
      ['2026-06-29', 24],
    ]);
  });

  it('has nothing to sell before', () => {
    const sales =
      's1: { date: 2026-07-01, channel: door, lines: [{ product: pot, lot: p1, count: 1, price: 9 }] }';
    const found = runRules(bookFrom({ ...files, sales }), '2026-07-31');
    expect(found.map(({ rule, message }) => [rule, message])).toEqual([
      [
        'before-it-existed',
        'no piece of p1 was finished before 2026-07-02, but this is of 2026-07-01',
      ],
    ]);
  });

  it('takes the day of the firing where the day of unloading is before it', () => {
    const early = { ...files, firings: (files.firings ?? '').replace('07-02', '06-20') };
    const found = runRules(bookFrom(early), '2026-07-31');
    expect(found.map(({ rule, at }) => [rule, pathOf(at)])).toEqual([
      ['before-it-existed', ['f1', 'unloaded']],
    ]);
    expect([...bookFrom(early).firings.values()].map(outOn)).toEqual(['2026-06-29']);
  });
});
