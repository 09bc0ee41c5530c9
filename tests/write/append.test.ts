/** A record at the end of a file: one that is plain gets it where any other does, without a close look at all of it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { scan } from '../../src/read/yaml/scan.ts';
import { appendRecord } from '../../src/write/append.ts';
import { holds } from '../helpers/law.ts';
import { secondReading } from '../helpers/second-reader.ts';

const NEW = { price: '1', lines: [{ count: '2' }] };
const RECORD = 'price: 1\nlines: [{ count: 2 }]\n';

function isPlain(text: string): boolean {
  return scan(text, { numberKeys: NUMBER_KEYS }) !== undefined;
}

/** What comes to a text that nothing is taken from. */
function added(text: string): string {
  const changed = appendRecord(text, 'new-1', NEW);
  if ('refused' in changed) throw new Error(changed.refused);
  expect(changed.text.slice(0, text.length)).toBe(text);
  return changed.text.slice(text.length);
}

/** The same text, with a record at its beginning that the fast reader leaves to the other one. */
function lookedAtClosely(text: string): string {
  const end = text.includes('\r') ? '\r\n' : '\n';
  const head = /^(?:#.*\r?\n|---\r?\n|\r?\n)*/.exec(text)?.[0] ?? '';
  const closely = `${head}odd:${end}  note: |${end}    1${end}${text.slice(head.length)}`;
  expect(isPlain(closely)).toBe(false);
  return closely;
}

/** One line of a record, or lines that stand between records. */
const line = fc.constantFrom(
  '  x: 1',
  '  note: a # b',
  "  note: 'a: b'",
  '  r1: 2',
  '  # r1: c',
  '',
  '  list: [1, 2]',
  '  items:\n  - r0',
);
const between = fc.constantFrom(
  '',
  '',
  '\n',
  '  \n',
  '# about the next\n',
  '\n\n',
  '  # further in\n',
);

const plainFile = fc
  .tuple(
    fc.constantFrom('\n', '\r\n'),
    fc.constantFrom('', '# Sales\n\n', '---\n', '\n'),
    fc.array(fc.tuple(fc.uniqueArray(line, { selector: keyOf, maxLength: 4 }), between), {
      minLength: 2,
      maxLength: 6,
    }),
    fc.constantFrom('', '', '\n', '# end\n', '# end\n\n', '  # of the last\n', '  y: 1'),
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

test('a plain file of any layout gets it as one that is looked at closely', () => {
  let plain = 0;
  holds(
    fc.property(plainFile, (text) => {
      if (!isPlain(text)) return;
      plain += 1;
      const more = added(text);
      expect(more).toBe(added(lookedAtClosely(text)));
      const records = secondReading(text) as Map<string, unknown>;
      const whole = new Map([...records, ['new-1', secondReading(RECORD)]]);
      expect(secondReading(text + more)).toEqual(whole);
    }),
    300,
  );
  expect(plain).toBeGreaterThan(100);
});

test.each([
  ['nothing', '', ''],
  ['a comment', '# Sales\n', '\n'],
  ['two lines of comment', '# a\n# b\n', '\n'],
  ['one record', '# Sales\n\na:\n  x: 1\n', '\n'],
  ['two records', '---\na:\n  x: 1\nb:\n  x: 1\n', ''],
  ['two records with a blank line between them', 'a:\n  x: 1\n\nb:\n  x: 1\n', '\n'],
  ['a blank line within the first of two', 'a:\n\n  x: 1\nb:\n  x: 1\n', ''],
  ['blanks between many', 'a:\n  x: 1\n\nb:\n  x: 1\n  \n\nc:\n  x: 1\n', '\n'],
  ['ids at other places too', 'a:\n  b: 1\nb:\n  a: 1\n  # a:\n  note: "b:"\n', ''],
])('a file of %s is plain', (_, text, gap) => {
  expect(isPlain(text)).toBe(true);
  expect(added(text)).toBe(`${gap}new-1:\n  price: 1\n  lines:\n    - { count: 2 }\n`);
});

test.each([
  ['flow style from the margin', '{\na: { x: 1 },\nb: { x: 1 },\nc: { x: 1 } }\n'],
  ['flow style that ends at the margin', '{\na: { x: 1 },\nb: { x: 1 }\n}\n'],
  ['flow style on one line', '{ a: { x: 1 }, b: { x: 1 } }\n'],
  ['keys that are asked for', '? a\n: x: 1\n? b\n: x: 1\n'],
  ['an end of the document', 'a:\n  x: 1\nb:\n  x: 1\n...\n'],
  ['a text of several lines at the end', 'a:\n  x: 1\nb:\n  x: |\n    1\n'],
  ['a byte order mark', '\ufeffa:\n  x: 1\n'],
  ['records off the margin', '  a:\n    x: 1\n  b:\n    x: 1\n'],
])('a file with %s gets it too', (_, text) => {
  expect(isPlain(text)).toBe(false);
  const changed = appendRecord(text, 'new-1', NEW);
  const read = 'text' in changed ? secondReading(changed.text) : undefined;
  const before = secondReading(text) as Map<string, unknown>;
  expect([...(read as Map<string, unknown>).keys()]).toEqual([...before.keys(), 'new-1']);
});

test('of a long plain file an id is taken wherever it stands', () => {
  const three = 'a:\n  x: 1\nb:\n  x: 1\nc:\n  x: 1\nd:\n  x: 1\n';
  expect(appendRecord(three, 'A', NEW)).toEqual({ refused: 'the file has a record a already' });
  expect(appendRecord(three, 'x', NEW)).toEqual({
    text: `${three}x:\n  price: 1\n  lines:\n    - { count: 2 }\n`,
  });
});
