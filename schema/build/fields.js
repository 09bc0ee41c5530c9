// Derives from the schemas what the program asks of them: what each field holds, and where a number may stand.
import { NAMES, load, meant, recordOf, takesNumber } from './shapes.js';

/** @import { Schema } from './shapes.js' */
/** @import { FieldSpec, RecordSpec } from './spec.ts' */

/** @typedef {{ own: Schema, values: Schema }} Within */

/**
 * What a shared value is read as; the others are read as plain text.
 * @type {Readonly<Record<string, import('./spec.ts').ScalarType>>}
 */
const READ_AS = {
  date: 'day',
  paid: 'paid',
  time: 'time',
  amount: 'amount',
  'amount-or-refund': 'amount',
  rate: 'rate',
  number: 'number',
  'positive-number': 'number',
  density: 'number',
  count: 'count',
  'positive-count': 'count',
  quantity: 'quantity',
  'positive-quantity': 'quantity',
  weight: 'quantity',
  'positive-weight': 'quantity',
  'weight-or-volume': 'quantity',
  energy: 'quantity',
  percent: 'percent',
  share: 'percent',
  discount: 'discount',
  cone: 'cone',
  distance: 'measured',
  length: 'length',
  temperature: 'measured',
  power: 'power',
  'heat-content': 'heat-content',
};

/**
 * The specs of all kinds.
 * @returns {Record<string, RecordSpec>}
 */
export function allFields() {
  const values = load('values');
  return Object.fromEntries(
    NAMES.map((name) => {
      const own = load(name);
      return [name, recordSpec(recordOf(own), { own, values })];
    }),
  );
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @returns {FieldSpec}
 */
function specOf(schema, within) {
  const whole = meant(schema, within);
  if (whole.if) return eitherSpec(whole, within);
  if (whole.properties) return recordSpec(whole, within);
  const told = label(whole);
  if (whole.items) return { type: 'list', ...told, of: specOf(whole.items, within) };
  if (whole.additionalProperties) return mapSpec(whole, within);
  const words = whole['x-words'];
  const to = whole['x-refers-to'];
  if (to) return { type: 'reference', ...told, to, ...(words ? { words } : {}) };
  if (whole.enum) return { type: 'word', ...told, words: [...new Set(whole.enum.map(String))] };
  if (words) return { type: 'text', ...told, words };
  return { type: READ_AS[whole.valueType ?? ''] ?? 'text', ...told };
}

/**
 * @param {Schema} schema
 * @returns {{ title: string, example: string }}
 */
function label(schema) {
  const example = schema.examples?.[0] ?? '';
  return {
    title: schema.title ?? '',
    example: typeof example === 'string' ? example : JSON.stringify(example),
  };
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @returns {RecordSpec}
 */
function recordSpec(schema, within) {
  const { oneOf, allOf } = schema;
  const excluded = (allOf ?? []).flatMap((part) => part.not?.required ?? []);
  return {
    type: 'record',
    ...label(schema),
    fields: Object.fromEntries(
      Object.entries(schema.properties ?? {}).map(([key, field]) => [key, specOf(field, within)]),
    ),
    required: schema.required ?? [],
    ...(oneOf ? { oneOf: oneOf.flatMap((part) => part.required ?? []) } : {}),
    ...(allOf ? { atMostOneOf: [...new Set(excluded)] } : {}),
  };
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @returns {FieldSpec}
 */
function mapSpec(schema, within) {
  const keys = meant(schema.propertyNames ?? {}, within);
  const keysTo = keys['x-refers-to'];
  return {
    type: 'map',
    ...label(schema),
    of: specOf(
      schema.additionalProperties === false ? {} : (schema.additionalProperties ?? {}),
      within,
    ),
    keyType: keys.valueType ?? 'text',
    ...(keys.enum ? { keys: keys.enum.map(String) } : {}),
    ...(keysTo ? { keysTo } : {}),
  };
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @returns {FieldSpec}
 */
function eitherSpec(schema, within) {
  return {
    type: 'either',
    ...label(schema),
    record: specOf(schema.then ?? {}, within),
    other: specOf(schema.else ?? {}, within),
  };
}

/**
 * What the schemas say of each field of each kind, by its place in the record: `meter.before`; of the
 * kind itself in the place of none, without what its keys are.
 * @returns {Record<string, Record<string, string>>}
 */
export function allDescriptions() {
  const values = load('values');
  return Object.fromEntries(
    NAMES.map((name) => {
      const own = load(name);
      const [about = ''] = (own.description ?? '').split(' Each key');
      const fields = Object.fromEntries(describedIn(recordOf(own), { own, values }, []));
      return [name, { '': about, ...fields }];
    }),
  );
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @param {readonly string[]} path
 * @returns {[string, string][]}
 */
function describedIn({ properties = {} }, within, path) {
  return Object.entries(properties).flatMap(([key, field]) => {
    const whole = meant(field, within);
    const place = [...path, key];
    const part = whole.items ?? whole.then;
    return [
      [place.join('.'), whole.description ?? ''],
      ...describedIn(part ? meant(part, within) : whole, within, place),
    ];
  });
}

/**
 * The keys under which a bare number may stand, in whatever kind.
 * @returns {Set<string>}
 */
export function numberKeys() {
  const values = load('values');
  /** @type {Set<string>} */
  const keys = new Set();
  for (const own of NAMES.map(load)) gather(recordOf(own), { own, values }, keys);
  return keys;
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @param {Set<string>} keys
 */
function gather(schema, within, keys) {
  for (const [key, field] of Object.entries(schema.properties ?? {})) {
    const whole = meant(field, within);
    if (takesNumber(whole)) keys.add(key);
    gather(whole, within, keys);
  }
  for (const part of [schema.items, schema.then])
    if (part) gather(meant(part, within), within, keys);
  if (schema.additionalProperties && takesNumber(meant(schema.additionalProperties, within)))
    for (const key of meant(schema.propertyNames ?? {}, within).enum ?? []) keys.add(String(key));
}

/**
 * The form of each shared value's text.
 * @returns {Record<string, string>}
 */
export function patterns() {
  const shared = Object.entries(load('values').$defs ?? {});
  return Object.fromEntries(
    shared.flatMap(([name, { pattern }]) => (pattern === undefined ? [] : [[name, pattern]])),
  );
}
