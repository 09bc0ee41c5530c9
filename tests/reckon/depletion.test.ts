import { describe, expect, it } from 'vitest';
import { depletion, type Depletion } from '../../src/reckon/stock/depletion.ts';
import { dayFigures } from '../../src/reckon/day.ts';
import { flow } from '../../src/reckon/flow.ts';
import { stockText } from '../../src/report/day/day-words.ts';
import { bookFrom, type Files } from '../helpers/book.ts';

const TODAY = '2026-01-31';

/**
 * Sand that was bought on 1 January and of which 60 kg were used on the 16th: over the 30 days since the
 * first record that is 2 kg a day.
 */
function files(material: string, { bought = 100, settings = '' } = {}): Files {
  return {
    studio: `format: 1\nname: Test studio\ncurrency: USD\n${settings}`,
    materials: `sand: { name: Sand, kind: dry, unit: kg${material} }`,
    bought: `b1: { date: 2026-01-01, supplier: Pit, lines: [{ material: sand, quantity: ${String(bought)} kg, cost: 10 }] }`,
    used: 'u1: { date: 2026-01-16, material: sand, quantity: 60 kg }',
  };
}

function sand(studio: Files, window = 90): Depletion {
  const book = bookFrom(studio);
  const [only] = depletion(book, flow(book, TODAY).stock, window);
  return only ?? expect.fail('no sand');
}

/** State, days left, the day it runs out, and the day to order by. */
function outlook(material: string, more: { bought?: number; settings?: string } = {}): string {
  return told(sand(files(material, more)));
}

function told({ state, daysLeft, runsOut, orderBy }: Depletion): string {
  return [state, daysLeft, runsOut, orderBy].map(String).join(' ');
}

describe('how long the stock lasts', () => {
  it('goes by what was used in the window, or since the first record where that is shorter', () => {
    // 60 kg ÷ 30 days; 40 kg ÷ 2 are 20 days from 31 January.
    expect(sand(files('')).usedPerDay.toString()).toBe('2');
    expect(outlook('')).toBe('ok 20 2026-02-20 2026-02-20');
    // 60 kg ÷ 20 days is 3 a day: 40 ÷ 3 = 13.333… days, of which 13 are whole.
    expect(told(sand(files(''), 20))).toBe('ok 13.333333333333 2026-02-13 2026-02-13');
    // 15 days ago is not within the last 15 days.
    expect(told(sand(files(''), 15))).toBe('idle undefined undefined undefined');
  });

  it('leaves the lead days for the order, the material’s own before the studio’s', () => {
    expect(outlook(', lead-days: 6')).toBe('ok 20 2026-02-20 2026-02-14');
    const settings = 'lead-days: 4\n';
    expect(outlook('', { settings })).toBe('ok 20 2026-02-20 2026-02-16');
    expect(outlook(', lead-days: 6', { settings })).toBe('ok 20 2026-02-20 2026-02-14');
    // None of its own is an answer too.
    expect(outlook(', lead-days: 0', { settings })).toBe('ok 20 2026-02-20 2026-02-20');
  });

  it('is to be ordered now from the very day to order by', () => {
    // 20 days less 19 is tomorrow, less 20 today, less 21 was yesterday.
    expect(outlook(', lead-days: 19')).toBe('ok 20 2026-02-20 2026-02-01');
    expect(outlook(', lead-days: 20')).toBe('order-now 20 2026-02-20 2026-01-31');
    expect(outlook(', lead-days: 21')).toBe('order-now 20 2026-02-20 2026-01-30');
    // Half a day's use is left: it runs out today.
    expect(outlook('', { bought: 61 })).toBe('order-now 0.5 2026-01-31 2026-01-31');
  });

  it('is low below the level to order at, and not at it', () => {
    expect(outlook(', reorder-at: 40 kg')).toBe('ok 20 2026-02-20 2026-02-20');
    expect(outlook(', reorder-at: 40.001 kg')).toBe('low 20 2026-02-20 2026-02-20');
    // 40 kg are 88.18 lb.
    expect(outlook(', reorder-at: 88 lb')).toBe('ok 20 2026-02-20 2026-02-20');
    expect(outlook(', reorder-at: 89 lb')).toBe('low 20 2026-02-20 2026-02-20');
    expect(outlook(', reorder-at: 50 kg, lead-days: 20')).toBe(
      'order-now 20 2026-02-20 2026-01-31',
    );
  });

  it('is idle where nothing is used, unless it is low or out', () => {
    const unused = (material: string): Files => ({ ...files(material), used: '' });
    const none = 'undefined undefined undefined';
    expect(told(sand(unused(', lead-days: 9')))).toBe(`idle ${none}`);
    expect(told(sand(unused(', reorder-at: 100 kg')))).toBe(`idle ${none}`);
    expect(told(sand(unused(', reorder-at: 101 kg')))).toBe(`low ${none}`);
    expect(told(sand({ ...unused(''), bought: '' }))).toBe(`out ${none}`);
  });

  it('is no days of what is out, also where more was drawn than there was', () => {
    // All 60 kg are gone; with 50 kg bought the book is 10 kg short, and was at −5 days.
    expect(outlook(', lead-days: 7', { bought: 60 })).toBe('out 0 2026-01-31 2026-01-24');
    expect(outlook(', lead-days: 7', { bought: 50 })).toBe('out 0 2026-01-31 2026-01-24');
    expect(sand(files('', { bought: 50 })).onHand.toString()).toBe('-10');
  });
});

describe('what the day says of it', () => {
  function day(studio: Files): { toOrder: string[]; low: string[] } {
    const book = bookFrom(studio);
    const { toOrder, low } = dayFigures(book, flow(book, TODAY));
    return { toOrder: toOrder.map(stockText), low: low.map(stockText) };
  }

  it('is out below zero as at zero, and to order from the very day to order by', () => {
    expect(day(files('', { bought: 50 }))).toEqual({ toOrder: ['Sand (out)'], low: [] });
    expect(day(files('', { bought: 60 }))).toEqual({ toOrder: ['Sand (out)'], low: [] });
    const pressing = { toOrder: ['Sand (40 kg, 20 days left)'], low: [] };
    expect(day(files(', lead-days: 20'))).toEqual(pressing);
    expect(day(files(', lead-days: 19'))).toEqual({ toOrder: [], low: [] });
    const low = { toOrder: [], low: ['Sand (40 kg, 20 days left)'] };
    expect(day(files(', reorder-at: 41 kg'))).toEqual(low);
  });
});
