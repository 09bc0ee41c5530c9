/** Where a bare number may stand is one matter for all schemas: the fast reader knows only the key. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import { textValidators } from '../../schema/generated/text.js';
import { NAMES, load, meant, type Schema } from '../../schema/build/shapes.js';

const ajv = new Ajv2020({ strictRequired: false, allowUnionTypes: true });
ajv.addVocabulary(['x-refers-to', 'x-words', 'x-moves']);
for (const name of ['values', ...NAMES]) ajv.addSchema(load(name));

const NUMBERS = [0, 1, 2.5, 7, 24, 2025];
const NUMBER_TEXTS = ['0', '1', '2.5', '7', '24', '04', '1e3', '0x1F', '.5', '-1'];

interface Field {
  readonly key: string;
  readonly takesNumber: boolean;
  readonly takesNumberText: boolean;
}

/** Every named field of every schema, by the verdict of its own schema. */
function allFields(): Field[] {
  const values = load('values');
  return NAMES.flatMap((name) =>
    fieldsOf(`${name}.json#`, load(name), { own: load(name), values }),
  ).concat(fieldsOf('values.json#', values, { own: values, values }));
}

function fieldsOf(
  pointer: string,
  schema: Schema,
  within: { own: Schema; values: Schema },
): Field[] {
  const here = Object.keys(schema.properties ?? {}).map((key) => {
    const validate = ajv.compile({ $ref: `${pointer}/properties/${key}` });
    return {
      key,
      takesNumber: NUMBERS.some((number) => validate(number)),
      takesNumberText: NUMBER_TEXTS.some((text) => validate(text)),
    };
  });
  const inner = [
    ...Object.entries(schema.properties ?? {}).map(([key, part]) => [`properties/${key}`, part]),
    ...Object.entries(schema.$defs ?? {}).map(([key, part]) => [`$defs/${key}`, part]),
  ] as [string, Schema][];
  const keys = schema.additionalProperties
    ? (meant(schema.propertyNames ?? {}, within).enum ?? [])
    : [];
  return [
    ...here,
    ...inner.flatMap(([key, part]) => fieldsOf(`${pointer}/${key}`, part, within)),
    ...keys.map((key) => {
      const validate = ajv.compile({ $ref: `${pointer}/additionalProperties` });
      const takesNumber = NUMBERS.some((number) => validate(number));
      return { key: String(key), takesNumber, takesNumberText: takesNumber };
    }),
  ];
}

const FIELDS = allFields();

test('the keys are exactly those of fields that take a number', () => {
  const taking = FIELDS.filter(({ takesNumber }) => takesNumber).map(({ key }) => key);
  expect([...NUMBER_KEYS].sort()).toEqual([...new Set(taking)].sort());
  expect(taking).toContain('s-crack');
});

test('no text field that could hold the text of a number shares a key with a field of numbers', () => {
  const mixedUp = FIELDS.filter(
    ({ key, takesNumber, takesNumberText }) =>
      NUMBER_KEYS.has(key) && !takesNumber && takesNumberText,
  );
  expect(mixedUp).toEqual([]);
  expect(FIELDS.filter(({ key }) => key === 'hours').length).toBeGreaterThan(2);
});

test('free keys that are number keys too are left to the closer look', () => {
  const mix = { date: '2026-03-08', recipe: 'x', 'base-weight': '1 kg' };
  expect(textValidators.mixed({ ...mix, lots: { silica: '4471' } })).toBe(true);
  expect(textValidators.mixed({ ...mix, lots: { other: '4471' } })).toBe(false);
  const studio = { format: '1', name: 'x', currency: 'USD' };
  expect(textValidators.studio({ ...studio, categories: { glass: '22' } })).toBe(true);
  expect(textValidators.studio({ ...studio, categories: { price: '22' } })).toBe(false);
});
