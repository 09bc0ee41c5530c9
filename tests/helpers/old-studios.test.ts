/** The comparing of old answers sees what it must see, and lets pass what it may. */
import { describe, expect, it } from 'vitest';
import {
  asLines,
  differences,
  type Answer,
  type Known,
  type Terms,
  type Tolerance,
} from './old-answers.ts';
import { oldAnswer } from './old-studios.ts';
import { toleranceAt } from './old-tolerances.ts';

const OLD: Answer = {
  report: 'firings',
  studio: 'Hill Street',
  asOf: '2026-06-30',
  currency: 'USD',
  columns: [
    { key: 'firing', type: 'id' },
    { key: 'pieces', type: 'count' },
    { key: 'energyUsed', type: 'quantity', unit: 'kWh' },
    { key: 'total', type: 'money' },
    { key: 'perPiece', type: 'money' },
  ],
  rows: [
    { firing: 'f1', pieces: 3, energyUsed: '41.5', total: '8.395', perPiece: '2.798333333333' },
    { firing: 'f2', pieces: 2, energyUsed: '40', total: '-8.395', perPiece: null },
  ],
  totals: { pieces: 5, total: '0' },
  notes: ['2 firings for 8.40, and 1 is an estimate.'],
};

const STRICT = termsOf({ money: 0, ratio: 1e-9, quantity: 0 });
const LOOSE = termsOf({ money: 1, ratio: 1e-2, quantity: 1e-9 });

function termsOf(tolerance: Tolerance): Terms {
  return { toleranceOf: () => tolerance, wholeCents: false };
}

function seen(change: Partial<Answer>, terms = STRICT, known: readonly Known[] = []): string[] {
  return asLines(differences(OLD, { ...OLD, ...change }, terms), known);
}

/** The rows with other cells in the first. */
function withFirst(cells: Answer['rows'][number]): Partial<Answer> {
  return { rows: [{ ...OLD.rows[0], ...cells }, ...OLD.rows.slice(1)] };
}

describe('an old answer beside a new one', () => {
  it('differs in nothing from itself', () => {
    expect(seen({})).toEqual([]);
  });

  it('may have its amounts rounded half up, away from zero, and written otherwise', () => {
    expect(seen(withFirst({ total: '8.40', energyUsed: '41.50' }))).toEqual([]);
    expect(seen({ rows: [OLD.rows[0]!, { ...OLD.rows[1], total: '-8.40' }] })).toEqual([]);
    expect(seen(withFirst({ total: '8.39' }))).toEqual(['f1 | total: 8.395 became 8.39']);
  });

  it.each([
    [withFirst({ total: '8.41' }), /^f1 \| total: 8.395 became 8.41$/],
    [withFirst({ perPiece: '2.81' }), /^f1 \| perPiece: /],
    [withFirst({ energyUsed: '41.5000000001' }), /^f1 \| energyUsed: /],
    [{ notes: ['2 firings for 8.41, and 1 is an estimate.'] }, /^note 0 \| notes: /],
  ])('may differ as far as the tolerance goes', (change, line) => {
    expect(seen(change, LOOSE)).toEqual([]);
    expect(seen(change)).toEqual([expect.stringMatching(line)]);
  });

  it.each([
    [withFirst({ total: '8.42' }), /^f1 \| total: /],
    [withFirst({ total: null }), /^f1 \| total: 8.395 became null/],
    [withFirst({ perPiece: '2.9' }), /^f1 \| perPiece: /],
    [withFirst({ energyUsed: '41.6' }), /^f1 \| energyUsed: /],
    [withFirst({ pieces: 4 }), /^f1 \| pieces: 3 became 4/],
    [withFirst({ firing: 'f3' }), /^f3 \| row: none became there/],
    [withFirst({ firing: 'f3' }), /^f1 \| row: there became none/],
    [{ totals: { pieces: 5, total: '0.02' } }, /^totals \| total: /],
    [{ rows: OLD.rows.slice(0, 1) }, /^f2 \| row: there became none/],
    [{ columns: [{ key: 'pieces', type: 'quantity' }, ...OLD.columns] }, /^columns \| pieces: /],
    [{ columns: OLD.columns.slice(1) }, /^columns \| firing: id became gone/],
    [{ currency: 'EUR' }, /^head \| currency: /],
    [{ notes: [] }, /^notes \| count: /],
    [{ notes: ['2 firings for 8.40, and 2 is an estimate.'] }, /^note 0 \| notes: /],
    [{ notes: ['2 firings for 8.40, and 1 is a guess.'] }, /^note 0 \| notes: /],
  ])('is held to the rest, however loosely: %j', (change, line) => {
    expect(seen(change, LOOSE)).toContainEqual(expect.stringMatching(line));
  });

  it('may have more columns', () => {
    expect(seen({ columns: [...OLD.columns, { key: 'kiln', type: 'id' }] })).toEqual([]);
  });

  it('can be held to whole minor units, but for ratios', () => {
    const whole = { ...STRICT, wholeCents: true };
    expect(seen(withFirst({ total: '8.40' }), whole)).toEqual([
      'f2 | total: -8.395 became -8.395',
      'totals | total: 0 became 0',
    ]);
  });

  it('may have its rows in another order', () => {
    expect(seen({ rows: OLD.rows.toReversed() })).toEqual([]);
  });

  it('may have a figure become a rate where it always was one', () => {
    const typed = (key: string): Answer['columns'] =>
      OLD.columns.map((column) => (column.key === key ? { key, type: 'rate' } : column));
    expect(seen({ columns: typed('perPiece') })).toEqual([]);
    expect(seen({ columns: typed('total') })).toEqual(['columns | total: money became rate']);
  });

  it('may differ where that is known, and has to', () => {
    const known = {
      studio: 'hill-street',
      report: 'firings.json',
      row: 'f1',
      column: 'pieces',
      old: '3',
      new: '4',
      why: 'a piece was counted twice',
    };
    expect(seen(withFirst({ pieces: 4 }), STRICT, [known])).toEqual([]);
    expect(seen(withFirst({ pieces: 5 }), STRICT, [known])).toEqual([
      'f1 | pieces: 3 became 5',
      'f1 | pieces: is known to become 4, but does not',
    ]);
  });
});

it('findings are compared by rule and place, not by their words', () => {
  const old = oldAnswer('example', 'check.json');
  const reworded = old.rows.map((row) => ({ ...row, message: 'other words', hint: null }));
  expect(differences(old, { ...old, rows: reworded }, STRICT)).toEqual([]);
  const fewer = differences(old, { ...old, rows: old.rows.slice(1) }, STRICT);
  expect(fewer).toHaveLength(old.rows.length);
});

describe('the history of a material', () => {
  const history = (rows: readonly (readonly string[])[]): Answer => ({
    ...OLD,
    report: 'materials',
    columns: [
      { key: 'date', type: 'date' },
      { key: 'what', type: 'text' },
      { key: 'change', type: 'quantity' },
      { key: 'onHand', type: 'quantity' },
      { key: 'valueChange', type: 'money' },
      { key: 'value', type: 'money' },
    ],
    rows: rows.map(
      ([date = '', what = '', change = '', onHand = '', valueChange = '', value = '']) => ({
        ...{ date, what, change, onHand, valueChange, value },
      }),
    ),
    notes: [`On hand: ${String(rows.length)} bars`],
  });
  const old = history([
    ['2026-01-01', 'bought', '10', '10', '5', '5'],
    ['2026-01-02', 'glaze on ware', '-1', '9', '-0.125', '4.875'],
    ['2026-01-02', 'glaze on ware', '-2', '7', '-0.375', '4.5'],
  ]);
  const seenOf = (rows: readonly (readonly string[])[]): string[] =>
    asLines(differences(old, history(rows), STRICT), []);

  it('may tell the use of a day in one row', () => {
    const rows = [
      ['2026-01-01', 'bought', '10', '10', '5.00', '5.00'],
      ['2026-01-02', 'glaze on ware', '-3', '7', '-0.50', '4.50'],
    ];
    expect(seenOf(rows)).toEqual([]);
  });

  it('has to come to the same in the day and at its end', () => {
    const rows = [
      ['2026-01-01', 'bought', '10', '10', '5.00', '5.00'],
      ['2026-01-02', 'glaze on ware', '-4', '6', '-0.52', '4.48'],
    ];
    expect(seenOf(rows)).toEqual([
      '2026-01-02, glaze on ware | change: -3 became -4',
      '2026-01-02, glaze on ware | valueChange: -0.500 became -0.52',
      '2026-01-02, left that day | onHand: 7 became 6',
      '2026-01-02, left that day | value: 4.5 became 4.48',
    ]);
  });
});

it('what is more than a cent off is allowed for just the figures that are named', () => {
  const place = { studio: 'example', report: 'firings', answer: 'firings.json' };
  const moneyAt = (column: string, row: string): number =>
    toleranceAt({ ...place, column, row }).money;
  expect(moneyAt('wearCost', 'f1')).toBe(1);
  expect(moneyAt('total', 'f1')).toBe(2);
  expect(moneyAt('wearCost', 'totals')).toBe(40);
  expect(moneyAt('perPiece', 'totals')).toBe(1);
});
