/** Making and firings by hand: rules 4, 9, 11 and 13. */
import { describe, expect, it } from 'vitest';
import { again, firing, once, some } from './small-studio.ts';

describe('making', () => {
  it('is R(made × minutes × rate ÷ 60), once a lot, and clay', () => {
    const { lots } = again({
      pieces:
        'p1: { date: 2026-01-02, product: cup, made: 7 }\np2: { date: 2026-01-02, product: cup, made: 7, minutes: 7.5, clay: { each: 0.5 lb } }',
    });
    // 7 × 7 × 20 ÷ 60 = 16.333…; 7.5 × 20 ÷ 60 = 2.50; clay .35.
    expect(some(lots.get('p1')!.making)).toEqual({ clay: 70, labour: 1633 });
    expect(some(lots.get('p2')!.making)).toEqual({ clay: 35, labour: 250 });
  });

  it('a loss is borne by what is left, and lost with the last piece', () => {
    const lost =
      'lost: [{ date: 2026-01-03, count: 2, why: dropped }, { date: 2026-01-06, count: 5, why: dropped }]';
    const files = { pieces: `p1: { date: 2026-01-02, product: cup, made: 7, ${lost} }` };
    const before = again(files, '2026-01-05');
    expect(before.lots.get('p1')!.stages).toMatchObject([{ count: 5, cost: { clay: 70n } }]);
    expect(before.went.map(({ cost }) => some(cost))).toEqual([{}]);
    const after = again(files);
    expect(after.lots.get('p1')!.stages).toMatchObject([{ count: 0, cost: { clay: 0n } }]);
    expect(some(after.went.at(-1)?.cost)).toEqual({ clay: 70, labour: 1633 });
  });
});

describe('a firing', () => {
  const KILNS = `
kiln:
  name: Kiln
  fuel: electricity
  power: 10 kW
  duty: { bisque: 50% }
  wear:
    - { part: shelves, cost: 100.00, firings: 300 }
    - { part: elements, cost: 50.00, firings: 300, replaced: 2026-02-01 }
    - { part: elements, cost: 70.00, firings: 300, fitted: 2026-02-01 }
`;
  const TARIFFS = `
t1: { from: 2026-01-01, fuel: electricity, price: 0.12345678, per: kWh }
t2:
  from: 2026-03-01
  fuel: electricity
  price: 0.20
  per: kWh
  bands: [{ hours: 22:00-06:00, days: [fri], price: 0.10 }, { hours: 05:00-07:00, price: 0.40 }]
`;
  const fired = (more: string, load = '{ outside: A, in: 1 }', day = '01-05') =>
    again({
      kilns: KILNS,
      tariffs: TARIFFS,
      firings: firing('f1', day, `kind: bisque, ${more}, load: [${load}]`),
    }).firings.get('f1')!;

  it('charges each part R(cost ÷ firings), the old one until it is replaced', () => {
    // .33 + .17; on the day of the change .33 + .23.
    expect(fired('energy: 1 kWh', undefined, '01-31').wear).toBe(50n);
    expect(fired('energy: 1 kWh', undefined, '02-01').wear).toBe(56n);
  });

  it('charges energy by the tariff, rounded once, estimates it, or says that it is unknown', () => {
    expect(fired('energy: 101 kWh')).toMatchObject({ energy: 1247n, energyEstimated: false });
    expect(fired('meter: { before: 1.5, after: 102.5 }').energy).toBe(1247n);
    // 10 kW × 8.5 h × 50 %
    expect(fired('hours: 8.5')).toMatchObject({ energy: 525n, energyEstimated: true });
    const unknown = fired('cone: "6"');
    expect([unknown.energy, unknown.energyKnown]).toEqual([0n, false]);
    const stocked = fired('fuel-used: { material: gas, quantity: 2.5 L }');
    expect(stocked).toMatchObject({ energy: 0n, energyKnown: true, fuel: 250n });
  });

  it('spreads energy over bands by the minute, also over midnight and past a week', () => {
    // Friday 2026-03-06, 21:00 to Saturday 08:00: 1 at .20, 8 at .10, 1 at .40 (the first band has 05–06), 1 at .20.
    const night = 'energy: 11 kWh, started: 21:00, hours: 11';
    expect(fired(night, undefined, '03-06').energy).toBe(160n);
    // A week has 8 h at .10, 13 h at .40, 147 h at .20.
    const week = 'energy: 168 kWh, started: 21:00, hours: 168';
    expect(fired(week, undefined, '03-06').energy).toBe(3540n);
    const part = 'energy: 3 kWh, started: 04:30, hours: 1.5';
    expect(fired(part, undefined, '03-04').energy).toBe(100n);
  });

  it('shares each cost over the load by in × space', () => {
    const { lines, labour } = again({
      pieces: 'p1: { date: 2026-01-02, product: jug, made: 4 }',
      firings: firing(
        'f1',
        '01-05',
        'kind: bisque, tended: 0.05, load: [{ lot: p1, in: 4 }, { class: evening, in: 5 }, { outside: A, in: 1, space: 2.5 }]',
      ),
    }).firings.get('f1')!;
    // 1.00 by 10, 5 and 2.5.
    expect(labour).toBe(100n);
    expect(lines.map((line) => line.labour)).toEqual([57n, 29n, 14n]);
  });

  it('puts what an empty kiln cost under others, and what nobody survives under lost', () => {
    const { went } = again({
      firings:
        firing('f1', '01-05', 'kind: once, tended: 1, load: []') +
        firing('f2', '01-06', 'kind: once, tended: 1, load: [{ lot: p1, in: 7, lost: 7 }]'),
    });
    expect(went.map(({ account, what, cost }) => [account, what, some(cost)])).toEqual([
      ['others', 'empty', { labour: 2000 }],
      ['lost', 'p1', { clay: 70, labour: 3633 }],
    ]);
  });

  it('draws supplies and glaze once for all its lines', () => {
    const pieces =
      'p1: { date: 2026-01-02, product: jug, made: 1 }\np2: { date: 2026-01-02, product: jug, made: 2 }\n';
    const { firings, pools } = again({
      pieces,
      firings:
        firing(
          'f1',
          '01-05',
          'kind: bisque, load: [{ lot: p1, in: 1, first: 1 }, { lot: p2, in: 2, first: 2 }]',
        ) +
        firing(
          'f2',
          '01-06',
          'kind: glaze, supplies: [{ material: cones, quantity: 1 }, { material: wash, quantity: 1 }, { material: cones, quantity: 1 }], load: [{ lot: p1, in: 1, first: 1 }, { lot: p2, in: 2, first: 1, second: 1 }]',
        ) +
        firing('f3', '01-07', 'kind: glaze, load: [{ lot: p2, in: 1, first: 1, refire: yes }]'),
    });
    // 2 of 3 cones at 1.00 are .67, and .10 of wash; 9 g of glaze at 1.00 a kg are R(.9) = 1.
    expect(firings.get('f2')).toMatchObject({
      supplies: 77n,
      lines: [
        { supplies: 26n, glaze: 0n },
        { supplies: 51n, glaze: 1n },
      ],
    });
    const glaze = pools.get('clear')!.movements.filter(({ reason }) => reason === 'glaze');
    expect(glaze.map(({ record, value }) => [record, value])).toEqual([['f2', -1n]]);
    expect(firings.get('f3')!.lines).toMatchObject([{ glaze: 0n }]);
  });

  it('takes seconds before firsts for a refire, and puts them back by their new grade', () => {
    const { lots } = again({
      firings:
        once('f1', '01-05', '{ lot: p1, in: 7, first: 4, second: 2, lost: 1 }') +
        once('f2', '01-06', '{ lot: p1, in: 3, first: 3, refire: yes }'),
    });
    expect(lots.get('p1')!.holdings).toMatchObject([{ grade: 'first', place: '', count: 6 }]);
    expect(some(lots.get('p1')!.finished.cost)).toEqual({ clay: 70, labour: 1633 });
  });

  it('passes a line before the next goes in: pieces can be fired again in one load', () => {
    const { lots, firings, shortfalls } = again({
      firings: once(
        'f1',
        '01-05',
        '{ lot: p1, in: 7, first: 4, second: 3 }, { lot: p1, in: 3, first: 2, lost: 1, refire: yes }',
      ),
    });
    expect(shortfalls).toEqual([]);
    expect(lots.get('p1')!.holdings).toMatchObject([{ grade: 'first', count: 6 }]);
    expect(firings.get('f1')!.lines).toHaveLength(2);
  });
});
