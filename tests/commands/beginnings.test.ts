import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beginnings } from '../../src/commands/completing/answers.ts';
import { holds } from '../helpers/law.ts';

function answers(...words: string[]): { word: string; about: string }[] {
  return words.map((word) => ({ word, about: `about ${word}` }));
}

const ids = fc.uniqueArray(fc.stringMatching(/^[a-c][0-3]{1,5}$/), { minLength: 1, maxLength: 80 });

describe('beginnings', () => {
  it('are the longest that are few enough, and say how many begin so', () => {
    const many = answers('s2601', 's2602', 's2511', 's2512', 's2513', 'mug');
    expect(beginnings(many, 3)).toEqual([
      { word: 's260', about: '2 that begin so' },
      { word: 's251', about: '3 that begin so' },
      { word: 'mug', about: 'about mug' },
    ]);
  });

  it('leave few answers whole', () => {
    const few = answers('mug', 'mug-tall', 'bowl');
    expect(beginnings(few, 3)).toEqual(few);
  });

  it('go on past what all have in common', () => {
    expect(beginnings(answers('s261', 's262', 's263', 's271'), 2).map(({ word }) => word)).toEqual([
      's26',
      's271',
    ]);
  });

  it('are there where there is nothing', () => {
    expect(beginnings([], 3)).toEqual([]);
  });

  it('always begin what they stand for, and leave nothing out', () => {
    holds(
      fc.property(ids, fc.integer({ min: 6, max: 40 }), (words, most) => {
        const found = beginnings(answers(...words), most).map(({ word }) => word);
        expect(found.length).toBeLessThanOrEqual(most);
        expect(new Set(found).size).toBe(found.length);
        for (const word of words) expect(found.some((start) => word.startsWith(start))).toBe(true);
        for (const start of found) expect(words.some((word) => word.startsWith(start))).toBe(true);
      }),
    );
  });
});
