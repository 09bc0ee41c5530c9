// The schemas as values: loading them, and following a reference to what it means.
import { readFileSync } from 'node:fs';
import { URL } from 'node:url';

/** @import { Kind } from '../../src/book.ts' */

/**
 * A JSON Schema, as far as these schemas use it.
 * @typedef {object} Schema
 * @property {string} [$id]
 * @property {string} [$ref]
 * @property {Record<string, Schema>} [$defs]
 * @property {string} [title]
 * @property {string} [description]
 * @property {unknown[]} [examples]
 * @property {string | string[]} [type]
 * @property {unknown[]} [enum]
 * @property {string} [pattern]
 * @property {string[]} [required]
 * @property {Record<string, Schema>} [properties]
 * @property {Schema} [propertyNames]
 * @property {Schema | false} [additionalProperties]
 * @property {Schema} [items]
 * @property {Schema[]} [oneOf]
 * @property {Schema[]} [allOf]
 * @property {Schema} [not]
 * @property {Schema} [if]
 * @property {Schema} [then]
 * @property {Schema} [else]
 * @property {Kind[]} [x-refers-to] kinds of record that the id may name
 * @property {string[]} [x-words] words that may stand in place of an id
 * @property {string} [x-moves] what the field, or all fields of the file, moves
 */

/**
 * The kinds that have a schema of their own, `studio` first.
 * @type {readonly (Kind | 'studio')[]}
 */
export const NAMES = [
  'studio',
  'materials',
  'recipes',
  'products',
  'classes',
  'kilns',
  'tariffs',
  'channels',
  'bought',
  'reclaimed',
  'mixed',
  'pieces',
  'firings',
  'used',
  'counted',
  'orders',
  'sales',
  'advances',
  'consigned',
  'fairs',
  'spent',
  'tests',
  'filed',
];

/**
 * One published schema.
 * @param {string} name file name without `.json`
 * @returns {Schema}
 */
export function load(name) {
  /** @type {unknown} */
  const schema = JSON.parse(readFileSync(new URL(`../${name}.json`, import.meta.url), 'utf8'));
  return /** @type {Schema} */ (schema);
}

/**
 * The schema of one record: all of `studio.json`, one value of the mapping elsewhere.
 * @param {Schema} schema
 * @returns {Schema}
 */
export function recordOf(schema) {
  return schema.$defs?.['record'] ?? schema;
}

/**
 * Follows references: what the schema refers to, with the schema's own keywords over it.
 * @param {Schema} schema
 * @param {{ own: Schema, values: Schema }} within the file it stands in, and the shared values
 * @returns {Schema & { valueType?: string }} `valueType` is the name of the shared value
 */
export function meant(schema, within) {
  if (schema.$ref === undefined) return schema;
  const { $ref, ...rest } = schema;
  const [file = '', pointer = ''] = $ref.split('#/');
  const shared = file === 'values.json';
  const found = at(shared ? within.values : within.own, pointer.split('/'));
  if (found === undefined) throw new Error(`${$ref} leads nowhere`);
  const name = pointer.slice(pointer.lastIndexOf('/') + 1);
  return { ...meant(found, within), ...(shared ? { valueType: name } : {}), ...rest };
}

/**
 * What a pointer's steps lead to.
 * @param {unknown} whole
 * @param {readonly string[]} steps
 * @returns {Schema | undefined}
 */
function at(whole, [step, ...rest]) {
  if (step === undefined) return /** @type {Schema | undefined} */ (whole);
  if (typeof whole !== 'object' || whole === null) return undefined;
  return at(Reflect.get(whole, step), rest);
}

/**
 * Whether a value of the schema may be a bare number.
 * @param {Schema} schema with references followed
 * @returns {boolean}
 */
export function takesNumber(schema) {
  const types = [schema.type].flat();
  return (
    types.includes('number') ||
    types.includes('integer') ||
    (schema.enum ?? []).some((word) => typeof word === 'number')
  );
}
