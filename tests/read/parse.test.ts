import { describe, expect, test } from 'vitest';
import type { Place } from '../../src/problem.ts';
import { parseText } from '../../src/read/yaml/parse.ts';
import { full, plainly } from './support/readers.ts';

function read(text: string): unknown {
  const { root, findings } = full(text);
  expect(findings).toEqual([]);
  return JSON.parse(JSON.stringify(root));
}

/** Findings as `line:column+width rule message`. */
function faults(text: string, file = 'sales.yaml'): string[] {
  const { findings } = parseText({ file, text }, { numberKeys: new Set() });
  return findings.map(({ rule, at, message }) => {
    const { line, column, width } = at as Place;
    return `${line}:${column}+${width} ${rule} ${message}`;
  });
}

describe('reads what the fast reader leaves to it', () => {
  test.each([
    ['block scalars', 'a: |\n  x\n\n  y\nb: >-\n  z\n  w\n', { a: 'x\n\ny\n', b: 'z w' }],
    ['blanks at the end of a block scalar', 'a: |\n  x\n   \n', { a: 'x\n \n' }],
    ['plain scalars over lines', 'a: one\n  two\n\n  three\n', { a: 'one two\nthree' }],
    ['quoted scalars over lines', 'a: "one\n  two"\n', { a: 'one two' }],
    ['escapes', 'a: "\\u00bd \\"x\\" \\n"\nb: \'it\'\'s\'\n', { a: '½ "x" \n', b: "it's" }],
    ['brackets over lines', 'a: [b,\n  {c: d,\n   e: f}]\n', { a: ['b', { c: 'd', e: 'f' }] }],
    ['quoted keys', '"a": 1\n\'b\':\n  "c d": 2\n', { a: '1', b: { 'c d': '2' } }],
    ['an indented file', '  a: 1\n  b: 2\n', { a: '1', b: '2' }],
    ['a file in brackets', '{a: {b: 1}, c: 2}\n', { a: { b: '1' }, c: '2' }],
    ['lists in lists', 'a:\n  - - b\n    - c\n', { a: [['b', 'c']] }],
    ['tabs between a colon and its value', 'a:\t1\n', { a: '1' }],
    ['an empty document', '---\n...\n', {}],
    ['nothing', '', {}],
    [
      'numbers as they stand',
      'a: |\n  x\nb: 04\nc: 12E5\nd: 12345678901234567890\ne: 1.10\n',
      {
        a: 'x\n',
        b: '04',
        c: '12E5',
        d: '12345678901234567890',
        e: '1.10',
      },
    ],
    [
      'what has no value',
      'a: |\n  x\nb:\nc: {d, e: }\nf: [~]\n',
      { a: 'x\n', b: '', c: { d: '', e: '' }, f: ['~'] },
    ],
  ])('%s', (_, text, content) => {
    expect(read(text)).toEqual(content);
  });

  test('words that objects have, and __proto__, are keys like any other', () => {
    const { root } = full(
      'constructor: |\n  x\n__proto__:\n  polluted: |\n    y\n  __proto__: z\n',
    );
    expect(plainly(root)).toEqual([
      ['constructor', 'x\n'],
      [
        '__proto__',
        [
          ['polluted', 'y\n'],
          ['__proto__', 'z'],
        ],
      ],
    ]);
    expect(Object.getPrototypeOf(root)).toBeNull();
    expect('polluted' in {}).toBe(false);
  });

  test('CRLF as LF', () => {
    const text = 'a: |\n  x\n\n  y\nb: "c\n  d"\ne: f\n  g\n';
    expect(read(text.replaceAll('\n', '\r\n'))).toEqual(read(text));
  });

  test.each([
    ['a number in a block scalar is none', 'a: |\n  4\n', false],
    ['a number under another key', 'a: |\n  x\nb:\n  lot: 4\n', true],
    ['a number under a key of numbers', 'a: |\n  x\nb:\n  count: 4\n', false],
    ['an empty value', '"a":\n', true],
    ['an empty text', '"a": ""\n', false],
    ['a text over two lines', 'a: 4\n  5\n', false],
    ['a record that is refused does not count', '"a": 4\nb: &x 04\n'.replace('4', '"4"'), false],
  ])('odd: %s', (_, text, odd) => {
    expect(full(text).odd).toBe(odd);
  });
});

describe('refuses', () => {
  test.each([
    ['anchors', 'a:\n  b: &c d\n', '2:6+4 yaml-error a value is named with &'],
    ['anchors of mappings', 'a: &x\n  b: c\n', '1:4+2 yaml-error a value is named with &'],
    ['anchors of the file', '&x\na: b\n', '1:1+2 yaml-error a value is named with &'],
    ['anchors of keys', '&x a: b\n', '1:1+3 yaml-error a value is named with &'],
    ['aliases', 'a: *b\n', '1:4+2 yaml-error a value that begins with *'],
    ['aliases as keys', 'a:\n  *b : c\n', '2:3+2 yaml-error a value that begins with *'],
    ['tags', 'a: !!str 4\n', '1:4+7 yaml-error a value is given a type with !'],
    ['tags that stand for nothing', 'a: !\n', '1:4+1 yaml-error a value is given a type with !'],
    ['merge keys', 'a:\n  <<: {b: 1}\n', '2:3+2 yaml-error a key << takes over'],
    ['lists as keys', 'a:\n  ? [b]\n  : c\n', '2:5+3 yaml-error the name of a field'],
    ['names over lines', 'a:\n  ? |\n   b\n  : c\n', '2:5+1 yaml-error the name of a field'],
    ['values without a name', 'a:\n  : c\n', '2:3+1 yaml-error there is a value here without'],
    [
      'foreign blanks',
      'a:\n  b: "\\n"\n\u00a0 c: 1\n',
      '3:1+3 yaml-error a space beside this name',
    ],
    [
      'equal fields',
      'a:\n  b: |\n    x\n  b: y\n',
      '4:3+1 yaml-error "b" is used twice in this record',
    ],
    ['a second document', 'a: 1\n---\nb: 2\n', '2:1+3 yaml-error a second document begins here'],
    [
      'a document behind an end',
      'a: 1\n...\nb: 2\n',
      '3:1+4 yaml-error a second document begins here',
    ],
    ['directives', '%YAML 1.2\n---\na: 1\n', '1:1+1 yaml-error a line at the margin begins with %'],
    ['lists', '- a: 1\n', '1:1+6 yaml-error the file is a list'],
    ['lists in brackets', '[a, b]\n', '1:1+6 yaml-error the file is a list'],
    ['quoted texts', '"a"\n', '1:1+3 yaml-error the file holds no records'],
    ['texts', 'hello there\n', '1:1+11 yaml-error "hello there" is neither a field'],
  ])('%s', (_, text, fault) => {
    const found = faults(text);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(fault);
  });

  test('nesting deeper than 64 levels, the file itself the first', () => {
    const nested = (levels: number): string => {
      const lines = Array.from({ length: levels - 1 }, (_, depth) => `${' '.repeat(depth)}a:`);
      return `${lines.join('\n')}\n${' '.repeat(levels - 1)}a: 1\n`;
    };
    expect(faults(nested(64))).toEqual([]);
    expect(faults(nested(65))).toEqual(['65:65+4 yaml-error this is nested deeper than 64 levels']);
    const brackets = (levels: number): string =>
      `a: ${'['.repeat(levels - 1)}${']'.repeat(levels - 1)}\n`;
    expect(faults(brackets(64))).toEqual([]);
    expect(faults(brackets(65))).toEqual([
      '1:67+2 yaml-error this is nested deeper than 64 levels',
    ]);
  });

  test.each([
    ['brackets', `a: ${'['.repeat(50_000)}`],
    ['dashes', `a:\n  ${'- '.repeat(50_000)}b`],
    ['question marks', '? '.repeat(50_000)],
    ['braces', `a: ${'{b: '.repeat(50_000)}`],
  ])('%s nested so deep that the parser itself would give in', (_, text) => {
    expect(faults(text)).toHaveLength(1);
    expect(faults(text)[0]).toContain('nested deeper than 64 levels');
  });

  test('characters that no text has, with the record that has them', () => {
    const { root, findings } = full('a: 1\nb: x\x07y\nc: 2\n');
    expect(Object.keys(root)).toEqual(['a', 'c']);
    expect(findings).toMatchObject([{ rule: 'yaml-error', at: { line: 2, column: 5 } }]);
    expect(findings[0]?.message).toContain('U+0007');
  });

  test.each([
    ['NUL', 'a: \0\n', '1:4'],
    ['NUL in a comment', '# \0\na: 1\n', '1:3'],
    ['a line separator', 'a: x\u2028\n', '1:5'],
    ['a next line', 'a: x\u0085\n', '1:5'],
    ['a byte order mark inside', 'a: x\ufeff\n', '1:5'],
    ['a return alone', 'a: x\rb: y\n', '1:5'],
    ['in a file that is read in one piece', '"a": \x1b\n', '1:6'],
  ])('%s', (_, text, place) => {
    const [fault, ...more] = faults(text);
    expect(fault).toMatch(
      new RegExp(`^${place}\\+1 yaml-error (an invisible character|a carriage return)`),
    );
    expect(more).toEqual([]);
  });
});

describe('equal ids', () => {
  const text = 'a: 1\nb: |\n  x\na: 2\n';

  test('are a duplicate-id; the first record stays', () => {
    const { root, findings } = full(text);
    expect(plainly(root)).toEqual([
      ['a', '1'],
      ['b', 'x\n'],
    ]);
    expect(findings).toMatchObject([
      {
        rule: 'duplicate-id',
        severity: 'error',
        at: { file: 'sales.yaml', line: 4, column: 1, width: 1 },
        related: [{ at: { line: 1, column: 1 } }],
      },
    ]);
  });

  test('are a yaml-error among the settings', () => {
    expect(faults('name: a\nname: b\n', 'studio.yaml')).toEqual([
      '2:1+4 yaml-error "name" is used twice in this file',
    ]);
  });
});

describe('a fault in one record leaves the others', () => {
  test.each([
    ['a quote that is not closed', 'a:\n  b: "c\nd:\n  e: f\ng: 1\n', ['d', 'g']],
    ['a tab', 'a:\n\tb: 1\nd: 2\n', ['d']],
    ['brackets that are not closed', 'a: 1\nb:\n  - {c: d\ne: 2\n', ['a', 'e']],
    ['an alias', 'a: *x\nb: 1\n', ['b']],
    ['a line without a colon', 'a: 1\nwhat is this\nb: 2\n', ['a', 'b']],
    ['in a file with quoted keys', '"a": "b\nc: 1\n', ['c']],
    ['equal fields', 'a: {b: 1, b: 2}\nc: 3\n', ['c']],
  ])('%s', (_, text, left) => {
    const { root, findings } = full(text);
    expect(Object.keys(root)).toEqual(left);
    expect(findings).toHaveLength(1);
  });

  test('but not in a file in brackets, nor in one of two documents', () => {
    expect(full('{a: 1, b: "c}\n')).toMatchObject({ root: {}, findings: [{ rule: 'yaml-error' }] });
    expect(full('a: 1\n---\nb: 2\n')).toMatchObject({
      root: {},
      findings: [{ rule: 'yaml-error' }],
    });
  });

  test('several records with faults have one finding each, in order', () => {
    expect(faults('a: @\nb: 1\nc: %\nd: [\n')).toEqual([
      "1:4+1 yaml-error a value can't begin with @",
      "3:4+1 yaml-error a value can't begin with %",
      '4:4+1 yaml-error the bracket [ is opened here and not closed',
    ]);
  });
});
