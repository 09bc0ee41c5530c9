/** Faults in a record's make-up: fields that are missing, unknown or too many, and keys of free maps. */
import type { FieldSpec, RecordSpec } from '../../../schema/generated/fields.js';
import { listed, withArticle } from '../finding.ts';
import { nearest } from '../nearest.ts';
import { asRecord, isObject, type Path, type Spotted } from './place.ts';
import { sampleField } from './sample.ts';
import { shown, type Wording } from './say.ts';
import { wordingOf } from './wording.ts';

/** What is wrong at one place; `rule` where it is another than `schema`. */
export interface Fault extends Wording {
  readonly path: Path;
  readonly on?: 'key';
  readonly rule?: 'needs-quotes' | 'number-form';
}

/** A record lacks a field that it must have. */
export function missingField(place: Spotted, key: string): Fault | undefined {
  const record = asRecord(place.spec);
  return (
    record && {
      ...headOf(place),
      message: `this ${thing(record)} has no ${key}`,
      hint: sampleField(key, record),
    }
  );
}

/** A record has a field that no table names. */
export function unknownField(place: Spotted, key: string): Fault | undefined {
  const record = asRecord(place.spec);
  return (
    record && {
      path: [...place.path, key],
      on: 'key',
      message: `${withArticle(thing(record))} has no field ${shown(key)}`,
      hint: fieldHint(record, key),
    }
  );
}

function fieldHint(record: RecordSpec, key: string): string {
  const home = homeOf(record, key);
  if (home !== undefined) return `write ${key} in ${home}`;
  const names = Object.keys(record.fields);
  const near = nearest(key.replaceAll('_', '-'), names);
  if (near !== undefined) return `did you mean "${near}"?`;
  return `take it out, or move what it says to note; the fields are ${listed(names)}`;
}

/** The field whose own records have the key. */
function homeOf(record: RecordSpec, key: string): string | undefined {
  const found = Object.entries(record.fields).find(([, spec]) => {
    const inner = asRecord(spec.type === 'list' ? spec.of : spec);
    return inner !== undefined && Object.hasOwn(inner.fields, key);
  });
  if (found === undefined) return undefined;
  return found[1].type === 'list' ? `an entry of ${found[0]}` : found[0];
}

/** A free map has a key that is none of its words, or has not the form of its keys. */
export function badKey(place: Spotted, key: string): Fault | undefined {
  return place.spec?.type === 'map'
    ? { path: [...place.path, key], on: 'key', ...keyWording(place.spec, place.name, key) }
    : undefined;
}

function keyWording(spec: FieldSpec & { type: 'map' }, name: string, key: string): Wording {
  if (spec.keys === undefined)
    return wordingOf(spec.keyType, { name: `a key of ${name}`, text: key, example: '' });
  const near = nearest(key, spec.keys);
  return {
    message: `${shown(key)} is not one of the words for ${name}`,
    hint: near === undefined ? `use one of ${spec.keys.join(', ')}` : `did you mean "${near}"?`,
  };
}

/** A record has none of the fields of which it must have one, or more than one of them. */
export function wrongChoice(place: Spotted): Fault | undefined {
  const record = asRecord(place.spec);
  const { value } = place;
  const names = record?.oneOf ?? record?.atMostOneOf ?? [];
  const present = names.filter((name) => isObject(value) && Object.hasOwn(value, name));
  const second = present[1];
  if (record === undefined || !isObject(value) || Array.isArray(value)) return undefined;
  if (second === undefined)
    return {
      ...headOf(place),
      message: `this ${thing(record)} has none of ${listed(names)}`,
      hint: 'add exactly one of them',
    };
  return {
    path: [...place.path, second],
    on: 'key',
    message: `this ${thing(record)} has ${listed(present)}, but they exclude each other`,
    hint: 'keep the one that is meant, and take the rest out',
  };
}

/** A list that must not be empty is. */
export function emptyList({ path, name }: Spotted): Fault {
  return {
    path,
    message: `${name} has no entry`,
    hint: 'add at least one, on a line that starts with a dash',
  };
}

/** A list names a word twice; `index` is the second of the two. */
export function namedTwice({ path, name, value }: Spotted, index: number): Fault {
  const word: unknown = Array.isArray(value) ? value[index] : undefined;
  return {
    path: [...path, index],
    message: `${name} names ${shown(String(word))} twice`,
    hint: 'take one of the two out',
  };
}

function headOf({ path }: Spotted): { path: Path; on?: 'key' } {
  return typeof path.at(-1) === 'string' ? { path, on: 'key' } : { path };
}

function thing(record: RecordSpec): string {
  return record.title.toLowerCase();
}
