import { describe, expect, test } from 'vitest';
import { fast, plainly } from './support/readers.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { scan } from '../../src/read/yaml/scan.ts';

function read(text: string): unknown {
  const scanned = fast(text);
  return scanned && JSON.parse(JSON.stringify(scanned.root));
}

function odd(text: string): boolean | undefined {
  return fast(text)?.odd;
}

describe('takes', () => {
  test('a month of sales as `add` writes it', () => {
    const text = `# March
s260308kt:
  date: 2026-03-08
  buyer: "A. Potter"
  lines:
    - { product: mug, count: 2, price: 38.00 }
    - {product: bowl,count: 1,price: 52}
    - product: vase # the tall one
      count: 1

      price: 120.00
  paid: no
s260309ab:
  lines:
  - product: 'tea pot'
`;
    expect(read(text)).toEqual({
      s260308kt: {
        date: '2026-03-08',
        buyer: 'A. Potter',
        lines: [
          { product: 'mug', count: '2', price: '38.00' },
          { product: 'bowl', count: '1', price: '52' },
          { product: 'vase', count: '1', price: '120.00' },
        ],
        paid: 'no',
      },
      s260309ab: { lines: [{ product: 'tea pot' }] },
    });
  });

  test.each([
    ['nothing', '', {}],
    ['only comments', '# none yet\n\n  # nor here\n', {}],
    ['no line feed at the end', 'a: 1', { a: '1' }],
    ['CRLF', 'a:\r\n  b: 1 # c\r\n\r\n  d: "e"\r\n', { a: { b: '1', d: 'e' } }],
    ['a line ---', '--- # start\na: 1\n', { a: '1' }],
    ['blanks at the ends of lines', 'a: 1  \nb:   \n  c: x \n', { a: '1', b: { c: 'x' } }],
    ['an empty value', 'a:\n  b:\n  c: 1\n', { a: { b: '', c: '1' } }],
    ['a last empty value', 'a:\n  b:', { a: { b: '' } }],
    [
      'signs inside a value',
      'a: it\'s 16:00-21:00, a#b, 5 "x" [y] {z}\n',
      {
        a: 'it\'s 16:00-21:00, a#b, 5 "x" [y] {z}',
      },
    ],
    ['a comment behind a value', 'a: b # c: d\n', { a: 'b' }],
    ['values that begin with a sign', 'a: -5\nb: ?x\nc: :y\n', { a: '-5', b: '?x', c: ':y' }],
    ['quotes with signs inside', 'a: "x: y # {z"\nb: \'"\'\n', { a: 'x: y # {z', b: '"' }],
    [
      'empty quotes and brackets',
      'a: \'\'\nb: ""\nc: {}\nd: [ ]\n',
      { a: '', b: '', c: {}, d: [] },
    ],
    [
      'brackets in brackets',
      'a: { b: [c, {d: e}], f: "g, h" }\n',
      { a: { b: ['c', { d: 'e' }], f: 'g, h' } },
    ],
    ['other letters', 'a: 1222 °C, half cone 03½ “so”\n', { a: '1222 °C, half cone 03½ “so”' }],
    ['lists in an entry', 'a:\n  - b:\n    - c\n    d: e\n', { a: [{ b: ['c'], d: 'e' }] }],
    ['lists of texts', 'a:\n  - x y\n  - "z"\n  -   w\n', { a: ['x y', 'z', 'w'] }],
    [
      'deep indentation and back',
      'a:\n      b:\n         c: 1\n      d: 2\ne: 3\n',
      { a: { b: { c: '1' }, d: '2' }, e: '3' },
    ],
    [
      'words that objects have',
      'constructor: 1\ntoString:\n  valueOf: 2\n',
      { constructor: '1', toString: { valueOf: '2' } },
    ],
  ])('%s', (_, text, content) => {
    expect(read(text)).toEqual(content);
  });

  test('records in the order of the file', () => {
    expect(Object.keys(fast('zeta: 1\nalpha: 2\nmid: 3\n')?.root ?? {})).toEqual([
      'zeta',
      'alpha',
      'mid',
    ]);
  });

  test('no key that is not in the file', () => {
    const { root } = fast('a:\n  b: 1\n')!;
    for (const map of [root, root['a'] as RawMap])
      for (const word of ['toString', 'constructor', '__proto__']) expect(word in map).toBe(false);
  });
});

describe('gives up on', () => {
  test.each([
    ['anchors', 'a: &x 1\n'],
    ['aliases', 'a: *x\n'],
    ['tags', 'a: !x 1\n'],
    ['merge keys', 'a:\n  <<: {b: 1}\n'],
    ['block scalars', 'a: |\n  x\n'],
    ['folded block scalars', 'a: >\n  x\n'],
    ['plain scalars over lines', 'a: x\n  y\n'],
    ['plain scalars below their key', 'a:\n  x y\n'],
    ['quoted scalars over lines', 'a: "x\n  y"\n'],
    ['brackets over lines', 'a: [x,\n  y]\n'],
    ['tabs as indentation', 'a:\n\tb: 1\n'],
    ['tabs behind a colon', 'a:\t1\n'],
    ['tabs in a value', 'a: b\tc\n'],
    ['equal ids', 'a: 1\na: 2\n'],
    ['equal keys', 'a:\n  b: 1\n  b: 2\n'],
    ['equal keys with an empty value', 'a:\n  b:\n  b: 2\n'],
    ['equal keys in brackets', 'a: {b: 1, b: 2}\n'],
    ['question marks', '? a\n: b\n'],
    ['quoted keys', '"a": 1\n'],
    ['keys with blanks', 'a b: 1\n'],
    ['keys with a blank behind', 'a : 1\n'],
    ['numbers as keys', 'a:\n  2026: 1\n'],
    ['__proto__', 'a:\n  __proto__: 1\n'],
    ['a colon without a blank', 'a:\n  b:1\n'],
    ['a colon and a blank in a value', 'a: b: c\n'],
    ['a colon at the end of a value', 'a: b:\n'],
    ['a list at the root', '- a\n'],
    ['a text at the root', 'a\n'],
    ['brackets at the root', '{a: 1}\n'],
    ['an indented root', '  a: 1\n'],
    ['a second document', 'a: 1\n---\nb: 2\n'],
    ['the end of a document', 'a: 1\n...\n'],
    ['directives', '%YAML 1.2\n---\na: 1\n'],
    ['lists in one line', 'a:\n  - - b\n'],
    ['a dash alone', 'a:\n  -\n    b: 1\n'],
    ['a list on the line of its key', 'a: - b\n'],
    ['a list among fields', 'a:\n  b: 1\n  - c\n'],
    ['fields among a list', 'a:\n  - b\n  c: 1\n'],
    ['a line further in', 'a:\n  b: 1\n   c: 2\n'],
    ['a line further out', 'a:\n    b: 1\n  c: 2\n'],
    ['an entry further out', 'a:\n    - b\n  - c\n'],
    ['text behind a quote', 'a: "b" c\n'],
    ['a comment right behind a quote', 'a: "b"#c\n'],
    ['a quote that is not closed', 'a: "b\n'],
    ['escapes', 'a: "b\\n"\n'],
    ['doubled quotes', "a: 'it''s'\n"],
    ['brackets that are not closed', 'a: [b\n'],
    ['brackets that do not match', 'a: [b}\n'],
    ['text behind brackets', 'a: [b] c\n'],
    ['commas too many', 'a: [b,, c]\n'],
    ['a last comma', 'a: [b, ]\n'],
    ['a first comma', 'a: [, b]\n'],
    ['a field without a value in brackets', 'a: {b}\n'],
    ['an empty value in brackets', 'a: {b: , c: 1}\n'],
    ['a colon without a blank in brackets', 'a: {b:1}\n'],
    ['a pair in a list', 'a: [b: c]\n'],
    ['a comment in brackets', 'a: [b, #c]\n'],
    ['values that begin with a sign', 'a: @b\n'],
    ['values that begin with a closing bracket', 'a: ]\n'],
    ['values that begin with a dash in brackets', 'a: [- ]\n'],
    ['control characters in a value', 'a: b\x07c\n'],
    ['control characters in quotes', 'a: "b\x1bc"\n'],
    ['control characters in a comment', 'a: 1 # \0\n'],
    ['line separators', 'a: b\u2028c\n'],
    ['a next line', 'a: b\u0085c\n'],
    ['byte order marks', '\ufeffa: 1\n'],
    ['a return alone', 'a: 1\rb: 2\n'],
    ['a return alone at the end', 'a: 1\r'],
    ['a non-breaking blank as indentation', 'a:\n\u00a0 b: 1\n'],
    ['very long keys', `${'k'.repeat(2000)}: 1\n`],
    ['deep nesting', Array.from({ length: 70 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
    ['deep nesting in brackets', `a: ${'['.repeat(70)}${']'.repeat(70)}\n`],
  ])('%s', (_, text) => {
    expect(fast(text)).toBeUndefined();
  });

  test('nothing that came before: a file that is taken later is not touched by it', () => {
    expect(fast('a: {b: [c')).toBeUndefined();
    expect(read('a: {b: [c]}\n')).toEqual({ a: { b: ['c'] } });
  });
});

describe('odd', () => {
  // A number in a form that the schema does not have fails there, quoted or not.
  test.each([
    ['a number under a key of numbers', 'a:\n  count: 12\n  price: -4.50\n', false],
    ['a number under another key', 'a:\n  invoice: 0044\n', true],
    ['an exponent under another key', 'a:\n  lot: 12E5\n', true],
    ['a number in a list of texts', 'a:\n  marks: [x, 4]\n', true],
    ['a number in a list under a key of numbers', 'a:\n  made: [3, 4]\n', false],
    ['a number below a record under a key of numbers', 'a:\n  made:\n    - lot: 7\n', true],
    ['the key before counts no more', 'a:\n  made: 3\n  lot: 7\n', true],
    ['a truth', 'a:\n  gone: true\n', true],
    ['a truth under a key of numbers', 'a:\n  count: true\n', true],
    ['hexadecimal under a key of numbers', 'a:\n  count: 0x1f\n', false],
    ['infinity under a key of numbers', 'a:\n  count: .inf\n', true],
    ['nothing', 'a:\n  note: ~\n', true],
    ['an empty value', 'a:\n  note:\n', true],
    ['an empty text', "a:\n  note: ''\n", false],
    ['quoted numbers', 'a:\n  cone: "04"\n', false],
    [
      'dates, times, quantities, cones, percentages',
      'a:\n  b: 2026-03-08\n  c: 06:30\n  d: 12.5 kg\n  e: 5½\n  f: 40%\n',
      false,
    ],
    ['words that begin like truths', 'a:\n  b: no\n  c: nullable\n  d: trues\n  e: -x\n', false],
    ['a file without scalars', '# none\n', false],
  ])('%s: %#', (_, text, expected) => {
    expect(odd(text)).toBe(expected);
  });
});

test('marks tell unquoted scalars from quoted ones', () => {
  const text = 'a: 04\nb: "04"\nc:\nd: [x, \'y\']\ne: ""\n';
  const scanned = scan(text, { numberKeys: new Set(), marks: true });
  expect(plainly(scanned!.root)).toEqual([
    ['a', '=04'],
    ['b', '"04'],
    ['c', '='],
    ['d', ['=x', '"y']],
    ['e', '"'],
  ]);
});
