/** Splices a person can follow by eye, and what is refused. */
import { describe, expect, test } from 'vitest';
import type { Path, Raw } from '../../src/read/raw.ts';
import { appendRecord } from '../../src/write/append.ts';
import { removeField, removeRecord, setField } from '../../src/write/splice.ts';

describe('append a record', () => {
  const record = { date: '2026-03-08' };

  test.each([
    ['an empty file', '', 'b:\n  date: 2026-03-08\n'],
    ['only a byte order mark', '\ufeff', '\ufeffb:\n  date: 2026-03-08\n'],
    ['only a comment', '# Sales\n', '# Sales\n\nb:\n  date: 2026-03-08\n'],
    ['only a document start', '---\n', '---\nb:\n  date: 2026-03-08\n'],
    ['no final newline', 'a:\n  x: 1', 'a:\n  x: 1\n\nb:\n  date: 2026-03-08\n'],
    ['CRLF', 'a:\r\n  x: 1\r\n', 'a:\r\n  x: 1\r\n\r\nb:\r\n  date: 2026-03-08\r\n'],
    ['records without blank lines', 'a: 1\nc: 1\n', 'a: 1\nc: 1\nb:\n  date: 2026-03-08\n'],
    [
      'a comment at the end',
      'a:\n  x: 1\n# end\n',
      'a:\n  x: 1\n# end\n\nb:\n  date: 2026-03-08\n',
    ],
    [
      'records apart by blank lines',
      'a: { x: 1 }\n\nc: { x: 1 }\n',
      'a: { x: 1 }\n\nc: { x: 1 }\n\nb:\n  date: 2026-03-08\n',
    ],
    [
      'a blank line at the end already',
      'a: { x: 1 }\n\nc: { x: 1 }\n\n',
      'a: { x: 1 }\n\nc: { x: 1 }\n\nb:\n  date: 2026-03-08\n',
    ],
    [
      'a note that keeps its blank lines',
      'a: { x: 1 }\n\nc:\n  note: |+\n    x\n',
      'a: { x: 1 }\n\nc:\n  note: |+\n    x\nb:\n  date: 2026-03-08\n',
    ],
    [
      'a document end',
      'a: { x: 1 }\n...\n# z\n',
      'a: { x: 1 }\n\nb:\n  date: 2026-03-08\n...\n# z\n',
    ],
    [
      'records off the margin',
      '  a:\n    x: 1\n',
      '  a:\n    x: 1\n\n  b:\n    date: 2026-03-08\n',
    ],
    ['one pair of braces', '{ a: { x: 1 } }\n', '{ a: { x: 1 }, b: { date: 2026-03-08 } }\n'],
    ['empty braces', '{}\n', '{ b: { date: 2026-03-08 } }\n'],
    [
      'braces over several lines',
      '{\n  a: { x: 1 } # first\n}\n',
      '{\n  a: { x: 1 }, # first\n  b: { date: 2026-03-08 }\n}\n',
    ],
    [
      'braces with a comma at the end',
      '{\n  a: { x: 1 },\n  # more to come\n}\n',
      '{\n  a: { x: 1 },\n  # more to come\n  b: { date: 2026-03-08 },\n}\n',
    ],
  ])('to %s', (_, before, after) => {
    expect(appendRecord(before, 'b', record)).toEqual({ text: after });
  });

  test('keeps quotes and bare numbers where the record has to go on one line', () => {
    const whole = { price: '38.00', cone: '04', note: 'a\nb', who: 'a, b' };
    expect(appendRecord('{ a: { x: 1 } }', 'b', whole)).toEqual({
      text: `{ a: { x: 1 }, b: { price: 38.00, cone: '04', note: "a\\nb", who: 'a, b' } }`,
    });
  });

  test.each([
    ['the id is taken', 'B: { x: 1 }\n', 'the file has a record B already'],
    ['a quoted id is taken', '"b": { x: 1 }\n', 'the file has a record b already'],
    ['the file is a list', '- a\n', 'the file is not a mapping of records'],
    ['the file is a word', 'nothing\n', 'the file is not a mapping of records'],
    ['an id stands twice', 'a: 1\n"a": 2\n', 'line 2 has a a second time'],
    ['a field stands twice', 'a:\n  - { x: 1,\n    x: 2 }\n', 'line 3 has x a second time'],
    ['there are two documents', 'a: 1\n---\nc: 1\n', 'it holds more than one YAML document'],
    ['there is an anchor', 'a: &x 1\n', 'line 1 holds an anchor (&)'],
    ['there is an alias', 'a: 1\nc: *x\n', 'line 2 holds an alias (*)'],
    ['there is a tag', 'a: !!str 1\n', 'line 1 holds a tag (!)'],
    ['there is a merge key', 'a:\n  <<: { x: 1 }\n', 'line 2 holds a merge key (<<)'],
    ['a key is a list', '[a]: 1\n', 'line 1 holds a key that is not a text'],
    [
      'the nesting has no end',
      `a: ${'['.repeat(9999)}`,
      'line 1 holds more than 64 levels of nesting',
    ],
  ])('is refused where %s', (_, before, refused) => {
    expect(appendRecord(before, 'b', record)).toEqual({ refused });
  });
});

describe('set a field', () => {
  test.each([
    ['a scalar', 'a:\n  price: 1 # each\n', ['a', 'price'], '2.50', 'a:\n  price: 2.50 # each\n'],
    ['single quotes', "a: { cone: '04' }\n", ['a', 'cone'], '6', "a: { cone: '6' }\n"],
    ['double quotes', 'a:\n  cone: "04"\n', ['a', 'cone'], '6', 'a:\n  cone: "6"\n'],
    ['a text like a number', 'a:\n  cone: x\n', ['a', 'cone'], '04', "a:\n  cone: '04'\n"],
    ['nothing yet', 'a:\n  cone: # later\n', ['a', 'cone'], 'x', 'a:\n  cone: x # later\n'],
    ['nothing in braces', 'a: { cone: , x }\n', ['a', 'x'], 'y', 'a: { cone: , x: y }\n'],
    [
      'a text over several lines',
      'a:\n  note: one\n    two # c\n  x: 1\n',
      ['a', 'note'],
      'n\nm',
      'a:\n  note: "n\\nm" # c\n  x: 1\n',
    ],
    [
      'a literal block',
      'a:\r\n  note: | # why\r\n    one\r\n    two\r\n  x: 1\r\n',
      ['a', 'note'],
      'n\n\nm',
      'a:\r\n  note: |- # why\r\n    n\r\n\r\n    m\r\n  x: 1\r\n',
    ],
    [
      'a block by a word',
      'a:\n  note: >+\n    one\n\n  x: 1\n',
      ['a', 'note'],
      'n',
      'a:\n  note: n\n  x: 1\n',
    ],
    ['a new field', 'a:\n    x: 1\nb:\n', ['a', 'price'], '2', 'a:\n    x: 1\n    price: 2\nb:\n'],
    ['a new field in braces', 'a: {x: 1}\n', ['a', 'price'], '2', 'a: {x: 1, price: 2}\n'],
    ['a record without fields', 'a:\n', ['a', 'price'], '2', 'a: { price: 2 }\n'],
    [
      'an empty mapping in braces',
      'a: { m: , x: 1 }\n',
      ['a', 'm', 'before'],
      '2',
      'a: { m: { before: 2 }, x: 1 }\n',
    ],
    [
      'mappings that are missing',
      'a:\n  x: 1\n',
      ['a', 'meter', 'before'],
      '7',
      'a:\n  x: 1\n  meter: { before: 7 }\n',
    ],
    [
      'a list item',
      'a:\n  lines:\n  - count: 1 # one\n    x: 1\n  - count: 2\n',
      ['a', 'lines', 0, 'count'],
      '3',
      'a:\n  lines:\n  - count: 3 # one\n    x: 1\n  - count: 2\n',
    ],
    [
      'a new list item',
      'a:\n  lines:\n  -  x\n  # last\n  y: 1\n',
      ['a', 'lines', 1],
      { count: '1' },
      'a:\n  lines:\n  -  x\n  - { count: 1 }\n  # last\n  y: 1\n',
    ],
    [
      'a new field after the comment on the last',
      'a:\n  x: 1\n    # about x\n# about b\nb:\n',
      ['a', 'y'],
      'n\nm',
      'a:\n  x: 1\n    # about x\n  y: |-\n    n\n    m\n# about b\nb:\n',
    ],
    [
      'a note that a comment below would run into',
      'a:\n  x: |\n        o\n      # about x\n',
      ['a', 'x'],
      'n\nm',
      'a:\n  x: |-\n        n\n        m\n      # about x\n',
    ],
    ['a setting', 'name: x\nbasis: cash\n', ['basis'], 'accrual', 'name: x\nbasis: accrual\n'],
    ['a new setting', 'name: x\n', ['basis'], 'cash', 'name: x\nbasis: cash\n'],
  ] as [string, string, Path, Raw, string][])('%s', (_, ...[before, path, value, after]) => {
    expect(setField(before, path, value)).toEqual({ text: after });
  });

  test.each([
    ['the record is missing', 'a: {}\n', ['b', 'x'], 'there is no record b in the file'],
    [
      'a list would have a hole',
      'a: { l: [1] }\n',
      ['a', 'l', 2],
      'the list has no place for a l 3',
    ],
    ['a new list would', 'a: {}\n', ['a', 'l', 1], 'the list has no place for a l 2'],
    [
      'a word stands in the way',
      'a: { x: 1 }\n',
      ['a', 'x', 'y'],
      'a x holds no y and has another value',
    ],
    [
      'a list stands in the way',
      'a: { x: [] }\n',
      ['a', 'x', 'y'],
      'a x holds no y and has another value',
    ],
    ['a key has no colon', 'a:\n  ? x\n', ['a', 'x'], 'a x is after a ? without a colon'],
  ] as [string, string, Path, string][])('is refused where %s', (_, ...[before, path, refused]) => {
    expect(setField(before, path, '1')).toEqual({ refused });
  });
});

describe('remove a field', () => {
  test.each([
    [
      'with the comment above and behind',
      'a:\n  x: 1\n  # why\n  y: 2 # so\n  z: 3\n',
      ['a', 'y'],
      'a:\n  x: 1\n  z: 3\n',
    ],
    ['the first on a dash', 'a:\n- x: 1\n  y: 2\n', ['a', 0, 'x'], 'a:\n- y: 2\n'],
    [
      'the first on a dash, with a comment under it',
      'a:\n- x: 1\n  # about y\n  y: 2\n',
      ['a', 0, 'x'],
      'a:\n-\n  # about y\n  y: 2\n',
    ],
    [
      'and the blank lines that would become part of a note',
      'a:\n  note: |+\n    n\n  x: 1\n\n  y: 1\n',
      ['a', 'x'],
      'a:\n  note: |+\n    n\n  y: 1\n',
    ],
    [
      'and the comments further in that would',
      'a:\n  note: |\n    n\n  x: 1\n    # about x\n  y: 1\n',
      ['a', 'x'],
      'a:\n  note: |\n    n\n  y: 1\n',
    ],
    ['the only one', 'a:\n  x: 1\nb:\n', ['a', 'x'], 'a: {}\nb:\n'],
    ['the only item', 'a:\n  l:\n  - 1\n', ['a', 'l', 0], 'a:\n  l: []\n'],
    ['in braces', 'a: { x: 1, y: 2 }\n', ['a', 'x'], 'a: { y: 2 }\n'],
    ['the last in braces', 'a: { x: 1, y: 2 }\n', ['a', 'y'], 'a: { x: 1 }\n'],
    ['the last with a comma', 'a: [ x, y, ]\n', ['a', 1], 'a: [ x, ]\n'],
    [
      'a line in braces',
      'a: {\n  x: 1, # x\n  y: 2 # y\n  }\n',
      ['a', 'y'],
      'a: {\n  x: 1 # x\n  }\n',
    ],
  ] as [string, string, Path, string][])('%s', (_, ...[before, path, after]) => {
    expect(removeField(before, path)).toEqual({ text: after });
  });

  test('is refused where it is missing', () => {
    expect(removeField('a: { x: 1 }\n', ['a', 'y'])).toEqual({
      refused: 'there is no a y in the file',
    });
  });
});

describe('remove a record', () => {
  const file =
    '# Sales of the spring fairs\n\na:\n  x: 1\n\n# broke on the way\nb:\n  x: 1\n  # see a\n\n# good one\nc:\n  x: 1\n';

  test.each([
    ['b', file.replace('# broke on the way\nb:\n  x: 1\n  # see a\n\n', '')],
    ['a', file.replace('a:\n  x: 1\n\n', '')],
    ['c', file.replace('\n# good one\nc:\n  x: 1\n', '')],
  ])('%s with its own comments and blank lines', (id, after) => {
    expect(removeRecord(file, id)).toEqual({ text: after });
  });

  test("leaves the comment that begins on the file's first line", () => {
    const text = '# Sales of the spring fairs\na:\n  x: 1\nb:\n  x: 1\n';
    expect(removeRecord(text, 'a')).toEqual({ text: '# Sales of the spring fairs\nb:\n  x: 1\n' });
  });

  test('leaves the blank lines that a note above keeps', () => {
    const text = 'a:\n  note: |+\n    x\n\n\nb:\n  x: 1\n\nc: {}\n';
    expect(removeRecord(text, 'b')).toEqual({ text: 'a:\n  note: |+\n    x\n\n\nc: {}\n' });
  });

  test('leaves empty braces, or nothing, of the only one', () => {
    expect(removeRecord('{ a: { x: 1 } }\n', 'a')).toEqual({ text: '{}\n' });
    expect(removeRecord('a:\n  x: 1\n', 'a')).toEqual({ text: '' });
  });

  test('is refused where it is missing', () => {
    expect(removeRecord(file, 'B')).toEqual({ refused: 'there is no record B in the file' });
  });
});
