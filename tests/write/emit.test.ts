/** What is emitted reads back as it was, for any reader, in the house layout. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { RawMap } from '../../src/read/raw.ts';
import { emitRecord } from '../../src/write/emit.ts';
import { holds } from '../helpers/law.ts';
import { secondReading } from '../helpers/second-reader.ts';

function emit(record: RawMap): string {
  return emitRecord('s260308kt', record);
}

test('writes the house layout', () => {
  const sale = {
    date: '2026-03-08',
    channel: 'spring-fair',
    buyer: 'A. Potter & Daughter: two "big" bowls',
    started: '06:30',
    cone: '04',
    paid: 'no',
    lines: [
      { product: 'mug', count: '2', price: '38.00' },
      { product: 'bowl', lot: '0044', glaze: "maker's blue", count: '1', price: '12' },
      { for: 'a workshop, with a guest and a long description that fills the line', count: '1' },
      { lot: 'p1', why: { cracked: '1' } },
    ],
    meter: { before: '10482.5', after: '10553.9' },
    care: ['food', 'oven'],
    note: 'Rain all day.\n\n  Few came.',
  };
  expect(emit(sale)).toBe(`s260308kt:
  date: 2026-03-08
  channel: spring-fair
  buyer: 'A. Potter & Daughter: two "big" bowls'
  started: '06:30'
  cone: '04'
  paid: no
  lines:
    - { product: mug, count: 2, price: 38.00 }
    - { product: bowl, lot: '0044', glaze: maker's blue, count: 1, price: 12 }
    - for: a workshop, with a guest and a long description that fills the line
      count: 1
    - lot: p1
      why: { cracked: 1 }
  meter: { before: 10482.5, after: 10553.9 }
  care: [food, oven]
  note: |-
    Rain all day.

      Few came.
`);
});

// Readers of another YAML than 1.2 take these for numbers.
test.each(['1_000', '1_000.5', '-2_0', '0x1_F', '0b1_0', '16:30', '06:30', '1:20:30'])(
  '%s is a text in quotes',
  (text) => {
    expect(emit({ note: text })).toBe(`s260308kt:\n  note: '${text}'\n`);
  },
);

test('a list item or mapping goes on one line up to 90 columns', () => {
  const room = 90 - "    - { for: '', count: 1 }".length + 2;
  const fits = emit({ lines: [{ for: 'x'.repeat(room), count: '1' }] });
  const tooLong = emit({ lines: [{ for: 'x'.repeat(room + 1), count: '1' }] });
  expect(fits.split('\n')[2]).toHaveLength(90);
  expect(tooLong.split('\n').slice(2, 4)).toEqual([
    `    - for: ${'x'.repeat(room + 1)}`,
    '      count: 1',
  ]);
});

test('writes empty records, mappings and lists', () => {
  expect(emit({})).toBe('s260308kt: {}\n');
  expect(emit({ load: [], why: {}, title: '' })).toBe(
    "s260308kt:\n  load: []\n  why: {}\n  title: ''\n",
  );
});

test.each([
  ['two\nlines', '|-\n    two\n    lines'],
  ['two\nlines\n', '|\n    two\n    lines'],
  ['gap\n\nhere', '|-\n    gap\n\n    here'],
  ['two ends\n\n', '"two ends\\n\\n"'],
  [' in\nfront', '" in\\nfront"'],
  ['\nfirst', '"\\nfirst"'],
  ['blank \nend', '"blank \\nend"'],
  ['tab\there\nand', '"tab\\there\\nand"'],
  ['return\r\nfeed', '"return\\r\\nfeed"'],
])('a note %j stands as %s', (note, written) => {
  expect(emit({ note })).toBe(`s260308kt:\n  note: ${written}\n`);
});

test.each([
  ['\u202eright to left', '"\\u202eright to left"'],
  ['bell\u0007', '"bell\\u0007"'],
  ['line\u2028separator', '"line\\u2028separator"'],
  ['mark\ufeff', '"mark\\ufeff"'],
  ['\u0085', '"\\u0085"'],
  ['می‌خواهم', 'می‌خواهم'],
  ['👩‍🎨', '👩‍🎨'],
])('shows what can not be seen in %j', (note, written) => {
  expect(emit({ note })).toBe(`s260308kt:\n  note: ${written}\n`);
});

const words = fc.constantFrom(
  ...['04', '1.10', '12E5', '0x1F', '0o17', '.5', '+1', '-0', '.inf', '.NaN', '~', 'null', 'true'],
  ...['FALSE', 'yes', 'no', '', '-', '?', ':', '- a', 'a: b', 'a #b', '#', '[', '{}', ',', '&a'],
  ...['*a', '!a', '|', '>', '%a', '@a', '`a', "'", '"', "a'b", '---', '...', '<<', '=', 'a:', ':a'],
  ...['1_000', '0b1', '12:30:45', '2026-03-08', '40%', '12.5 kg', ' a', 'a ', 'a\n', '\n', 'a\nb'],
);
const text = fc.oneof(words, fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' }));
const number = fc.oneof(
  fc.nat().map(String),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc.constantFrom('04', '1.10', '38.00', '-5', '+1', '12E5', '5.'),
);
const numbers = fc.record({ price: number, count: number }, { requiredKeys: [] });
const line = fc.record({ product: text, lot: text, price: number, why: numbers });
const record = fc.record({
  note: text,
  title: text,
  price: number,
  care: fc.array(text, { maxLength: 3 }),
  lines: fc.array(line, { maxLength: 3 }),
  meter: numbers,
  lots: fc.dictionary(text, text, { maxKeys: 3 }),
});

test('a second parser reads back any record, every scalar as the text that it was', () => {
  holds(
    fc.property(record, (fields) => {
      const read = secondReading(emit(fields));
      expect(read).toEqual(new Map([['s260308kt', asMap(fields)]]));
    }),
    500,
  );
});

function asMap(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(asMap);
  if (typeof value !== 'object' || value === null) return value;
  return new Map(Object.entries(value).map(([key, inner]) => [key, asMap(inner)]));
}

// Under a key that begins with a digit, such as the number of a sheet's line, both may stand.
const named = record.filter(({ lots }) => !Object.keys(lots).some((key) => /^\d/.test(key)));

test('core readers see numbers under number keys only, and texts everywhere else', () => {
  holds(
    fc.property(named, (fields) => {
      const expected = { s260308kt: typed(fields, '') };
      expect(parse(emit(fields))).toEqual(expected);
    }),
    500,
  );
});

function typed(value: unknown, key: string): unknown {
  if (typeof value === 'string') return NUMBER_KEYS.has(key) ? Number(value) : value;
  if (Array.isArray(value)) return value.map((item) => typed(item, key));
  return Object.fromEntries(
    Object.entries(value as object).map(([name, inner]) => [name, typed(inner, name)]),
  );
}
