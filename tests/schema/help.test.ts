/** Every field has its help, and every example in it is a good value. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { FIELDS } from '../../schema/generated/fields.js';
import { NAMES, load, type Schema } from '../../schema/build/shapes.js';
import { KINDS } from '../../src/book.ts';

const ajv = new Ajv2020({ allErrors: true, strictRequired: false, allowUnionTypes: true });
ajv.addVocabulary(['x-refers-to', 'x-words', 'x-moves']);
for (const name of ['values', ...NAMES]) ajv.addSchema(load(name));

interface Help {
  readonly pointer: string;
  readonly schema: Schema;
}

/** The schema's parts that a person meets: fields, values of free maps, entries and named types. */
function parts({ pointer, schema }: Help): Help[] {
  const named = [
    ...Object.entries(schema.properties ?? {}).map(([key, part]) => [`properties/${key}`, part]),
    ...Object.entries(schema.$defs ?? {}).map(([key, part]) => [`$defs/${key}`, part]),
    ...(schema.additionalProperties ? [['additionalProperties', schema.additionalProperties]] : []),
    ...(schema.items?.title ? [['items', schema.items]] : []),
  ] as [string, Schema][];
  const found = named.map(([key, part]) => ({ pointer: `${pointer}/${key}`, schema: part }));
  return [...found.filter(isTold), ...found.flatMap(parts)];
}

// What only refers to a named type has that type's help.
function isTold({ schema }: Help): boolean {
  return Object.keys(schema).join() !== '$ref';
}

describe.each(['values', ...NAMES])('%s.json', (name) => {
  const schema = load(name);
  const all = [
    ...(schema.properties ? [{ pointer: '#', schema }] : []),
    ...parts({ pointer: '#', schema }),
  ];

  test('has parts with help', () => {
    expect(all.length).toBeGreaterThan(4);
  });

  test.each(all.map((help) => [help.pointer, help] as const))('%s', (pointer, { schema: part }) => {
    expect(part.title).toMatch(/^[A-Z]/);
    expect(part.description).toMatch(/^.{4,}[.]$/s);
    expect(part.examples?.length).toBeGreaterThan(0);
    const validate = ajv.compile({ $ref: `${name}.json${pointer}` });
    for (const example of part.examples ?? [])
      expect([example, validate(example) || validate.errors]).toEqual([example, true]);
  });

  if (schema.additionalProperties === undefined || schema.additionalProperties === false) return;
  test('the example of a whole file passes', () => {
    const validate = ajv.compile({ $ref: `${name}.json` });
    expect(schema.title).toMatch(/^[A-Z]/);
    expect(schema.examples?.length).toBeGreaterThan(0);
    for (const example of schema.examples ?? [])
      expect([validate(example), validate.errors]).toEqual([true, null]);
  });
});

test('every kind of the book has a schema, and the settings', () => {
  expect([...NAMES].sort()).toEqual([...KINDS, 'studio'].sort());
  expect(Object.keys(FIELDS).sort()).toEqual([...KINDS, 'studio'].sort());
});

test('records are closed', () => {
  for (const name of NAMES)
    expect(ajv.validate(`${name}.json`, { x1: { 'no-such-field': 1 } })).toBe(false);
});
