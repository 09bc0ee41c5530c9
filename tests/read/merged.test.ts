import { describe, expect, test } from 'vitest';
import type { Place } from '../../src/problem.ts';
import { unsettledIn } from '../../src/read/yaml/conflicts.ts';
import { parseText } from '../../src/read/yaml/parse.ts';
import { full, plainly } from './support/readers.ts';

/** Findings as they are told: `line:column rule message`, then what is related. */
function told(text: string, file = 'sales.yaml'): string[] {
  const { findings } = parseText({ file, text }, { numberKeys: new Set() });
  return findings.flatMap(({ rule, at, message, related = [] }) => [
    `${where(at as Place)} ${rule} ${message}`,
    ...related.map((other) => `  ${where(other.at as Place)} ${other.message}`),
  ]);
}

function where({ line, column }: Place): string {
  return `${line}:${column}`;
}

function hints(text: string): string[] {
  return full(text).findings.map(({ hint }) => hint);
}

const AMENDED = `a:
  date: 2026-03-01
<<<<<<< HEAD
  paid: 2026-03-09
  lines: [{product: mug, price: 38}]
=======
  paid: no
  lines: [{product: mug, price: 40}]
>>>>>>> prices
b:
  date: 2026-03-02
`;

const ADDED = `a: 1
<<<<<<< HEAD
b:
  date: 2026-03-02
  buyer: Ash
=======
c:
  date: 2026-03-03
  note: late
>>>>>>> late/sales
d: 4
`;

describe('a file in which a merge left two versions', () => {
  test('tells a changed record and gives the others', () => {
    expect(told(AMENDED)).toEqual([
      '3:1 merge-conflict two versions of a meet here and differ in paid and lines.1.price',
      '  4:3 HEAD has a with paid: 2026-03-09; lines.1.price: 38',
      '  7:3 prices has a with paid: no; lines.1.price: 40',
    ]);
    expect(Object.keys(full(AMENDED).root)).toEqual(['b']);
    expect(hints(AMENDED)).toEqual([
      'keep the lines that are right, and delete the others and the lines <<<<<<<, ======= and >>>>>>>',
    ]);
  });

  test('tells two records that came to one place', () => {
    expect(told(ADDED)).toEqual([
      '2:1 merge-conflict HEAD has b here, and late/sales has c',
      '  3:1 HEAD has b with date: 2026-03-02; buyer: Ash; no note',
      '  7:1 late/sales has c with date: 2026-03-03; no buyer; note: late',
    ]);
    expect(plainly(full(ADDED).root)).toEqual([
      ['a', '1'],
      ['d', '4'],
    ]);
    expect(hints(ADDED)).toEqual([
      'to keep all that is here, delete just the lines <<<<<<<, ======= and >>>>>>>; else delete what is to go as well',
    ]);
  });

  test('marks the line that opens a conflict, with either end of line', () => {
    for (const text of [AMENDED, AMENDED.replaceAll('\n', '\r\n')]) {
      expect(full(text).findings[0]?.at).toEqual({
        file: 'sales.yaml',
        line: 3,
        column: 1,
        width: '<<<<<<< HEAD'.length,
        source: '<<<<<<< HEAD',
      });
      expect(told(text)).toEqual(told(AMENDED));
    }
  });

  test('does not say to keep both where lines outside the markers belong to both', () => {
    const text =
      '<<<<<<< HEAD\na:\n  date: 2026-03-01\n=======\nb:\n  date: 2026-03-02\n>>>>>>> x\n  channel: door\n';
    expect(told(text)[0]).toBe('1:1 merge-conflict HEAD has a here, and x has b');
    expect(hints(text)[0]).toMatch(/^lines outside the markers belong to these too/);
    expect(hints(text)[0]).toContain('git checkout --conflict=diff3 -- "sales.yaml"');
  });

  test('tells each of several conflicts by what differs in its own lines', () => {
    const text = `a:
<<<<<<< HEAD
  paid: no
=======
  paid: 2026-03-01
>>>>>>> x
  date: 2026-03-01
  channel: door
<<<<<<< HEAD
  note: one
=======
  note: other
>>>>>>> x
`;
    expect(told(text).filter((line) => !line.startsWith(' '))).toEqual([
      '2:1 merge-conflict two versions of a meet here and differ in paid',
      '9:1 merge-conflict two versions of a meet here and differ in note',
    ]);
  });

  test('takes no notice of what stood there before, nor of conflicts within it', () => {
    const text = `a: 1
<<<<<<< HEAD
b: 2
||||||| 12ab34c
<<<<<<<<< inner
b: 0
=========
b: 5
>>>>>>>>> inner
=======
b: 3
>>>>>>> x
`;
    expect(told(text)).toEqual([
      '2:1 merge-conflict two versions of b meet here',
      '  3:1 HEAD has b: 2',
      '  11:1 x has b: 3',
    ]);
    expect(hints(text)[0]).toContain('the lines <<<<<<<, |||||||, ======= and >>>>>>>');
  });

  test('tells a record that one side took out', () => {
    const text = 'a: 1\n<<<<<<< HEAD\nb:\n  note: x\n=======\n>>>>>>> x\n';
    expect(told(text)).toEqual([
      '2:1 merge-conflict HEAD has b here, and x has nothing',
      '  3:1 HEAD has b with note: x',
      '  6:1 x has nothing here',
    ]);
  });

  test('tells where only remarks differ, and gives the records', () => {
    const text = 'a: 1\n<<<<<<< HEAD\n# one\n=======\n# other\n>>>>>>> x\nb: 2\n';
    expect(told(text)[0]).toBe(
      '2:1 merge-conflict two versions of the file meet here, of HEAD and x',
    );
    expect(Object.keys(full(text).root)).toEqual(['a', 'b']);
  });

  test('tells a version that makes no sense, and what is wrong outside the markers', () => {
    const text = 'z: &x 1\n<<<<<<< HEAD\na: &y 1\n=======\na: 2\n>>>>>>> x\nb: *z\n';
    expect(told(text)).toEqual([
      '2:1 merge-conflict two versions of a meet here',
      "  3:1 HEAD has a, which can't be read",
      '  5:1 x has a: 2',
      expect.stringMatching(/^1:4 yaml-error a value is named with &/),
      expect.stringMatching(/^7:4 yaml-error a value that begins with \*/),
    ]);
  });

  test('takes our settings for the time being', () => {
    const text = 'format: 1\n<<<<<<< HEAD\ncurrency: USD\n=======\ncurrency: EUR\n>>>>>>> x\n';
    const { root } = parseText({ file: 'studio.yaml', text }, { numberKeys: new Set() });
    expect({ ...root }).toEqual({ format: '1', currency: 'USD' });
    expect(told(text, 'studio.yaml')).toEqual([
      '2:1 merge-conflict two versions of the setting currency meet here',
      '  3:1 HEAD has currency: USD',
      '  5:1 x has currency: EUR',
    ]);
  });

  test('cuts what is long', () => {
    const fields = [1, 2, 3, 4, 5, 6].map((each) => `  f${each}: ${'x'.repeat(100)}\n`).join('');
    const text = `<<<<<<< HEAD\na:\n${fields}=======\nb:\n  y: 1\n>>>>>>> x\n`;
    const [, ours = ''] = told(text);
    expect(ours).toBe(
      `  2:1 HEAD has a with ${[1, 2, 3, 4].map((each) => `f${each}: ${'x'.repeat(59)}…`).join('; ')}; 3 more`,
    );
  });
});

describe('markers without their partners', () => {
  test.each([
    ['an end', 'a: 1\n>>>>>>> x\nb: 2\n', '2:1', '>>>>>>>'],
    ['a middle', 'a: 1\n=======\nb: 2\n', '2:1', '======='],
    ['a beginning', 'a: 1\n<<<<<<< HEAD\nb: 2\n', '2:1', '<<<<<<<'],
    ['a base', 'a: 1\n|||||||\nb: 2\n', '2:1', '|||||||'],
  ])('%s is told, and nothing of the file is given', (...[, text, place, sign]) => {
    expect(told(text)).toEqual([
      `${place} merge-conflict a line ${sign} of a merge is here without the others of its kind`,
    ]);
    expect(Object.keys(full(text).root)).toEqual([]);
  });

  test('stand beside a whole conflict', () => {
    expect(told(`<<<<<<< lost\n${ADDED}`)).toHaveLength(4);
    expect(told(`<<<<<<< lost\n${ADDED}`)[0]).toMatch(/^1:1 .* a line <<<<<<< of a merge/);
  });
});

describe('what is no merge', () => {
  test.each([
    [
      'in a block of text',
      'a:\n  note: |\n    <<<<<<< HEAD\n    b\n    =======\n    c\n    >>>>>>> x\n',
    ],
    ['in a remark', '# =======\n# <<<<<<< HEAD\na: |\n  x\n'],
    ['in a value', 'a: ">>>>>>> x"\nb: |\n  x\n'],
  ])('%s is left alone', (_, text) => {
    expect(unsettledIn(text)).toBeUndefined();
    expect(full(text).findings).toEqual([]);
  });

  test.each(['<<<<<<', '<<<<<<<<', '<<<<<<<HEAD', '======', '======= x'])('%s is none', (line) => {
    expect(unsettledIn(`a: 1\n${line}\n`)).toBeUndefined();
  });
});
