import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutRecords } from '../../src/read/records.ts';
import { blockYaml } from './support/block-yaml.ts';
import { mistypedText } from './support/studio-text.ts';
import { holds } from '../helpers/law.ts';

function cut(text: string): [boolean, ...(readonly [string | undefined, string])[]] {
  const { records, regular } = cutRecords(text);
  return [regular, ...records.map(({ id, start, end }) => [id, text.slice(start, end)] as const)];
}

describe('a text is cut at its margin', () => {
  test.each([
    ['nothing', '', [true]],
    ['comments', '# a\n\n  # b\n', [true]],
    ['records', 'a: 1\nb:\n  c: 2\n', [true, ['a', 'a: 1\n'], ['b', 'b:\n  c: 2\n']]],
    [
      'with what follows them',
      '# x\na: 1\n# y\n\nb: 2',
      [true, ['a', 'a: 1\n# y\n\n'], ['b', 'b: 2']],
    ],
    ['lists at the margin', 'a:\n- b\n-\nc: 1\n', [true, ['a', 'a:\n- b\n-\n'], ['c', 'c: 1\n']]],
    ['CRLF', 'a: 1\r\n\r\nb:\r\n', [true, ['a', 'a: 1\r\n\r\n'], ['b', 'b:\r\n']]],
    ['behind a line ---', '# x\n--- # y\n\na: 1\n', [true, ['a', 'a: 1\n']]],
    ['tabs', 'a:\n\tb: 1\nc: 2\n', [true, ['a', 'a:\n\tb: 1\n'], ['c', 'c: 2\n']]],
    ['quoted keys', '"a": 1\nb: 2\n', [false, [undefined, '"a": 1\n'], ['b', 'b: 2\n']]],
    ['dashes that are no list', 'a: 1\n-b: 2\n', [false, ['a', 'a: 1\n'], [undefined, '-b: 2\n']]],
    ['no blank behind the colon', 'a:1\n', [false, [undefined, 'a:1\n']]],
    ['a second document', 'a: 1\n---\n', [false, ['a', 'a: 1\n'], [undefined, '---\n']]],
    ['brackets', '{a: 1,\nb: 2}\n', [false, [undefined, '{a: 1,\n'], ['b', 'b: 2}\n']]],
    ['closing brackets', 'a: [\n]\n', [false, ['a', 'a: [\n'], [undefined, ']\n']]],
    ['an indented start', '  a: 1\nb: 2\n', [false, ['b', 'b: 2\n']]],
    ['a list at the start', '- a\nb: 2\n', [false, ['b', 'b: 2\n']]],
    ['a separator that some take for a line', ' \u2028a: 1\nb: 2\n', [false, ['b', 'b: 2\n']]],
  ])('%s', (_, text, expected) => {
    expect(cut(text)).toEqual(expected);
  });

  test('without a gap between the first record and the end', () => {
    const whole = fc.property(fc.oneof(blockYaml, mistypedText), (text) => {
      const { records } = cutRecords(text);
      const pieces = records.map(({ start, end }) => text.slice(start, end)).join('');
      expect(pieces).toBe(text.slice(records[0]?.start ?? text.length));
    });
    holds(whole, 1000);
  });
});
