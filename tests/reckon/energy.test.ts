import { describe, expect, it } from 'vitest';
import { flow } from '../../src/reckon/flow.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const DAY = '2026-03-06';

/** Energy cost of one firing on a Friday; undefined where it isn't known. */
function costOf(tariffs: string, firing: string, kiln = 'fuel: electricity'): string | undefined {
  const book = bookFrom({
    kilns: `kiln: { name: Kiln, ${kiln} }`,
    tariffs,
    firings: `f1: { date: ${DAY}, kiln: kiln, kind: glaze, load: [], ${firing} }`,
  });
  return told(flow(book, DAY).ware.firings.get('f1')?.energyCost);
}

const BANDS = `
t1:
  from: 2026-01-01
  fuel: electricity
  price: 0.20
  per: kWh
  bands:
    - { hours: 16:00-21:00, days: [mon, tue, wed, thu, fri], price: 0.40 }
    - { hours: 23:00-07:00, price: 0.10 }
`;

describe('energy by the tariff', () => {
  it('the tariff in force on the day counts, also among several', () => {
    const tariffs = `
t1: { from: 2025-01-01, fuel: electricity, price: 0.10, per: kWh }
t2: { from: 2026-03-06, fuel: electricity, price: 0.30, per: kWh }
t3: { from: 2026-03-07, fuel: electricity, price: 0.90, per: kWh }
`;
    expect(costOf(tariffs, 'energy: 10 kWh')).toBe('3.00');
  });

  it('a meter’s difference counts like a stated energy', () => {
    const tariff = 't1: { from: 2025-01-01, fuel: electricity, price: 0.10, per: kWh }';
    expect(costOf(tariff, 'meter: { before: 1200.5, after: 1271.9 }')).toBe('7.14');
  });

  it('bands share the energy by the hours that fall into them', () => {
    // 15:00 to 17:00: one hour at .20 and one at .40.
    expect(costOf(BANDS, 'energy: 10 kWh, started: 15:00, hours: 2')).toBe('3.00');
  });

  it('a band over midnight holds on both sides of it', () => {
    // 22:00 to 02:00: one hour at .20, three at .10.
    expect(costOf(BANDS, 'energy: 8 kWh, started: 22:00, hours: 4')).toBe('1.00');
  });

  it('a band that began the evening before still holds in the morning', () => {
    expect(costOf(BANDS, 'energy: 8 kWh, started: 05:00, hours: 2')).toBe('0.80');
  });

  it('a band of weekdays does not hold on the Saturday that a firing runs into', () => {
    // Friday 20:00 for 24 h: 1 h at .40, 2 + 13 h at .20 (Saturday 16–21 h is no band), 8 h at .10.
    expect(costOf(BANDS, 'energy: 24 kWh, started: 20:00, hours: 24')).toBe('4.20');
  });

  it('a firing of weeks meets every week the same bands, however long it is', () => {
    // A week: 25 h at .40, 87 h at .20, 56 h at .10 = 33.00; and then the 24 h from above.
    expect(costOf(BANDS, 'energy: 168 kWh, started: 20:00, hours: 168')).toBe('33.00');
    expect(costOf(BANDS, 'energy: 360 kWh, started: 20:00, hours: 360')).toBe('70.20');
    expect(costOf(BANDS, 'energy: 168 kWh, started: 20:00, hours: 168000000000')).toBe('33.00');
  });

  it('without a start time the plain price counts', () => {
    expect(costOf(BANDS, 'energy: 10 kWh, hours: 2')).toBe('2.00');
  });

  it('gas by volume is priced by its heat content', () => {
    // 2 ccf × 103.7 MJ/ccf = 207.4 MJ = 57.6111… kWh at .10 = 5.76111…
    const tariff = 't1: { from: 2025-01-01, fuel: natural-gas, price: 0.10, per: kWh }';
    const kiln = 'fuel: natural-gas, heat-content: 103.7 MJ/ccf';
    expect(costOf(tariff, 'fuel-used: 2 ccf', kiln)).toBe('5.76');
  });

  it('one therm is 100,000 Btu (US Energy Information Administration)', () => {
    const tariff = 't1: { from: 2025-01-01, fuel: natural-gas, price: 1.50, per: therm }';
    const kiln = 'fuel: natural-gas, heat-content: 103700 Btu/ccf';
    // 2.074 therms at 1.50 = 3.111
    expect(costOf(tariff, 'fuel-used: 2 ccf', kiln)).toBe('3.11');
  });

  it('is unknown without a tariff, a meter or a duty', () => {
    expect(costOf('', 'energy: 10 kWh')).toBeUndefined();
    expect(costOf(BANDS, 'hours: 7', 'fuel: electricity, power: 9 kW')).toBeUndefined();
  });
});
