/** Faults in a record's make-up: fields that are missing, unknown or too many, and keys of free maps. */
import { PATTERNS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import type { CoreFile } from '../../read/yaml/core.ts';
import type { Path } from '../../read/raw.ts';
import { listed, withArticle } from '../finding.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import { isNumeral, isPlain, plainDigits } from './numerals.ts';
import { asRecord, exampleOf, isObject, sampleField, takesNumber, type Spotted } from './place.ts';
import { amiss, emptyWording, shown, suchAs, type Said, type Wording } from './say.ts';
import { wordingOf } from './wording.ts';

/** What is wrong at one place; `rule` where it is another than `schema`. */
export interface RecordFault extends Wording {
  readonly path: Path;
  readonly on?: 'key';
  readonly rule?: 'needs-quotes' | 'number-form';
}

/** A record lacks a field that it must have. */
export function missingField(place: Spotted, key: string): RecordFault | undefined {
  const record = asRecord(place.spec);
  return (
    record && {
      ...keyAt(place),
      message: `this ${thing(record)} has no ${key}`,
      hint: sampleField(key, record),
    }
  );
}

/** A record has a field that no table names. */
export function unknownField(place: Spotted, key: string): RecordFault | undefined {
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
  const fields = `the fields are ${listed(names)}`;
  return didYouMean(near, `take it out, or move what it says to note; ${fields}`);
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
export function badKey(place: Spotted, key: string): RecordFault | undefined {
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
    hint: didYouMean(near, `use one of ${spec.keys.join(', ')}`),
  };
}

/** A record has none of the fields of which it must have one, or more than one of them. */
export function wrongChoice(place: Spotted): RecordFault | undefined {
  const record = asRecord(place.spec);
  const { value } = place;
  const names = record?.oneOf ?? record?.atMostOneOf ?? [];
  const present = names.filter((name) => isObject(value) && Object.hasOwn(value, name));
  const second = present[1];
  if (record === undefined || !isObject(value) || Array.isArray(value)) return undefined;
  if (second === undefined)
    return {
      ...keyAt(place),
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
export function emptyList({ path, name }: Spotted): RecordFault {
  return {
    path,
    message: `${name} has no entry`,
    hint: 'add at least one, on a line that starts with a dash',
  };
}

/** A list names a word twice; `index` is the second of the two. */
export function namedTwice({ path, name, value }: Spotted, index: number): RecordFault {
  const word: unknown = Array.isArray(value) ? value[index] : undefined;
  return {
    path: [...path, index],
    message: `${name} names ${shown(String(word))} twice`,
    hint: 'take one of the two out',
  };
}

function keyAt({ path }: Spotted): { path: Path; on?: 'key' } {
  return typeof path.at(-1) === 'string' ? { path, on: 'key' } : { path };
}

function thing(record: RecordSpec): string {
  return record.title.toLowerCase();
}

/** What is wrong with a value that its schema refuses; `valueType` is a name in values.json. */
export function valueFault(place: Spotted, valueType: string, view: CoreFile): RecordFault {
  const { path, spec } = place;
  const said = saidAt(place, view);
  if (spec && !isScalar(spec)) return { path, ...blockWording(spec, said, place.value) };
  if (isObject(place.value)) return { path, ...partsWording(said, place.value) };
  if (place.value === null && said.text.trim() === '') return { path, ...emptyWording(said) };
  if (spec?.type === 'word') return { path, ...wordWording(spec.words, said) };
  if (takesNumber(spec) && isNumeral(said.text) && !isPlain(said.text))
    return numberForm(place, said);
  if (typeof place.value !== 'string' && fitsForm(valueType, said.text))
    return needsQuotes(place, said);
  return { path, ...wordingOf(valueType, said) };
}

/** The value as sentences name it. */
function saidAt({ path, name, spec }: Spotted, view: CoreFile): Said {
  return { name, text: view.text(path), example: exampleOf(spec) };
}

function isScalar(spec: FieldSpec): boolean {
  return spec.type !== 'list' && spec.type !== 'map' && spec.type !== 'record';
}

function blockWording(spec: FieldSpec, said: Said, value: unknown): Wording {
  const { name, example } = said;
  const list = spec.type === 'list';
  const parts = list ? 'entries' : 'fields';
  if (value === null)
    return {
      message: `${name} is empty`,
      hint: `write its ${parts} under it, such as ${example}, or take it out`,
    };
  return {
    message: list ? `${name} is not a list` : `${name} has no fields of its own`,
    hint: `write its ${parts} under it, such as ${example}`,
  };
}

function partsWording(said: Said, value: object): Wording {
  const what = Array.isArray(value) ? 'a list' : 'fields of its own';
  return {
    message: `${said.name} has ${what}, but one value belongs there`,
    hint: suchAs(said),
  };
}

const TRUTHS = new Map([
  ['true', 'yes'],
  ['y', 'yes'],
  ['false', 'no'],
  ['n', 'no'],
]);

function wordWording(words: readonly string[], said: Said): Wording {
  const meant = TRUTHS.get(said.text.toLowerCase()) ?? nearest(said.text, words);
  if (words.length === 1) return amiss(said, 'which is not known here', `write ${words.join()}`);
  const known = words.find((word) => word === meant);
  const hint = didYouMean(known, `write one of ${words.join(', ')}`);
  return amiss(said, 'which is not one of its words', hint);
}

/** A number in another notation than plain digits. */
function numberForm({ path, spec }: Spotted, said: Said): RecordFault {
  const digits = plainDigits(said.text);
  if (spec?.type === 'count' || digits === undefined || digits === said.text)
    return { path, rule: 'number-form', ...wordingOf(spec?.type ?? '', said) };
  return {
    path,
    rule: 'number-form',
    ...amiss(said, 'which other programs may read as another number', `write ${digits}`),
  };
}

function fitsForm(valueType: string, text: string): boolean {
  const form = PATTERNS[valueType];
  return form !== undefined && new RegExp(form, 'u').test(text);
}

/** A text that other readers would take for something else. */
function needsQuotes({ path, value }: Spotted, { name, text }: Said): RecordFault {
  const lowFire = /^[1-9]$/.test(text) ? `, or ${name}: "0${text}" for the low-fire cone` : '';
  return {
    path,
    rule: 'needs-quotes',
    message: `${name} is ${text} without quotes, which other readers take for ${taken(value)}`,
    hint: `write ${name}: "${text}"${name.startsWith('cone') ? lowFire : ''}`,
  };
}

function taken(value: unknown): string {
  if (value === null) return 'nothing';
  return typeof value === 'number' ? `the number ${value}` : `a yes or no`;
}

/** Faults of a sound value's text: a number that stands in another notation than plain digits. */
export function formFault(place: Spotted, view: CoreFile): RecordFault | undefined {
  const { spec, value } = place;
  if (typeof value !== 'number' || spec === undefined) return undefined;
  const said = saidAt(place, view);
  if (spec.type === 'word' && said.text !== String(value)) return numberForm(place, said);
  const fits = fitsForm(spec.type, value < 0 ? said.text.slice(1) : said.text);
  return takesNumber(spec) && !fits ? numberForm(place, said) : undefined;
}
