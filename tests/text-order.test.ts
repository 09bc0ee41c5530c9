import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareTexts } from '../src/text-order.ts';
import { holds } from './helpers/law.ts';

describe('the order of texts', () => {
  it('is that of the code units, and no language’s', () => {
    expect(['b', 'ä', 'a', 'Z', '10', '9', 'ａ'].sort(compareTexts)).toEqual([
      ...['10', '9', 'Z', 'a', 'b', 'ä', 'ａ'],
    ]);
  });

  it('is that of sort by itself, the same both ways round', () => {
    holds(
      fc.property(fc.array(fc.string({ unit: 'binary' })), (texts) => {
        expect(texts.toSorted(compareTexts)).toEqual(texts.toSorted());
      }),
    );
    holds(
      fc.property(fc.string(), fc.string(), (one, other) => {
        expect(compareTexts(one, other) + compareTexts(other, one)).toBe(0);
        expect(compareTexts(one, other) === 0).toBe(one === other);
      }),
    );
  });
});
