import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { visible } from '../../src/render/escape.ts';
import { displayWidth, pad, wrap } from '../../src/render/terminal/width.ts';
import { anyText } from './arbitrary.ts';
import { holds } from '../helpers/law.ts';

describe('displayWidth', () => {
  // Widths as a terminal reported them (cursor position after printing), and Annex 11 of Unicode.
  it.each([
    ['', 0],
    ['plain', 5],
    ['½ × °é', 6],
    ['釉薬', 4],
    ['e\u0301', 1],
    ['😀', 2],
    ['⌚', 2],
    ['❤', 1],
    ['🇯🇵', 2],
    ['한', 2],
    ['\u1112\u1161\u11ab', 2],
    ['कि', 2],
    ['ｱ', 1],
    ['Ａ', 2],
    ['…▏█─', 4],
    ['©', 1],
    ['𠮷', 2],
    ['👍🏽', 4],
  ])('%s takes %i cells', (text, width) => {
    expect(displayWidth(text)).toBe(width);
  });
});

describe('pad', () => {
  it('fills up by cells, not by signs', () => {
    expect(pad('釉', 4, false)).toBe('釉  ');
    expect(pad('釉', 4, true)).toBe('  釉');
    expect(pad('too long', 4, true)).toBe('too long');
  });
});

describe('wrap', () => {
  it('breaks at spaces', () => {
    expect(wrap('wood ash glaze over white slip', { width: 12 })).toEqual([
      'wood ash',
      'glaze over',
      'white slip',
    ]);
  });

  it('fills a line to the last cell', () => {
    expect(wrap('abc def', { width: 7 })).toEqual(['abc def']);
    expect(wrap('abc def', { width: 6 })).toEqual(['abc', 'def']);
  });

  it('gives the first line a room of its own', () => {
    expect(wrap('one two three four', { first: 4, width: 9 })).toEqual([
      'one',
      'two three',
      'four',
    ]);
  });

  it('breaks a word that is too long, after a hyphen when there is one late enough', () => {
    expect(wrap('stoneware-buff-with-grog', { width: 10 })).toEqual([
      'stoneware-',
      'buff-with-',
      'grog',
    ]);
    expect(wrap('abcdefghij', { width: 4 })).toEqual(['abcd', 'efgh', 'ij']);
    expect(wrap('a-bcdefghij', { width: 8 })).toEqual(['a-bcdefg', 'hij']);
  });

  it('keeps marks with their letter and wide signs whole', () => {
    expect(wrap('e\u0301e\u0301e\u0301', { width: 2 })).toEqual(['e\u0301e\u0301', 'e\u0301']);
    expect(wrap('釉薬釉', { width: 3 })).toEqual(['釉', '薬', '釉']);
  });

  it('keeps every sign but spaces, in order, on lines that fit', () => {
    holds(
      fc.property(anyText, fc.integer({ min: 2, max: 30 }), (text, width) => {
        const shown = visible(text);
        const lines = wrap(shown, { width });
        const bare = (part: string): string => part.replace(/\s/gu, '');
        expect(lines.map(bare).join('')).toBe(bare(shown));
        expect(Math.max(...lines.map(displayWidth))).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('gives one empty line for nothing', () => {
    expect(wrap('', { width: 5 })).toEqual(['']);
    expect(wrap('   ', { width: 2 })).toEqual(['']);
  });
});
