import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packFiles, unpackFiles, type KnownContent } from '../../src/read/kept/packed.ts';
import type { Raw } from '../../src/read/raw.ts';
import { plainly } from './support/readers.ts';
import { holds } from '../helpers/law.ts';

function known(file: string, root: Record<string, Raw>): KnownContent {
  return { file, root };
}

describe('packed files', () => {
  test('come back with their contents', () => {
    const files = [
      known('sales/1.yaml', {
        s1: { date: '2026-03-08', lines: [{ a: '1' }, { a: '2' }], note: '½ é 🏺\n"' },
      }),
      known('sales/2.yaml', {}),
      known('sales/3.yaml', { s2: '', s3: [], s4: {}, s5: [[''], 'x'] }),
    ];
    const unpacked = unpackFiles(packFiles(files));
    for (const { file, root } of files) {
      expect(plainly(unpacked.contentOf(file))).toEqual(plainly(root));
    }
  });

  test('take whole words, whatever their texts', () => {
    for (const text of ['', 'a', 'ab', 'abc', 'abcd', 'é'])
      expect(packFiles([known('a', { b: text })]).length % 4).toBe(0);
  });

  test('keep keys that objects have', () => {
    const root = JSON.parse(
      '{"__proto__": {"constructor": "x", "__proto__": "y"}, "toString": "z"}',
    ) as Record<string, Raw>;
    const { contentOf } = unpackFiles(packFiles([known('a', root)]));
    expect(plainly(contentOf('a'))).toEqual([
      [
        '__proto__',
        [
          ['constructor', 'x'],
          ['__proto__', 'y'],
        ],
      ],
      ['toString', 'z'],
    ]);
    expect('valueOf' in contentOf('a')).toBe(false);
  });

  test('of any content come back', () => {
    const { tree } = fc.letrec<{ tree: Raw }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 5 },
        fc.string({ unit: 'binary' }),
        fc.array(tie('tree'), { maxLength: 4 }),
        fc.dictionary(
          fc.string({ minLength: 1 }).filter((key) => !key.includes('\n')),
          tie('tree'),
          { maxKeys: 4, noNullPrototype: false },
        ),
      ),
    }));
    const roots = fc.array(fc.dictionary(fc.string(), tree, { maxKeys: 4 }), { maxLength: 4 });
    const same = fc.property(roots, (contents) => {
      const files = contents.map((root, index) => known(`${index}.yaml`, root));
      const { contentOf } = unpackFiles(packFiles(files));
      for (const { file, root } of files) {
        expect(plainly(contentOf(file))).toEqual(plainly(root));
      }
    });
    holds(same);
  });

  test('that are none throw', () => {
    expect(() => unpackFiles(new Uint8Array(0))).toThrow();
    expect(() => unpackFiles(new Uint8Array([9, 0, 0, 0, 1, 2, 3, 4]))).toThrow();
  });
});
