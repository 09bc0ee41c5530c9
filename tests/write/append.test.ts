/** A record at the end of a plain file: the quick way writes what the careful one does. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { appendToSimple, appendToSound, isAppended } from '../../src/write/append-simple.ts';
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
      if (changed === undefined) return;
      expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
      expect(isAppended({ text, changed }, 'new-1', NEW)).toBe(true);
    }),
    { numRuns: 300 },
  );
});

test('files without comments behind their head', () => {
  const record = fc.uniqueArray(
    fc.constantFrom('  x: 1', '', '  list: [1, 2]', '  note: "a # b"'),
    {
      maxLength: 3,
    },
  );
  const file = fc.tuple(
    fc.constantFrom('', '# Sales\n\n', '---\n', '\n'),
    fc.array(fc.tuple(record, fc.constantFrom('', '', '\n', '  \n', '\n\n')), { maxLength: 4 }),
  );
  let simple = 0;
  fc.assert(
    fc.property(file, ([head, records]) => {
      const texts = records.map(
        ([lines, gap], at) =>
          `${gap}r${String(at)}:\n  d: 1\n${lines.map((each) => `${each}\n`).join('')}`,
      );
      const text = head + texts.join('');
      const changed = appendToSimple(text, 'new-1', NEW);
      if (changed === undefined) return;
      simple += 1;
      expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
      // Nothing before the record is read otherwise than it was.
      expect(isAppended({ text, changed }, 'new-1', NEW)).toBe(true);
    }),
    { numRuns: 300 },
  );
  expect(simple).toBeGreaterThan(80);
});

test('files that are known to be sound', () => {
  let quick = 0;
  fc.assert(
    fc.property(fc.nat(1e9), fc.nat(6), (seed, size) => {
      const { text } = layOut(seed, size);
      const changed = appendToSound(text, 'new-1', NEW);
      if (changed === undefined) return;
      quick += 1;
      expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
    }),
    { numRuns: 1500 },
  );
  expect(quick).toBeGreaterThan(50);
});

test.each([
  ['flow style from the margin', '{\na: { x: 1 },\nb: { x: 1 },\nc: { x: 1 } }\n'],
  ['flow style that ends at the margin', '{\na: { x: 1 },\nb: { x: 1 }\n}\n'],
  ['flow style on one line', '{ a: { x: 1 }, b: { x: 1 } }\n'],
  ['keys that are asked for', '? a\n: x: 1\n? b\n: x: 1\n'],
  ['an end of the document', 'a:\n  x: 1\nb:\n  x: 1\n...\n'],
  ['a text of several lines at the end', 'a:\n  x: 1\nb:\n  x: |\n    1\n'],
])('a sound file with %s is looked at closely all the same', (_, text) => {
  expect(appendToAny(text, 'new-1', NEW)).toBeDefined();
  expect(appendToSound(text, 'new-1', NEW)).toBeUndefined();
});

test.each([
  ['nothing', ''],
  ['a comment', '# Sales\n'],
  ['one record', '# Sales\n\na:\n  x: 1\n'],
  ['two records', '---\na:\n  x: 1\nb:\n  x: 1\n'],
  ['two records with a blank line between them', 'a:\n  x: 1\n\nb:\n  x: 1\n'],
  ['a blank line within the first of two', 'a:\n\n  x: 1\nb:\n  x: 1\n'],
  ['blanks between many', 'a:\n  x: 1\n\nb:\n  x: 1\n  \n\nc:\n  x: 1\n'],
])('a file of %s gets the record simply', (_, text) => {
  const changed = appendToSimple(text, 'new-1', NEW);
  expect(changed).toBeDefined();
  expect({ text: changed }).toEqual(appendToAny(text, 'new-1', NEW));
});

test.each([
  ['a comment behind the last record', 'a:\n  x: 1\n# end\n'],
  ['a blank line behind it', 'a:\n  x: 1\n\n'],
  ['no line end', 'a:\n  x: 1'],
  ['line ends of two characters', 'a:\r\n  x: 1\r\n'],
  ['a byte order mark', '\ufeffa:\n  x: 1\n'],
])('a file with %s is looked at closely', (_, text) => {
  expect(appendToSimple(text, 'new-1', NEW)).toBeUndefined();
});

describe('what is left to the careful way', () => {
  const three = 'a:\n  x: 1\nb:\n  x: 1\nc:\n  x: 1\n';

  it('is nothing of a plain file', () => {
    expect(appendToPlain(three, 'd', 'd:\n  x: 2\n')).toBe(`${three}d:\n  x: 2\n`);
  });

  it.each([
    ['two lines of comment alone', '# a\n# b\n', 'd'],
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
