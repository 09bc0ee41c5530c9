/** Tidying quotes what needs quotes and touches nothing else. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { isCoreValue } from '../../src/read/yaml/core.ts';
import { tidyText } from '../../src/write/tidy.ts';
import { holds } from '../helpers/law.ts';
import { layOut } from '../helpers/layout.ts';
import { secondReading } from '../helpers/second-reader.ts';

test('quotes values and keys, each once, and nothing that is text already', () => {
  const text =
    '\ufeff# cones\r\na:\r\n  cone: 04 # low\r\n  lot: "0044"\r\n  note: plain\r\n  who: \r\n' +
    '  lots: { 12: true, x: 1.10 }\r\n';
  const spots = [
    { path: ['a', 'cone'] },
    { path: ['a', 'cone'] },
    { path: ['a', 'lot'] },
    { path: ['a', 'note'] },
    { path: ['a', 'who'] },
    { path: ['a', 'lots', '12'] },
    { path: ['a', 'lots', '12'], on: 'key' as const },
  ];
  expect(tidyText(text, spots)).toMatchObject({
    quoted: 3,
    text:
      '\ufeff# cones\r\na:\r\n  cone: \'04\' # low\r\n  lot: "0044"\r\n  note: plain\r\n  who: \r\n' +
      "  lots: { '12': 'true', x: 1.10 }\r\n",
  });
});

test('changes nothing where nothing is to be done', () => {
  expect(tidyText('a: { x: 04 }', [])).toEqual({ text: 'a: { x: 04 }', quoted: 0 });
});

test.each([
  ['a spot is gone', ['a', 'y'], 'there is no single value at a y'],
  ['a spot is a list', ['a', 'x'], 'there is no single value at a x'],
])('is refused where %s', (_, path, refused) => {
  expect(tidyText('a: { x: [04] }\n', [{ path }])).toEqual({ refused });
});

/** A reader of YAML 1.1 may take 16:30 for sixteen sixties and thirty. */
const isTime = (text: string): boolean => /^\d\d:\d\d$/.test(text);

test('in any layout, exactly the unquoted scalars at the spots get quotes', () => {
  holds(
    fc.property(fc.nat(1e9), fc.integer({ min: 1, max: 5 }), (seed, size) => {
      const { text, tree, scalars } = layOut(seed, size);
      const spots = scalars.filter((_, index) => (seed + index) % 3 > 0);
      const due = spots
        .filter(({ style, text }) => style === 'plain' && (isCoreValue(text) || isTime(text)))
        .sort((a, b) => b.start - a.start);
      const expected = due.reduce(
        (done, { start, end }) =>
          `${done.slice(0, start)}'${done.slice(start, end)}'${done.slice(end)}`,
        text,
      );
      expect(tidyText(text, spots)).toMatchObject({ text: expected });
      expect(secondReading(expected)).toEqual(tree);
    }),
    300,
  );
});

test('afterwards a core reader sees text at the spots', () => {
  const tidied = tidyText('a: { x: 04, y: ~, z: 12E5 }', [
    { path: ['a', 'x'] },
    { path: ['a', 'y'] },
    { path: ['a', 'z'] },
  ]);
  expect('text' in tidied && parse(tidied.text)).toEqual({ a: { x: '04', y: '~', z: '12E5' } });
});
