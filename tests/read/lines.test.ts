import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeInText, wholeFile } from '../../src/read/lines.ts';
import { holds } from '../helpers/law.ts';

describe('the place of a span', () => {
  const text = 'ab\r\n\tcd é🏺x\n\nlast';
  test.each([
    [0, 2, { line: 1, column: 1, width: 2, source: 'ab' }],
    [1, 9, { line: 1, column: 2, width: 1, source: 'ab' }],
    [2, 4, { line: 1, column: 3, width: 1, source: 'ab' }],
    [3, 4, { line: 1, column: 3, width: 1, source: 'ab' }],
    [4, 5, { line: 2, column: 1, width: 1, source: '\tcd é🏺x' }],
    [5, 7, { line: 2, column: 2, width: 2, source: '\tcd é🏺x' }],
    [11, 12, { line: 2, column: 8, width: 1, source: '\tcd é🏺x' }],
    [13, 14, { line: 3, column: 1, width: 1, source: '' }],
    [14, 99, { line: 4, column: 1, width: 4, source: 'last' }],
    [18, 18, { line: 4, column: 5, width: 1, source: 'last' }],
    [99, 99, { line: 4, column: 5, width: 1, source: 'last' }],
  ])('%i to %i', (start, end, place) => {
    expect(placeInText('a.yaml', text, { start, end })).toEqual({ file: 'a.yaml', ...place });
  });

  test('is found as by counting', () => {
    const texts = fc.string({ unit: fc.constantFrom('a', '\n', '\r\n', 'é') });
    const counted = fc.property(texts, fc.nat(20), (each, start) => {
      const { line, column } = placeInText('a', each, { start, end: start });
      const before = each.slice(0, start).split('\n');
      expect(line).toBe(before.length);
      if (each[start] !== '\n') expect(column).toBe((before.at(-1) ?? '').length + 1);
    });
    holds(counted, 1000);
  });
});

test('a whole file is its beginning', () => {
  expect(wholeFile('a.yaml')).toEqual({ file: 'a.yaml', line: 1, column: 1, width: 1, source: '' });
});
