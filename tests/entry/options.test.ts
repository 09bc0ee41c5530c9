import { describe, expect, it } from 'vitest';
import { FIELDS, type FieldSpec } from '../../schema/generated/fields.js';
import { KINDS, type Kind } from '../../src/book.ts';
import { fieldOptions, onlyOneOf, readOptions } from '../../src/entry/fields.ts';

function read(kind: Kind, ...words: string[]): unknown {
  return JSON.parse(JSON.stringify(readOptions({ kind, words, others: ['dry-run'] })));
}

describe('the options of a kind', () => {
  it.each(KINDS)('%s: every field has one, and no two have one name', (kind) => {
    const options = fieldOptions(kind);
    const names = options.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const reached = new Set(options.map(({ path }) => path[0]));
    // A new definition has no changes yet: amend adds them; which row a record is from take-in writes.
    const fields = Object.entries(FIELDS[kind].fields)
      .filter(([name, { type }]) => name !== 'changes' && !(name === 'from' && type === 'record'))
      .map(([name]) => name);
    expect([...reached]).toEqual(fields);
  });

  it.each(KINDS)('%s: none is named as an option of the command', (kind) => {
    const common = ['record', 'id', 'dry-run', 'studio', 'as-of', 'help', 'version', 'colour'];
    for (const { name } of fieldOptions(kind)) expect(common).not.toContain(name);
  });

  it('lead to where the schema has the field', () => {
    for (const kind of KINDS)
      for (const { path, spec } of fieldOptions(kind)) expect(specAt(kind, path)).toBe(spec);
  });

  it('say which must be there', () => {
    const required = (kind: Kind): string[] =>
      fieldOptions(kind).flatMap(({ name, required: must }) => (must ? [name] : []));
    expect(required('bought')).toEqual(['date', 'supplier', 'line']);
    expect(required('products')).toEqual(['name']);
    expect(required('recipes')).toEqual(['name', 'kind', 'from', 'base']);
    expect(onlyOneOf('mixed')).toEqual([['base-weight', 'total-weight']]);
    expect(onlyOneOf('firings')).toEqual([['energy', 'meter', 'fuel-used']]);
    expect(onlyOneOf('sales')).toEqual([]);
  });

  it('name a nested field with its holder', () => {
    const titles = fieldOptions('products').map(({ name, title }) => [name, title]);
    expect(titles).toContainEqual(['clay-material', 'Clay']);
    expect(titles).toContainEqual(['clay-each', 'Clay, each']);
  });
});

function specAt(kind: Kind, path: readonly (string | number)[]): FieldSpec | undefined {
  return path.reduce<FieldSpec | undefined>((spec, step) => {
    if (typeof step === 'number') return spec?.type === 'list' ? spec.of : undefined;
    return spec?.type === 'record' ? spec.fields[step] : undefined;
  }, FIELDS[kind]);
}

describe('reading options', () => {
  it('puts each value at its place as it was typed', () => {
    const words = ['--supplier', ' Pit ', '--freight=12.50', '--line', 'a', '--line', 'b'];
    expect(read('bought', ...words)).toEqual({
      fields: { supplier: 'Pit', freight: '12.50', lines: ['a', 'b'] },
    });
  });

  it('fills records within the record, and the only version of a recipe', () => {
    expect(read('products', '--clay-material', 'x', '--clay-each', '1 lb')).toEqual({
      fields: { clay: { material: 'x', each: '1 lb' } },
    });
    expect(read('recipes', '--base', '40 a', '--from', '2026-01-01', '--base', '60 b')).toEqual({
      fields: { versions: [{ base: ['40 a', '60 b'], from: '2026-01-01' }] },
    });
  });

  it('takes several words for a list of words', () => {
    expect(read('products', '--care', 'food oven', '--care', 'dishwasher')).toEqual({
      fields: { care: ['food', 'oven', 'dishwasher'] },
    });
  });

  it('takes whatever stands behind an option as its value', () => {
    expect(read('spent', '--amount', '-12.50', '--note', '--for')).toEqual({
      fields: { amount: '-12.50', note: '--for' },
    });
    expect(read('spent', '--note=a=b', '--to=')).toEqual({ fields: { note: 'a=b', to: '' } });
  });

  it.each([
    [['--chanel', 'x'], 'sales has no option --chanel; did you mean --channel?'],
    [['--dryrun'], 'sales has no option --dryrun; did you mean --dry-run?'],
    [['--zzzzzz', 'x'], 'sales has no option --zzzzzz; see saggar add sales --help'],
    [['--fee', '1', '--fee', '2'], '--fee is given twice; keep one of the two'],
    [['--buyer'], '--buyer wants a value, such as "Puddle Coffee"'],
    [['--line'], '--line wants a value, such as "2 mug at 38"'],
    [['mug'], '"mug" has no option before it; put words that belong together in quotes'],
    [['--line', '2', 'mug'], '"mug" has no option before it'],
    [['-x'], '"-x" has no option before it'],
  ])('refuses %j', (words, reason) => {
    const refused = read('sales', ...words);
    expect(refused).toEqual({ refused: expect.stringContaining(reason) as string });
  });

  it('is not fooled by the names of what every object has', () => {
    expect(read('sales', '--constructor', 'x')).toHaveProperty('refused');
    expect(read('sales', '--__proto__', 'x')).toHaveProperty('refused');
  });
});
