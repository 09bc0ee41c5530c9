import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Kind } from '../../src/book.ts';
import { readGiven, typedAgain } from '../../src/entry/given.ts';
import { parseText } from '../../src/read/yaml/parse.ts';
import { emitRecord } from '../../src/write/emit.ts';
import { anyText, UNSAFE } from '../render/arbitrary.ts';
import { holds } from '../helpers/law.ts';

function read(kind: Kind, text: string): unknown {
  return JSON.parse(JSON.stringify(readGiven(kind, text)));
}

describe('records on standard input', () => {
  it('are one mapping of fields, every scalar the text that stands there', () => {
    expect(read('firings', 'date: 2026-03-08\ncone: 04\nhours: 8.50\n')).toEqual({
      records: [{ fields: { date: '2026-03-08', cone: '04', hours: '8.50' } }],
      findings: [],
    });
  });

  it('are one mapping of fields too when these are mappings', () => {
    expect(read('products', 'clay: { material: a, each: 1 lb }\n')).toMatchObject({
      records: [{ fields: { clay: { material: 'a' } } }],
    });
  });

  it('are several by id', () => {
    expect(read('used', '\ufeffu1:\n  material: a\nu2: { material: b }\n')).toEqual({
      records: [
        { id: 'u1', fields: { material: 'a' } },
        { id: 'u2', fields: { material: 'b' } },
      ],
      findings: [],
    });
  });

  it('may be JSON', () => {
    expect(read('used', '{"material": "a", "quantity": "1 kg"}')).toMatchObject({
      records: [{ fields: { material: 'a', quantity: '1 kg' } }],
    });
  });

  it('have their faults at their lines', () => {
    const given = readGiven('used', 'date: 2026-03-08\nnote: *a\n');
    expect(given).toMatchObject({
      records: [],
      findings: [{ rule: 'yaml-error', at: { file: 'standard input', line: 2, column: 7 } }],
    });
  });

  it('are refused when there are none', () => {
    expect(readGiven('used', '# nothing\n')).toEqual({
      refused: 'there is no record on standard input; see saggar add used --help',
    });
  });
});

describe('what is given back', () => {
  const fields = {
    channel: 'market',
    note: 'two\nlines\n',
    lines: ['2 mugg at 38', '1 bowl'],
    cone: '04',
    price: '38.50',
    text: '- no: list # here',
  };

  it('reads as what was typed, with and without an id', () => {
    const again = typedAgain('sales', [{ id: undefined, fields }], '2026-03-08');
    expect(again).toMatch(
      /^# Not saved\..*\n#.*saggar add sales < record\.yaml\ndate: 2026-03-08\nchannel: market\n/,
    );
    const dated = { date: '2026-03-08', ...fields };
    expect(read('sales', again)).toEqual({ records: [{ fields: dated }], findings: [] });
    const earlier = { ...fields, date: '2026-03-01' };
    const two = typedAgain(
      'sales',
      [
        { id: 'a', fields: earlier },
        { id: 'b', fields: { note: 'x' } },
      ],
      '2026-03-08',
    );
    expect(read('sales', two)).toEqual({
      records: [
        { id: 'a', fields: earlier },
        { id: 'b', fields: { date: '2026-03-08', note: 'x' } },
      ],
      findings: [],
    });
  });

  it('is the text of the record as the file gets it', () => {
    const text = emitRecord('s1', { channel: 'market', lines: [{ count: '2', price: '38.50' }] });
    expect(text).toBe('s1:\n  channel: market\n  lines:\n    - { count: 2, price: 38.50 }\n');
    const { root } = parseText({ file: 'x', text }, { numberKeys: NUMBER_KEYS });
    expect(JSON.parse(JSON.stringify(root))).toEqual({
      s1: { channel: 'market', lines: [{ count: '2', price: '38.50' }] },
    });
  });

  it('has nothing in it that acts on a terminal or hides, and reads as what was typed all the same', () => {
    const texts = fc.record({
      note: anyText,
      lines: fc.array(anyText),
      why: fc.dictionary(fc.constantFrom('a', 'b'), anyText),
    });
    holds(
      fc.property(texts, (typed) => {
        const dated = { date: '2026-03-08', ...typed };
        const again = typedAgain('sales', [{ id: 's1', fields: dated }], '2026-03-08');
        expect(again.replaceAll('\n', '')).not.toMatch(UNSAFE);
        const { root } = parseText({ file: 'x', text: again }, { numberKeys: NUMBER_KEYS });
        expect(JSON.stringify(root)).toBe(JSON.stringify({ s1: dated }));
      }),
    );
  });
});
