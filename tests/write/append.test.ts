/** A record at the end of a plain file: the quick way writes what the careful one does. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { appendToPlain } from '../../src/write/append.ts';
import { appendToAny } from '../../src/write/splice.ts';
import { layOut } from '../helpers/layout.ts';

const NEW = 'new-1:\n  x: 1\n  lines:\n    - { count: 2 }\n';

/** One line of a record, or lines that stand between records. */
const line = fc.constantFrom(
  '  x: 1',
  '  note: a # b',
  "  note: 'a: b'",
  '  # c',
  '',
  '  list: [1, 2]',
);
const between = fc.constantFrom('', '\n', '# about the next\n', '\n\n', '  # further in\n');

const plainFile = fc
  .tuple(
    fc.constantFrom('\n', '\r\n'),
    fc.constantFrom('', '# Sales\n\n', '---\n'),
    fc.array(fc.tuple(fc.uniqueArray(line, { selector: keyOf, maxLength: 4 }), between), {
      minLength: 1,
      maxLength: 6,
    }),
    fc.constantFrom('', '\n', '# end\n', '  # of the last\n'),
  )
  .map(([end, head, records, tail]) => {
    const texts = records.map(
      ([lines, gap], at) =>
        `r${String(at)}:\n  date: 1\n${lines.map((each) => `${each}\n`).join('')}${gap}`,
    );
    return `${head}${texts.join('')}${tail}`.replaceAll('\n', end);
  });

function keyOf(text: string): string {
  return text.trim().split(':')[0] ?? '';
}

test('plain files of any layout', () => {
  let quick = 0;
  fc.assert(
    fc.property(plainFile, (text) => {
      const changed = appendToPlain(text, 'new-1', NEW);
      if (changed === undefined) return;
      quick += 1;
      expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
    }),
    { numRuns: 300 },
  );
  expect(quick).toBeGreaterThan(100);
});

test('files in every layout that a person may write', () => {
  fc.assert(
    fc.property(fc.nat(1e9), fc.nat(6), (seed, size) => {
      const { text } = layOut(seed, size);
      const changed = appendToPlain(text, 'new-1', NEW);
      if (changed !== undefined) expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
    }),
    { numRuns: 300 },
  );
});

describe('what is left to the careful way', () => {
  const three = 'a:\n  x: 1\nb:\n  x: 1\nc:\n  x: 1\n';

  it('is nothing of a plain file', () => {
    expect(appendToPlain(three, 'd', 'd:\n  x: 2\n')).toBe(`${three}d:\n  x: 2\n`);
  });

  it.each([
    ['a file of two records', 'a:\n  x: 1\nb:\n  x: 1\n', 'd'],
    ['an id that is taken in other capitals', three, 'B'],
    ['a text of several lines', three.replace('x: 1', 'x: |\n    1'), 'd'],
    ['a document end', `${three}...\n`, 'd'],
    ['a key that stands twice', `${three}a:\n  x: 1\n`, 'd'],
    ['an alias', three.replace('x: 1', 'x: *a'), 'd'],
    ['a merge that is not settled', `${three}<<<<<<< ours\n`, 'd'],
    ['another record than is said', three, 'e'],
  ])('%s', (_, text, id) => {
    expect(appendToPlain(text, id, `${id === 'e' ? 'd' : id}:\n  x: 2\n`)).toBeUndefined();
  });
});
