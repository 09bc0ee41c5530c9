/** What fields, records and changes of definitions move, and the text of it. */
import { describe, expect, it } from 'vitest';
import { said } from '../../schema/build/moves.js';
import { movingText } from '../../src/read/kept/moves.ts';
import { movedByRecord, movesOf } from '../helpers/moves.ts';

describe('what a field moves', () => {
  it.each([
    ['products', ['price'], 'nothing'],
    ['products', ['glazes', 0, 'where'], 'nothing'],
    ['products', ['glazes', 0, 'each'], 'all'],
    ['products', ['changes', 0, 'price'], 'nothing'],
    ['products', ['changes', 0, 'space'], 'all'],
    ['channels', ['commission'], 'all'],
    ['channels', ['name'], 'nothing'],
    ['channels', ['kind'], 'all'],
    ['sales', ['lines', 0, 'count'], 'date'],
    ['sales', ['lines', 0, 'price'], 'date'],
    ['sales', ['fair'], 'nothing'],
    ['classes', ['changes', 0, 'fee'], 'nothing'],
    ['classes', ['changes', 0, 'taxed'], 'all'],
    ['sales', ['lines'], 'date'],
    ['counted', ['pieces', 2, 'cost'], 'all'],
    ['counted', [], 'all'],
    ['fairs', ['take', 0, 'count'], 'nothing'],
    ['spent', [], 'nothing'],
    ['firings', ['fuel-used', 'material'], 'date'],
    ['sales', ['colour'], 'all'],
  ] as const)('of %s, %j: %s', (kind, path, moves) => {
    expect(movesOf(kind, path)).toBe(moves);
  });

  it('is one of three words, or the build ends', () => {
    expect(said({ 'x-moves': 'date' })).toBe('date');
    expect(said({})).toBeUndefined();
    expect(() => said({ 'x-moves': 'dates' })).toThrow(
      /^x-moves is one of nothing, date, all, not dates$/,
    );
  });
});

describe('what a record moves', () => {
  it('is the most of the fields that it has', () => {
    const counted = { date: '2026-03-31', pieces: [{ product: 'mug', count: '4' }] };
    expect(movedByRecord('counted', counted)).toBe('date');
    const opening = { ...counted, pieces: [{ product: 'mug', count: '4', cost: '12' }] };
    expect(movedByRecord('counted', opening)).toBe('all');
    expect(movedByRecord('tests', { date: '2026-03-31', kind: 'tile' })).toBe('nothing');
  });
});

describe('the text of what moves', () => {
  const line = { product: 'mug', count: '2', price: '38' };
  const sale = { date: '2026-03-08', channel: 'door', lines: [line] };

  it('is the same without what moves nothing, and in any order of keys', () => {
    const other = {
      note: 'rain',
      fair: 'autumn',
      lines: [line],
      channel: 'door',
      date: sale.date,
    };
    expect(movingText('sales', other)).toBe(movingText('sales', sale));
  });

  it.each([
    { ...sale, date: '2026-03-09' },
    { ...sale, lines: [{ ...line, count: '3' }] },
    { ...sale, lines: [{ ...line, price: '40' }] },
    { ...sale, lines: [line, { for: 'mending', count: '1', price: '9' }] },
    { ...sale, colour: 'red' },
  ])('is another with %j', (other) => {
    expect(movingText('sales', other)).not.toBe(movingText('sales', sale));
  });

  const mug = { name: 'Mug', space: '1' };
  const changed = (...changes: Record<string, string | string[]>[]) =>
    movingText('products', { ...mug, changes });

  it('leaves out changes that move nothing', () => {
    const plain = movingText('products', mug);
    expect(changed({ from: '2026-01-01', price: '40', note: 'dearer' })).toBe(plain);
    expect(changed({ from: '2026-01-01', without: ['price'] })).toBe(plain);
    const roomy = { from: '2026-01-01', space: '2' };
    expect(changed(roomy, { from: '2026-02-01', care: ['oven'] })).toBe(changed(roomy));
    expect(changed({ ...roomy, price: '40', without: ['second'] })).toBe(changed(roomy));
  });

  it('has the days and the fields of those that move', () => {
    const texts = [
      movingText('products', mug),
      changed({ from: '2026-01-01', space: '2' }),
      changed({ from: '2026-01-02', space: '2' }),
      changed({ from: '2026-01-01', space: '3' }),
      changed({ from: '2026-01-01', without: ['space'] }),
    ];
    expect(new Set(texts).size).toBe(texts.length);
  });
});
