/** Where in a record a fault is, and what the schema has to say of that place. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import { isCoreValue, type CoreFile } from '../../read/yaml/core.ts';
import type { Path } from '../../read/raw.ts';

/** A record that is looked at closely. */
export interface Suspect {
  readonly kind: Kind | 'studio';
  readonly file: string;
  /** Where the record is in the file: its id, or nothing for the settings. */
  readonly path: Path;
  /** The record as a YAML 1.2 core reader sees it. */
  readonly value: unknown;
  readonly view: CoreFile;
}

/** A value in a record. */
export interface Spotted {
  /** From the file's root. */
  readonly path: Path;
  readonly value: unknown;
  /** Undefined for what no schema knows. */
  readonly spec: FieldSpec | undefined;
  /** Name of the field, as in the file: for an entry of a list, the list's. */
  readonly name: string;
}

/** The value at a JSON pointer below a record. */
export function spotted(suspect: Suspect, pointer: string): Spotted {
  const start: Spotted = {
    path: suspect.path,
    value: suspect.value,
    spec: FIELDS[suspect.kind],
    name: String(suspect.path[0] ?? 'studio.yaml'),
  };
  const keys = pointer.split('/').slice(1);
  return keys.map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~')).reduce(below, start);
}

/** The value under a key or index of a value. */
export function below({ path, value, spec, name }: Spotted, key: string): Spotted {
  const list = Array.isArray(value);
  const part: unknown =
    isObject(value) && Object.hasOwn(value, key) ? Reflect.get(value, key) : undefined;
  const inner = spec && innerSpec(spec, list, key);
  return {
    path: [...path, list ? Number(key) : key],
    value: part,
    spec: inner && chosen(inner, part),
    name: list ? name : key,
  };
}

function innerSpec(spec: FieldSpec, list: boolean, key: string): FieldSpec | undefined {
  if (list) return spec.type === 'list' ? spec.of : undefined;
  if (spec.type === 'record') return Object.hasOwn(spec.fields, key) ? spec.fields[key] : undefined;
  return spec.type === 'map' ? spec.of : undefined;
}

function chosen(spec: FieldSpec, value: unknown): FieldSpec {
  if (spec.type !== 'either') return spec;
  return isObject(value) && !Array.isArray(value) ? spec.record : spec.other;
}

/** Whether a value has parts: a list or a mapping. */
export function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

/** The spec of a record, where a place is one. */
export function asRecord(spec: FieldSpec | undefined): RecordSpec | undefined {
  return spec?.type === 'record' ? spec : undefined;
}

const BARE = new Set([
  'amount',
  'rate',
  'number',
  'count',
  'quantity',
  'discount',
  'power',
  'length',
]);

/** Whether a bare number may stand in the field. */
export function takesNumber(spec: FieldSpec | undefined): boolean {
  return spec !== undefined && BARE.has(spec.type);
}

/** The text with quotes where a YAML 1.2 core reader would else take it for something else than text. */
function quoted(text: string): string {
  return isCoreValue(text) ? `"${text}"` : text;
}

/** A good value of a field as it stands in a file; of a list, record or map, one of its lines. */
export function exampleOf(spec: FieldSpec | undefined): string {
  if (spec === undefined) return '';
  if (spec.type === 'list' || spec.type === 'record' || spec.type === 'map')
    return firstExample(spec);
  return takesNumber(spec) || spec.type === 'word' ? spec.example : quoted(spec.example);
}

function firstExample(spec: FieldSpec): string {
  const example: unknown = JSON.parse(spec.example || '""');
  const first: unknown = Array.isArray(example) ? (example as unknown[])[0] : example;
  return `${Array.isArray(example) ? '- ' : ''}${isObject(first) ? pair(first) : String(first)}`;
}

function pair(record: object): string {
  const [key = '', value] = Object.entries(record)[0] ?? [];
  return `${key}: ${typeof value === 'string' ? quoted(value) : JSON.stringify(value)}`;
}

/** A field with a good value, as a line of the file. */
export function fieldLine(key: string, record: RecordSpec): string {
  return `${key}: ${exampleOf(record.fields[key])}`;
}

/** What to write for a field that is not there yet. */
export function sampleField(key: string, record: RecordSpec): string {
  const spec = record.fields[key];
  const example = exampleOf(spec);
  if (spec?.type === 'list') return `add ${key} with its entries under it, such as ${example}`;
  if (spec?.type === 'record' || spec?.type === 'map')
    return `add ${key} with its fields under it, such as ${example}`;
  const words = spec?.type === 'word' && spec.words.length > 1 ? spec.words.join(', ') : '';
  const others = words === '' ? '' : `; the words are ${words}`;
  return `add it, such as ${fieldLine(key, record)}${others}`;
}
