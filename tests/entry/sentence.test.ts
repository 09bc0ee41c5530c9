import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIELDS, type FieldSpec, type RecordSpec } from '../../schema/generated/fields.js';
import { expandRecord } from '../../src/entry/expand.ts';
import type { Form } from '../../src/entry/form.ts';
import { FORMS } from '../../src/entry/forms.ts';
import { UNLOAD_FORM } from '../../src/entry/unload.ts';
import { readSentence } from '../../src/entry/sentence.ts';
import { ELSEWHERE, MEANINGS } from './meanings.ts';
import { holds } from '../helpers/law.ts';
import { smallLexicon, TODAY } from '../helpers/small-studio.ts';

const lexicon = smallLexicon();

describe('every form of the table', () => {
  const cases = FORMS.flatMap((form) =>
    form.examples.map((example, index) => ({ form, example, index })),
  );

  it.each(cases)('$form.kind $form.field: $example', ({ form, example, index }) => {
    const { kind, field } = form;
    const [outer = '', inner] = field.split('.');
    const sentence = example.replace(/iron-wash|kiln-wash/, (id) => ELSEWHERE[id] ?? id);
    const typed = inner ? { [outer]: [{ [inner]: [sentence] }] } : { [outer]: [sentence] };
    const single = FIELDS[kind].fields[outer]?.type === 'either' ? { [outer]: sentence } : typed;
    const lexiconWithPaper = withMaterial('paper');
    const { fields, faults } = expandRecord(kind, single, {
      lexicon: lexiconWithPaper,
      day: TODAY,
    });
    expect(faults).toEqual([]);
    const got = plain(inner ? firstOf(fields[outer])[inner] : fields[outer]);
    expect(got).toEqual(MEANINGS[`${kind} ${field}`]?.[index]);
  });

  it('has a meaning in this test', () => {
    const names = FORMS.map(({ kind, field }) => `${kind} ${field}`);
    expect(Object.keys(MEANINGS).sort()).toEqual(names.sort());
    for (const { kind, field, examples } of FORMS)
      expect(MEANINGS[`${kind} ${field}`]).toHaveLength(examples.length);
  });

  it('names only fields that the schema has', () => {
    for (const form of [...FORMS, UNLOAD_FORM]) {
      const spec = itemSpec(form);
      if (!spec) continue;
      const { lead, middle = [], flags = [], tails = {}, rest } = form.grammar;
      const named = [lead, ...middle, ...flags, ...Object.values(tails), rest];
      const names = named.filter((name) => name !== undefined);
      expect(Object.keys(spec.fields)).toEqual(expect.arrayContaining(names));
    }
  });

  it('can fill every field that its list has', () => {
    for (const form of FORMS) {
      const spec = itemSpec(form);
      if (!spec) continue;
      const { lead, middle = [], flags = [], tails = {}, outcome } = form.grammar;
      const filled = new Set([lead, ...middle, ...flags, ...Object.values(tails)]);
      const outcomes = outcome ? ['first', 'second', 'lost', 'why', 'lost-to'] : [];
      for (const name of Object.keys(spec.fields))
        expect([...filled, ...outcomes], `${form.kind} ${form.field}`).toContain(name);
    }
  });
});

function withMaterial(id: string): typeof lexicon {
  const made = { id, kind: 'materials' as const, file: 'materials.yaml', raw: {} };
  return { ...lexicon, find: (word) => (word === id ? made : lexicon.find(word)) };
}

function firstOf(list: unknown): Record<string, unknown> {
  return (list as Record<string, unknown>[])[0] ?? {};
}

/** The same with ordinary objects, so that it can be compared. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

function itemSpec({ kind, field }: Form): RecordSpec | undefined {
  let spec: FieldSpec | undefined = FIELDS[kind];
  for (const name of field.split('.')) {
    const holder: FieldSpec | undefined = spec?.type === 'list' ? spec.of : spec;
    spec = holder?.type === 'record' ? holder.fields[name] : undefined;
  }
  const item = spec?.type === 'either' ? spec.record : spec?.type === 'list' ? spec.of : undefined;
  return item?.type === 'record' ? item : undefined;
}

const SALE_LINE = FORMS.find(({ kind }) => kind === 'sales');
const LOAD_LINE = FORMS.find(({ kind, field }) => kind === 'firings' && field === 'load');
const BOUGHT_LINE = FORMS.find(({ kind }) => kind === 'bought');

function read(form: Form | undefined, sentence: string): ReturnType<typeof readSentence> {
  const spec = form && itemSpec(form);
  if (!form || !spec) throw new Error('no such form');
  const { fields, faults } = readSentence(sentence, { form, spec, lexicon });
  return { fields: plain(fields) as typeof fields, faults };
}

describe('the words of a sentence', () => {
  it('may stand in any order behind the number', () => {
    const middle = ['mug', 'sea-green', 'second', 'p260301ab', 'returned'];
    holds(
      fc.property(fc.shuffledSubarray(middle, { minLength: 5 }), (words) => {
        expect(read(SALE_LINE, `1 ${words.join(' ')} at 20`).fields).toEqual({
          product: 'mug',
          lot: 'p260301ab',
          glaze: 'sea-green',
          grade: 'second',
          count: '1',
          price: '20',
          returned: 'yes',
        });
      }),
    );
  });

  it('never throw, whatever they are', () => {
    const word = fc.constantFrom(
      '2',
      'mug',
      'at',
      'less',
      'for',
      'lot',
      'x',
      '-5',
      '%',
      'first',
      '"',
    );
    const sentence = fc.array(fc.oneof(word, fc.string()), { maxLength: 12 });
    holds(
      fc.property(sentence, fc.constantFrom(...FORMS), (words, form) => {
        const spec = itemSpec(form);
        if (!spec) return;
        const text = words.join(' ');
        for (const fault of readSentence(text, { form, spec, lexicon }).faults) {
          expect(fault.start + fault.width).toBeLessThanOrEqual(text.length);
          expect(fault.message).not.toBe('');
        }
      }),
    );
  });

  it('take ids without regard to capitals, and write them as the file does', () => {
    expect(read(SALE_LINE, '2 MUG P260301AB at 5').fields).toEqual({
      product: 'mug',
      lot: 'p260301ab',
      count: '2',
      price: '5',
    });
  });

  it('may have the lot by its id alone', () => {
    expect(read(SALE_LINE, '3 bowl p260302cd at 44').fields).toHaveProperty('lot', 'p260302cd');
  });

  it('keep a word of the form within other words', () => {
    expect(read(SALE_LINE, '1 for work at home at 15').fields).toEqual({
      for: 'work at home',
      count: '1',
      price: '15',
    });
    expect(read(LOAD_LINE, "4 for neighbour's bowls 3 first 1 lost").fields).toEqual({
      outside: "neighbour's bowls",
      in: '4',
      first: '3',
      lost: '1',
    });
  });

  it('take a price as it is written, for the check to judge', () => {
    expect(read(SALE_LINE, '1 mug at $38').fields).toHaveProperty('price', '$38');
  });

  it('part a number from the unit that is joined to it', () => {
    expect(read(BOUGHT_LINE, '4 x 25lb buff-stoneware for 92').fields).toHaveProperty(
      'quantity',
      '4 x 25 lb',
    );
    expect(read(BOUGHT_LINE, '1.5kg kaolin for 3').fields).toHaveProperty('quantity', '1.5 kg');
  });

  it.each([
    ['mug', { product: 'mug', count: '1' }],
    ['mug at 38', { product: 'mug', count: '1', price: '38' }],
    ['mug second', { product: 'mug', grade: 'second', count: '1' }],
    ['mug 25.50', { product: 'mug', count: '1', price: '25.50' }],
    ['evening-class', { class: 'evening-class', count: '1' }],
    ['1 mug 25', { product: 'mug', count: '1', price: '25' }],
    ['2 mug 25 less 10%', { product: 'mug', count: '2', price: '25', discount: '10%' }],
    ['2x mug', { product: 'mug', count: '2' }],
    ['2 x mug at 38', { product: 'mug', count: '2', price: '38' }],
    ['12× mug 30', { product: 'mug', count: '12', price: '30' }],
  ])('are understood as people write them: %s', (sentence, fields) => {
    const { fields: got, faults } = read(SALE_LINE, sentence);
    expect(faults).toEqual([]);
    expect(plain(got)).toEqual(fields);
  });

  it('have a cost without its word too, and no count where a bare name may be many', () => {
    expect(read(BOUGHT_LINE, '2 x 25 lb buff-stoneware 46').fields).toMatchObject({ cost: '46' });
    expect(read(LOAD_LINE, 'p260301ab').faults).toMatchObject([{ message: 'the in is missing' }]);
  });

  it.each([
    ['2 mugg at 38', 2, 4, 'unknown-reference', 'did you mean "mug"?'],
    ['2 mug secnd at 38', 6, 5, 'unknown-reference', 'did you mean "second"?'],
    ['2 mug at', 6, 2, 'schema', 'write at 28, or leave it out'],
    ['2 mug 3 at 38', 6, 1, 'schema', 'write COUNT PRODUCT'],
    ['2 kaolin at 3', 2, 6, 'wrong-kind-of-reference', 'write the id of a product'],
    ['at 38', 0, 5, 'schema', 'begin with it, as in "2 mug at 38"'],
    ['mug 25', 4, 2, 'schema', 'write "25 mug" for the count, or "1 mug at 25" for the price'],
    ['2 mug bowl at 3', 6, 4, 'schema', 'keep one of the two'],
    ['2 mug at 3 at 4', 11, 2, 'schema', 'keep one of the two'],
  ])('%s: column %i, %i wide', (...[sentence, start, width, rule, hint]) => {
    const { faults } = read(SALE_LINE, sentence);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ start, width, rule });
    expect(faults[0]?.hint).toContain(hint);
  });
});
