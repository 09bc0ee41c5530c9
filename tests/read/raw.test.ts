import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSameRaw, type Raw } from '../../src/read/raw.ts';

const key = fc.constantFrom('a', 'b', '0', 'length', 'toString');
const { raw } = fc.letrec<{ raw: Raw }>((tie) => ({
  raw: fc.oneof(
    { maxDepth: 3 },
    fc.constantFrom('', '1', '01', 'a'),
    fc.array(tie('raw'), { maxLength: 3 }),
    fc.dictionary(key, tie('raw'), { maxKeys: 3 }),
  ),
}));

describe('isSameRaw', () => {
  it('holds for whatever JSON writes alike, and for nothing else', () => {
    fc.assert(
      fc.property(raw, raw, (a, b) => {
        expect(isSameRaw(a, b)).toBe(JSON.stringify(a) === JSON.stringify(b));
        expect(isSameRaw(a, structuredClone(a))).toBe(true);
      }),
    );
  });

  it.each<[Raw | undefined, Raw | undefined, boolean]>([
    [undefined, undefined, true],
    ['a', undefined, false],
    [[], {}, false],
    [['1'], { 0: '1' }, false],
    [{ a: '1', b: '2' }, { b: '2', a: '1' }, false],
    [{ a: ['1', { b: '2' }] }, { a: ['1', { b: '3' }] }, false],
  ])('%j and %j: %s', (a, b, expected) => {
    expect(isSameRaw(a, b)).toBe(expected);
  });
});
