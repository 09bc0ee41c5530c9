/** Edits of single fields: every field of a kind by its path, and a record before and after one of them. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import { textValidators } from '../../../schema/generated/text.js';
import type { Kind } from '../../../src/book.ts';
import type { Raw, RawMap } from '../../../src/read/raw.ts';
import { valueFor, type Values } from './field-values.ts';

/** A field by its keys; `lines`, `count` is one in any line. */
export interface Field {
  readonly keys: readonly string[];
  readonly specs: readonly FieldSpec[];
}

/** A record before and after one field of it was set, added or taken away; both are sound. */
export interface Edit {
  readonly id: string;
  /** Whether the record was given what the field stands in before. */
  readonly isFilled: boolean;
  readonly before: RawMap;
  readonly after: RawMap;
}

/** Every field of a kind, and every field of the records and lists in it. */
export function fieldsOf(kind: Kind | 'studio'): Field[] {
  return fieldsIn(FIELDS[kind], { keys: [], specs: [] });
}

function fieldsIn({ fields }: RecordSpec, around: Field): Field[] {
  return Object.entries(fields).flatMap(([key, spec]) => {
    const field = { keys: [...around.keys, key], specs: [...around.specs, spec] };
    const inner = recordIn(spec);
    return inner ? [field, ...fieldsIn(inner, field)] : [field];
  });
}

function recordIn(spec: FieldSpec): RecordSpec | undefined {
  const one = spec.type === 'list' ? spec.of : spec;
  return one.type === 'record' ? one : undefined;
}

/** Records of a kind that may be edited, and what new values are made of. */
export interface Editing {
  readonly kind: Kind | 'studio';
  readonly records: Readonly<Record<string, RawMap>>;
  readonly values: Values;
}

/** Tries edits of the field in some records; undefined where none of them left a sound one. */
export function editOf({ kind, records, values }: Editing, field: Field): Edit | undefined {
  const ids = Object.keys(records);
  for (let turn = 0; ids.length > 0 && turn < 40; turn += 1) {
    const id = values.random.pick(ids);
    const record = records[id] ?? {};
    const before = turn < 20 ? record : (withAround(record, field, values) as RawMap);
    const after = edited(before, field, values) as RawMap;
    if (
      JSON.stringify(before) !== JSON.stringify(after) &&
      isSound(kind, before) &&
      isSound(kind, after)
    )
      return { id, before, after, isFilled: before !== record };
  }
  return undefined;
}

function isSound(kind: Kind | 'studio', record: RawMap): boolean {
  return textValidators[kind](record);
}

/** The record with the lists and records that the field stands in, where it lacks them. */
function withAround(raw: Raw, { keys, specs }: Field, values: Values): Raw {
  const [key = '', ...others] = keys;
  const [spec, ...inner] = specs;
  if (typeof raw === 'string' || !spec || others.length === 0) return raw;
  if (isList(raw)) return raw.map((each) => withAround(each, { keys, specs }, values));
  const value = raw[key] ?? valueFor(spec, values);
  return { ...raw, [key]: withAround(value, { keys: others, specs: inner }, values) };
}

function edited(raw: Raw, field: Field, values: Values): Raw {
  if (typeof raw === 'string') return raw;
  if (isList(raw)) {
    const at = values.random.int(0, raw.length - 1);
    return raw.map((each, index) => (index === at ? edited(each, field, values) : each));
  }
  const [key = '', ...keys] = field.keys;
  const [spec, ...specs] = field.specs;
  const value = raw[key];
  if (!spec || (keys.length > 0 && value === undefined)) return raw;
  if (keys.length > 0) return { ...raw, [key]: edited(value ?? '', { keys, specs }, values) };
  const { [key]: gone, ...rest } = raw;
  if (gone !== undefined && values.random.chance(0.25)) return rest;
  return { ...raw, [key]: valueFor(spec, values) };
}

function isList(raw: Raw): raw is readonly Raw[] {
  return Array.isArray(raw);
}
