/** Where in a record a fault is, and what the schema has to say of that place. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import type { CoreFile } from '../../read/core.ts';

export type Path = readonly (string | number)[];

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
  return segments(pointer).reduce(below, start);
}

function segments(pointer: string): string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));
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
