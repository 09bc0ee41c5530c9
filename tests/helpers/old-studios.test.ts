/** The comparing of old answers sees what it must see, and lets pass what it may. */
import { describe, expect, it } from 'vitest';
import {
  asLines,
  differences,
  oldAnswer,
  type Answer,
  type Known,
  type Terms,
} from './old-studios.ts';

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

const STRICT: Terms = { tolerance: { money: 0, ratio: 1e-9, quantity: 0 }, wholeCents: false };
const LOOSE: Terms = { tolerance: { money: 1, ratio: 1e-2, quantity: 1e-9 }, wholeCents: false };

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
    expect(seen(withFirst({ total: '8.39' }))).toEqual(['0 (f1) total: 8.395 became 8.39']);
  });

  it.each([
    [withFirst({ total: '8.41' }), /^0 \(f1\) total: 8.395 became 8.41$/],
    [withFirst({ perPiece: '2.8' }), /^0 \(f1\) perPiece: /],
    [withFirst({ energyUsed: '41.5000000001' }), /^0 \(f1\) energyUsed: /],
    [{ notes: ['2 firings for 8.41, and 1 is an estimate.'] }, /^note 0 notes: /],
  ])('may differ as far as the tolerance goes', (change, line) => {
    expect(seen(change, LOOSE)).toEqual([]);
    expect(seen(change)).toEqual([expect.stringMatching(line)]);
  });

  it.each([
    [withFirst({ total: '8.42' }), /^0 \(f1\) total: /],
    [withFirst({ total: null }), /^0 \(f1\) total: 8.395 became null/],
    [withFirst({ perPiece: '2.9' }), /^0 \(f1\) perPiece: /],
    [withFirst({ energyUsed: '41.6' }), /^0 \(f1\) energyUsed: /],
    [withFirst({ pieces: 4 }), /^0 \(f1\) pieces: 3 became 4/],
    [withFirst({ firing: 'f3' }), /^0 \(f1\) firing: /],
    [{ totals: { pieces: 5, total: '0.02' } }, /^totals total: /],
    [{ rows: OLD.rows.slice(0, 1) }, /^rows count: 2 became 1/],
    [{ columns: [{ key: 'pieces', type: 'quantity' }, ...OLD.columns] }, /^columns pieces: /],
    [{ columns: OLD.columns.slice(1) }, /^columns firing: id became gone/],
    [{ currency: 'EUR' }, /^head currency: /],
    [{ notes: [] }, /^notes count: /],
    [{ notes: ['2 firings for 8.40, and 2 is an estimate.'] }, /^note 0 notes: /],
    [{ notes: ['2 firings for 8.40, and 1 is a guess.'] }, /^note 0 notes: /],
  ])('is held to the rest, however loosely: %j', (change, line) => {
    expect(seen(change, LOOSE)).toContainEqual(expect.stringMatching(line));
  });

  it('may have more columns', () => {
    expect(seen({ columns: [...OLD.columns, { key: 'kiln', type: 'id' }] })).toEqual([]);
  });

  it('can be held to whole minor units, but for ratios', () => {
    const whole = { ...STRICT, wholeCents: true };
    expect(seen(withFirst({ total: '8.4' }), whole)).toEqual([
      '1 (f2) total: -8.395 is not in whole minor units',
    ]);
  });

  it('may differ where that is known, and has to', () => {
    const known = {
      studio: 'hill-street',
      report: 'firings.json',
      row: '0',
      column: 'pieces',
      old: '3',
      new: '4',
      why: 'a piece was counted twice',
    };
    expect(seen(withFirst({ pieces: 4 }), STRICT, [known])).toEqual([]);
    expect(seen(withFirst({ pieces: 5 }), STRICT, [known])).toEqual([
      '0 (f1) pieces: 3 became 5',
      '0 pieces: is known to become 4, but does not',
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
