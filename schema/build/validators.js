// Compiles the schemas into validators that need no compiling when the program runs.
import { Ajv2020 } from 'ajv/dist/2020.js';
import standalone from 'ajv/dist/standalone/index.js';
import { NAMES, load, meant } from './shapes.js';

/** @import { Schema } from './shapes.js' */

/**
 * Code of validators for records whose scalars are all texts: yes or no, as fast as can be.
 * @param {Set<string>} numberKeys
 * @returns {string} statements that put one validator a kind on `exports`
 */
export function textValidators(numberKeys) {
  const values = load('values');
  const code = compiled(false, (own) => textForm(own, { own, values, numberKeys }));
  return code.replace(ERROR_OBJECT, '0');
}

// Of these validators nobody asks what is wrong; the descriptions are a third of their code.
const ERROR_OBJECT = /\{instancePath(?::[^{}]*)?,schemaPath:.*?\}(?=\];|;)/g;

/**
 * Code of validators for values as a YAML 1.2 core reader sees them: the published schemas, with
 * every error.
 * @returns {string} statements that put one validator a kind on `exports`
 */
export function coreValidators() {
  return compiled(true, (own) => own);
}

/**
 * @param {boolean} allErrors
 * @param {(schema: Schema) => Schema} form
 * @returns {string}
 */
function compiled(allErrors, form) {
  const ajv = new Ajv2020({
    allErrors,
    messages: false,
    strictRequired: false,
    allowUnionTypes: true,
    code: { source: true, optimize: 2 },
  });
  ajv.addVocabulary(['x-refers-to', 'x-words', 'x-moves']);
  for (const name of ['values', ...NAMES]) ajv.addSchema(form(load(name)));
  return standalone(ajv, Object.fromEntries(NAMES.map((name) => [name, recordId(name)])));
}

/**
 * @param {string} name
 * @returns {string}
 */
function recordId(name) {
  return name === 'studio' ? 'studio.json' : `${name}.json#/$defs/record`;
}

const NUMERIC = ['number', 'integer'];
// What means nothing for texts, or nothing for a validator.
const LEFT_OUT = ['minimum', 'maximum', 'exclusiveMinimum', 'exclusiveMaximum'].concat([
  'title',
  'description',
  'examples',
]);
const NAMED_PARTS = ['properties', '$defs'];
const PARTS = ['items', 'propertyNames', 'additionalProperties', 'not', 'if', 'then', 'else'];

/**
 * The schema for values whose scalars are all texts.
 * @param {Schema} schema
 * @param {{ own: Schema, values: Schema, numberKeys: Set<string> }} within
 * @returns {Schema}
 */
function textForm(schema, within) {
  const kept = Object.entries(schema).filter(([key]) => !LEFT_OUT.includes(key));
  /** @type {Schema} */
  const form = Object.fromEntries(kept.map(([key, value]) => [key, partForm(key, value, within)]));
  if (Array.isArray(schema.type)) form.type = schema.type.filter((type) => !NUMERIC.includes(type));
  if (schema.enum) form.enum = schema.enum.filter((word) => typeof word === 'string');
  return guardKeys(form, schema, within);
}

/**
 * @param {string} key
 * @param {unknown} value
 * @param {{ own: Schema, values: Schema, numberKeys: Set<string> }} within
 * @returns {unknown}
 */
function partForm(key, value, within) {
  if (typeof value !== 'object' || value === null) return value;
  if (PARTS.includes(key)) return textForm(value, within);
  if (!NAMED_PARTS.includes(key)) return value;
  /** @type {[string, Schema][]} */
  const parts = Object.entries(value);
  return Object.fromEntries(parts.map(([name, part]) => [name, textForm(part, within)]));
}

/**
 * Keeps free keys with texts off the keys where the fast reader lets a bare number pass: under
 * such a key the text would hide that it is unquoted.
 * @param {Schema} form
 * @param {Schema} schema
 * @param {{ own: Schema, values: Schema, numberKeys: Set<string> }} within
 * @returns {Schema}
 */
function guardKeys(form, schema, within) {
  if (!schema.additionalProperties || schema.propertyNames === undefined) return form;
  if (meant(schema.additionalProperties, within).valueType !== 'text') return form;
  const guard = { not: { enum: [...within.numberKeys] } };
  return { ...form, propertyNames: { allOf: [form.propertyNames ?? {}, guard] } };
}
