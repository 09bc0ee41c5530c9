import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finding, Spot } from '../../src/problem.ts';
import { locate } from '../../src/read/place.ts';
import { placesIn } from '../../src/read/yaml/spots.ts';
import { folderWith } from './support/folder.ts';
import { mistypedText } from './support/studio-text.ts';
import { holds } from '../helpers/law.ts';

const TEXT = `# March
s1:
  date: 2026-03-08
  buyer: "A. Potter"
  lines:
    - { product: mug, count: 2 }
    - product: vase
      count: 1 # one
  empty:
  note: |
    one
    two
s2: {x: [a, b]}
`;

function shown(text: string, spot: Omit<Spot, 'file'>): string {
  const { line, column, width, source } = placesIn('a.yaml', text)({ file: 'a.yaml', ...spot });
  return `${line}:${column} ${source.slice(column - 1, column - 1 + width)}`;
}

describe('a spot is', () => {
  test.each([
    [['s1', 'date'], '3:9 2026-03-08'],
    [['s1', 'buyer'], '4:10 "A. Potter"'],
    [['s1', 'lines', 0], '6:7 { product: mug, count: 2 }'],
    [['s1', 'lines', 0, 'count'], '6:30 2'],
    [['s1', 'lines', 1], '7:7 product: vase'],
    [['s1', 'lines', 1, 'count'], '8:14 1'],
    [['s1', 'note'], '10:9 |'],
    [['s2', 'x'], '13:9 [a, b]'],
    [['s2', 'x', 1], '13:13 b'],
    [['s2'], '13:5 {x: [a, b]}'],
  ])('the value at %j', (path, place) => {
    expect(shown(TEXT, { path })).toBe(place);
  });

  test.each([
    [['s1'], '2:1 s1'],
    [['s1', 'lines'], '5:3 lines'],
    [['s1', 'empty'], '9:3 empty'],
  ])('the key where the value is empty or on lines of its own: %j', (path, place) => {
    expect(shown(TEXT, { path })).toBe(place);
  });

  test.each([
    [['s1'], '2:1 s1'],
    [['s1', 'date'], '3:3 date'],
    [['s1', 'lines', 0, 'count'], '6:23 count'],
    [['s1', 'lines', 1], '7:7 product: vase'],
    [['s2', 'x'], '13:6 x'],
  ])('the key where that is asked for: %j', (path, place) => {
    expect(shown(TEXT, { path, on: 'key' })).toBe(place);
  });

  test.each([
    [['s1', 'paid'], '2:1 s1'],
    [['s1', 'lines', 0, 'price'], '6:7 { product: mug, count: 2 }'],
    [['s1', 'lines', 1, 'price', 'x'], '7:7 product: vase'],
    [['s1', 'lines', 7], '5:3 lines'],
    [['s1', 'lines', 'x'], '5:3 lines'],
    [['s1', 'date', 'x'], '3:3 date'],
    [['s3', 'x'], '2:1 s1'],
    [[], '2:1 s1'],
  ])('the nearest thing on its way where there is none: %j', (path, place) => {
    expect(shown(TEXT, { path })).toBe(place);
  });

  test('the beginning of an empty file', () => {
    expect(shown('', { path: ['a'] })).toBe('1:1 ');
    expect(shown('# none\n', { path: [] })).toMatch(/^[12]:1 /);
  });

  test('found in every form of file', () => {
    expect(shown('"a":\n  b: 1\n', { path: ['a', 'b'] })).toBe('2:6 1');
    expect(shown('{a: {b: 1},\nc: 2}\n', { path: ['c'] })).toBe('2:4 2');
    expect(shown('a: 1\r\nb: 2\r\n', { path: ['b'] })).toBe('2:4 2');
    expect(shown('a: °C é🏺 x\nb: {c: é, d: 1}\n', { path: ['b', 'd'] })).toBe('2:14 1');
    expect(shown('a:\n  "b": 1\n', { path: ['a', 'b'], on: 'key' })).toBe('2:3 "b"');
  });

  test('found beside records with faults', () => {
    expect(shown('a: "x\nb:\n  c: 1\n', { path: ['b', 'c'] })).toBe('3:6 1');
    expect(shown('"q": 1\na: "x\nb:\n  c: 1\n', { path: ['b', 'c'] })).toBe('4:6 1');
  });

  test('in its file, whatever the file', () => {
    const steps = fc.constantFrom(
      's260308kt',
      'lines',
      0,
      1,
      'product',
      'f260301aa',
      'load',
      'why',
      'note',
    );
    const spots = fc.record({
      path: fc.array(steps, { maxLength: 4 }),
      on: fc.constantFrom('key', 'value'),
    });
    const within = fc.property(mistypedText, spots, (text, spot) => {
      const place = placesIn('a.yaml', text)({ file: 'a.yaml', ...spot });
      expect(text.split('\n')[place.line - 1]?.replace(/\r$/, '')).toBe(place.source);
      expect(place.column).toBeLessThanOrEqual(place.source.length + 1);
      expect(place.column - 1 + place.width).toBeLessThanOrEqual(
        Math.max(place.source.length, place.column),
      );
    });
    holds(within, 500);
  });
});

describe('findings are located', () => {
  const finding = (rule: string, at: Finding['at']): Finding => ({
    rule,
    severity: 'error',
    at,
    message: 'm',
    hint: 'h',
  });
  const folder = () => folderWith({ 'b.yaml': '\ufeffx: 1\ny: 2\n', 'a.yaml': TEXT });

  test('and sorted by file, line, column and rule', async () => {
    const findings = [
      finding('r2', { file: 'b.yaml', path: ['y'] }),
      finding('r1', { file: 'b.yaml', path: ['y'] }),
      finding('r', { file: 'b.yaml', path: ['y'], on: 'key' }),
      finding('r', { file: 'b.yaml', path: ['x'] }),
      finding('r', { file: 'a.yaml', path: ['s2', 'x', 1] }),
      finding('r', { file: 'a.yaml', line: 9, column: 1, width: 2, source: 'kept' }),
    ];
    const problems = await locate(folder(), findings);
    const places = problems.map(
      ({ rule, place }) => `${place.file}:${place.line}:${place.column} ${rule}`,
    );
    expect(places).toEqual([
      'a.yaml:9:1 r',
      'a.yaml:13:13 r',
      'b.yaml:1:4 r',
      'b.yaml:2:1 r',
      'b.yaml:2:4 r1',
      'b.yaml:2:4 r2',
    ]);
    expect(problems[0]?.place).toEqual({
      file: 'a.yaml',
      line: 9,
      column: 1,
      width: 2,
      source: 'kept',
    });
  });

  test('with what is related', async () => {
    const related = [{ at: { file: 'b.yaml', path: ['x'] }, message: 'see' }];
    const [problem] = await locate(folder(), [
      { ...finding('r', { file: 'a.yaml', path: ['s2'] }), related },
    ]);
    expect(problem?.related).toEqual([
      { place: { file: 'b.yaml', line: 1, column: 4, width: 1, source: 'x: 1' }, message: 'see' },
    ]);
  });

  test('at the beginning of a file that is not there', async () => {
    const [problem] = await locate(folder(), [finding('r', { file: 'c.yaml', path: ['x'] })]);
    expect(problem?.place).toEqual({ file: 'c.yaml', line: 1, column: 1, width: 1, source: '' });
  });
});
