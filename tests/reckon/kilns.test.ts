import { describe, expect, it } from 'vitest';
import { dayFigures } from '../../src/reckon/day.ts';
import { flow } from '../../src/reckon/flow.ts';
import { kilnLog } from '../../src/reckon/kilns/kiln-log.ts';
import { partsInKilns } from '../../src/reckon/kilns/kiln-parts.ts';
import { addDays } from '../../src/number/date.ts';
import { bookFrom } from '../helpers/book.ts';
import { told } from '../helpers/minor.ts';

const KILNS = `
top:
  name: Top loader
  fuel: electricity
  power: 10 kW
  duty: { bisque: 50% }
  wear:
    - { part: elements, cost: 90, firings: 50, fitted: 2025-06-01, replaced: 2026-01-10 }
    - { part: elements, cost: 100, firings: 30, fitted: 2026-01-10 }
    - { part: shelves, cost: 10, firings: 4, fitted: 2026-01-01 }
    - { part: lid, cost: 70, firings: 500, fitted: 2026-09-01 }
gas: { name: Gas kiln, fuel: natural-gas, wear: [{ part: burner, cost: 60, firings: 100 }] }
`;

interface Fired {
  readonly kiln?: string;
  readonly kind?: string;
  readonly more?: string;
}

/** A firing every three days from the first of January 2026. */
function firingsOf(all: readonly Fired[]): string {
  return all
    .map(({ kiln = 'top', kind = 'glaze', more = '' }, at) => {
      const date = addDays('2026-01-01', at * 3);
      return `f${at}: { date: ${date}, kiln: ${kiln}, kind: ${kind}, ${more} load: [] }`;
    })
    .join('\n');
}

function bookOf(fired: readonly Fired[], studio = '') {
  return bookFrom({
    ...(studio === '' ? {} : { studio: `format: 1\nname: S\ncurrency: USD\n${studio}\n` }),
    kilns: KILNS,
    firings: firingsOf(fired),
  });
}

describe('the parts of a kiln', () => {
  const book = bookOf([{}, {}, {}, {}, {}, { kiln: 'gas' }, {}]);
  const partsOn = (day: string) =>
    partsInKilns(book, day).map(({ kiln, part, firings, state, dueOn, charged, toCharge }) => [
      `${kiln.id} ${part.part}`,
      firings,
      state,
      dueOn,
      told(charged),
      told(toCharge),
    ]);

  it('have had the firings since they were fitted, and are due when they should be used up', () => {
    // The top loader fires every three days; the gas kiln did once, three days ago.
    expect(partsOn('2026-01-19')).toEqual([
      ['gas burner', 1, 'ok', '2026-11-12', '0.60', '59.40'],
      ['top shelves', 6, 'due', '2026-01-19', '15.00', '-5.00'],
      ['top elements', 3, 'ok', '2026-04-10', '9.99', '90.01'],
    ]);
  });

  it('are those that were in it on the day', () => {
    expect(partsOn('2026-01-09').map(([name, firings]) => [name, firings])).toEqual([
      ['gas burner', 0],
      ['top shelves', 3],
      ['top elements', 3],
    ]);
    expect(partsOn('2025-07-01')).toEqual([
      ['gas burner', 0, 'ok', undefined, '0.00', '60.00'],
      ['top elements', 0, 'ok', undefined, '0.00', '90.00'],
    ]);
  });

  it('wear before the book starts, without a charge', () => {
    const started = bookOf([{}, {}, {}], 'starts: 2026-01-04');
    const shelves = partsInKilns(started, '2026-01-09').find(({ part }) => part.part === 'shelves');
    expect([shelves?.firings, shelves && told(shelves.charged), shelves?.state]).toEqual([
      3,
      '5.00',
      'soon',
    ]);
  });

  it('are told at the day’s end when they are due within a month', () => {
    const { partsDue } = dayFigures(book, flow(book, '2026-01-19'));
    expect(partsDue.map(({ part }) => part.part)).toEqual(['shelves']);
  });
});

describe('the log of a kiln', () => {
  const kiln = bookOf([]).kilns.get('top')!;
  const days = { from: '2026-01-01', to: '2026-12-31' };
  const hours = (all: readonly number[], kind = 'glaze'): Fired[] =>
    all.map((each) => ({ kind, more: `hours: ${each},` }));
  const foundIn = (fired: readonly Fired[]) =>
    kilnLog(bookOf(fired), kiln, days).charts.map(({ kind, of, values }) => [
      kind,
      of,
      values
        .map(({ found }) => found ?? '')
        .join(' ')
        .trim(),
    ]);

  it('says nothing below ten firings of a kind', () => {
    expect(foundIn(hours([8, 8, 8, 8, 8, 8, 8, 8, 80]))).toEqual([['glaze', 'hours', '']]);
    expect(
      foundIn([...hours([8, 8.1, 8, 8.1, 8]), ...hours([12, 12, 12, 12, 40], 'bisque')]),
    ).toEqual([
      ['bisque', 'hours', ''],
      ['glaze', 'hours', ''],
    ]);
  });

  it('finds the one that is far from the others, and eight on one side', () => {
    expect(foundIn(hours([8, 8.2, 8, 8.1, 8, 10, 8.1, 8, 8.1, 8, 8.1]))).toEqual([
      ['glaze', 'hours', 'above'],
    ]);
    const rising = [8, 8.1, 8, 8.1, 8, 8.1, 8, 8.1, 8.3, 8.4, 8.3, 8.4, 8.3, 8.4, 8.3, 8.4];
    expect(foundIn(hours(rising))[0]?.[2]).toBe('run-below        run-above');
  });

  it('charts what was measured, in the unit of the newest firing', () => {
    const measured = [
      { more: 'energy: 36 MJ,' },
      { more: 'hours: 8,', kind: 'bisque' },
      { more: 'energy: 12 kWh,' },
      { more: 'energy: 1 gal,' },
      { more: 'meter: { before: 5, after: 16 },' },
    ];
    const log = kilnLog(bookOf(measured), kiln, days);
    const told = log.charts.map(({ kind, of, unit, values }) => [
      `${kind} ${of} ${unit}`,
      values.map(({ value }) => value.toNumber()),
    ]);
    expect(told).toEqual([
      ['bisque hours h', [8]],
      ['glaze energy kWh', [10, 12, 11]],
    ]);
  });
});
