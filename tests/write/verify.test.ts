/** The last look before a write: a changed file passes only if it says exactly what it should. */
import { describe, expect, test } from 'vitest';
import { valueAt, withValue, withoutValue, type Raw } from '../../src/read/raw.ts';
import { layoutOf } from '../../src/write/parts.ts';
import { pathText, verified } from '../../src/write/trail.ts';

const before = "a:\n  price: 1\n  lines: [{ count: 1 }, { count: 2 }]\nb: { x: '04' }\n";

function contentOf(text: string): Raw {
  const layout = layoutOf(text);
  if ('refused' in layout) throw new Error(layout.refused);
  return layout.content;
}

test('passes what reads as meant, however it is written', () => {
  const expected = withValue(contentOf(before), ['a', 'price'], '2');
  const changed = 'a: { price: 2, lines: [{ count: 1 }, { count: 2 }] }\nb:\n  x: 04\n';
  expect(verified(changed, expected)).toEqual({ text: changed });
});

describe('refuses, and names the place, where', () => {
  test.each([
    ['another value changed', before.replace('count: 2', 'count: 3'), 'a lines 2 count'],
    ['another record changed', before.replace("'04'", '4'), 'b x'],
    ['a field was lost', before.replace("x: '04'", ''), 'b x'],
    ['a field came in', before.replace("x: '04'", "x: '04', y: 1"), 'b y'],
    ['a record was lost', 'a:\n  price: 1\n  lines: [{ count: 1 }, { count: 2 }]\n', 'b'],
    ['a record came in', `${before}c: {}\n`, 'c'],
    ['a list item was lost', before.replace(', { count: 2 }', ''), 'a lines 2'],
    ['two records changed places', 'b: { x: "04" }\na: { price: 1 }\n', 'a'],
    ['a list became a mapping', before.replace('[{ count: 1 }, { count: 2 }]', '{}'), 'a lines'],
    ['a mapping became a text', before.replace("{ x: '04' }", 'x'), 'b'],
    ['the file became a text', 'nothing\n', 'the file'],
  ])('%s', (_, changed, place) => {
    expect(verified(changed, contentOf(before))).toEqual({
      refused: `the change would make ${place} read otherwise than meant`,
    });
  });

  test('the change is no YAML', () => {
    expect(verified('a: [\n', contentOf(before))).toEqual({
      refused: expect.stringMatching(
        /^the change would spoil the file: line 2 is not YAML/,
      ) as string,
    });
  });
});

test('puts values at, and takes them from, a path', () => {
  const content = contentOf(before);
  expect(valueAt(content, ['a', 'lines', 1, 'count'])).toBe('2');
  expect(valueAt(content, ['a', 'lines', 2, 'count'])).toBeUndefined();
  expect(valueAt(content, ['a', 'price', 'x'])).toBeUndefined();
  const added = withValue(content, ['a', 'lines', 2], { count: '3' });
  expect(valueAt(added, ['a', 'lines'])).toEqual([1, 2, 3].map((n) => ({ count: `${n}` })));
  expect(withoutValue(added, ['a', 'lines', 2])).toEqual(content);
  expect(withoutValue(content, ['a', 'nothing', 'there'])).toEqual(content);
  expect(valueAt(withoutValue(content, ['b', 'x']), ['b'])).toEqual({});
  expect(contentOf(before)).toEqual(content);
});

test('counts list items from 1 for people', () => {
  expect(pathText(['s260308kt', 'lines', 0, 'price'])).toBe('s260308kt lines 1 price');
});
