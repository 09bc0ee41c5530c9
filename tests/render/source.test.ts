import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Place } from '../../src/problem.ts';
import { paints } from '../../src/render/paint.ts';
import { sourceLines } from '../../src/render/problems/source.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { holds } from '../helpers/law.ts';

function lines(source: string, mark: { column: number; width: number }, width = 40): string[] {
  const place: Place = { file: 'a.yaml', line: 7, source, ...mark };
  const plain = paints(false);
  return sourceLines(place, { width, paints: plain, mark: plain.error });
}

describe('sourceLines', () => {
  it('underlines the marked columns', () => {
    expect(lines('  count: -3', { column: 10, width: 2 })).toEqual([
      '  7 │   count: -3',
      '    │          ^^',
    ]);
  });

  it('shows nothing for an empty line', () => {
    expect(lines('', { column: 1, width: 1 })).toEqual([]);
  });

  it('keeps the mark in place behind tabs and wide signs, and as wide as they are', () => {
    expect(lines('\t釉: 薬x', { column: 5, width: 1 })).toEqual([
      '  7 │ →   釉: 薬x',
      '    │         ^^',
    ]);
    expect(lines('a\tb', { column: 2, width: 1 })).toEqual(['  7 │ a→   b', '    │  ^^^^']);
  });

  it('counts columns in code units, as editors do', () => {
    expect(lines('🏺 x', { column: 4, width: 1 })).toEqual(['  7 │ 🏺 x', '    │    ^']);
  });

  it('shows hidden signs, and marks all of what is shown', () => {
    expect(lines('a\u202eb', { column: 2, width: 1 })).toEqual([
      '  7 │ a\\u{202E}b',
      '    │  ^^^^^^^^',
    ]);
  });

  it('marks the place after the line when something is missing there', () => {
    expect(lines('cone:', { column: 6, width: 1 })).toEqual(['  7 │ cone:', '    │      ^']);
  });

  it('cuts a long line around the mark', () => {
    const source = `${'left '.repeat(12)}MARK${' right'.repeat(12)}`;
    expect(lines(source, { column: 61, width: 4 })).toEqual([
      '  7 │ …left left MARK right right right…',
      '    │            ^^^^',
    ]);
    expect(lines(source, { column: 1, width: 4 })).toEqual([
      '  7 │ left left left left left left lef…',
      '    │ ^^^^',
    ]);
    expect(lines(source, { column: source.length - 4, width: 5 })).toEqual([
      '  7 │ …ght right right right right right',
      '    │                              ^^^^^',
    ]);
  });

  it('cuts a mark that is longer than the line', () => {
    const [line = '', mark = ''] = lines('x'.repeat(200), { column: 3, width: 150 });
    expect(displayWidth(line)).toBe(40);
    expect(line.slice(0, 12)).toBe('  7 │ xxxxxx');
    expect(mark).toBe(`    │   ${'^'.repeat(31)}`);
  });

  it('marks just the signs that are meant, wherever the line is cut', () => {
    const words = fc.array(fc.constantFrom('a', 'b', '薬', '🏺', ' ', '-'), {
      minLength: 1,
      maxLength: 80,
    });
    holds(
      fc.property(words, fc.nat(79), fc.integer({ min: 30, max: 70 }), (before, more, width) => {
        const source = `${before.join('')}MARK${'z'.repeat(more)}`;
        const column = before.join('').length + 1;
        const [line = '', mark = ''] = lines(source, { column, width: 4 }, width);
        expect(displayWidth(line.slice(0, line.indexOf('MARK')))).toBe(mark.indexOf('^'));
        expect(mark.trim()).toMatch(/^│ +\^\^\^\^$|^│ \^\^\^\^$/);
        expect(displayWidth(line)).toBeLessThanOrEqual(width);
      }),
    );
  });
});
