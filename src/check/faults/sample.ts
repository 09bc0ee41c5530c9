/** Good values as they stand in a file, to show in a hint. */
import type { FieldSpec, RecordSpec } from '../../../schema/generated/fields.js';
import { isObject } from './place.ts';

// YAML 1.2.2, section 10.3.2 (core schema): null, booleans and numbers.
const CORE_WORD =
  /^(?:|~|null|Null|NULL|true|True|TRUE|false|False|FALSE|0o[0-7]+|0x[\da-fA-F]+|[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))$/;

const BARE = new Set(['amount', 'rate', 'number', 'count', 'quantity', 'discount', 'power']);

/** Whether a bare number may stand in the field. */
export function takesNumber(spec: FieldSpec | undefined): boolean {
  return spec !== undefined && BARE.has(spec.type);
}

/** The text with quotes where a YAML 1.2 core reader would else take it for something else than text. */
export function quoted(text: string): string {
  return CORE_WORD.test(text) ? `"${text}"` : text;
}

/** A good value of a field as it stands in a file; of a list, record or map, one of its lines. */
export function exampleOf(spec: FieldSpec | undefined): string {
  if (spec === undefined) return '';
  if (spec.type === 'list' || spec.type === 'record' || spec.type === 'map') return firstLine(spec);
  return takesNumber(spec) || spec.type === 'word' ? spec.example : quoted(spec.example);
}

function firstLine(spec: FieldSpec): string {
  const example: unknown = JSON.parse(spec.example || '""');
  const first: unknown = Array.isArray(example) ? (example as unknown[])[0] : example;
  return `${Array.isArray(example) ? '- ' : ''}${isObject(first) ? pair(first) : String(first)}`;
}

function pair(record: object): string {
  const [key = '', value] = Object.entries(record)[0] ?? [];
  return `${key}: ${typeof value === 'string' ? quoted(value) : JSON.stringify(value)}`;
}

/** What to write for a field that is not there yet. */
export function sampleField(key: string, record: RecordSpec): string {
  const spec = record.fields[key];
  const example = exampleOf(spec);
  if (spec?.type === 'list') return `add ${key} with its entries under it, such as ${example}`;
  if (spec?.type === 'record' || spec?.type === 'map')
    return `add ${key} with its fields under it, such as ${example}`;
  if (spec?.type === 'word' && spec.words.length > 1)
    return `add ${key} with one of ${spec.words.join(', ')}`;
  return `add it, such as ${key}: ${example}`;
}
