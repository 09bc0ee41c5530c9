/** Faults in a record's make-up: fields that are missing, unknown or too many, and keys of free maps. */
import { PATTERNS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import { inQuotes, type CoreFile } from '../../read/yaml/core.ts';
import type { Path } from '../../read/raw.ts';
import { isDay } from '../../number/date.ts';
import type { Finding, Spot } from '../../problem.ts';
import { listed } from '../finding.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import { isNumeral, isPlain, plainDigits } from './numerals.ts';
import {
  asRecord,
  exampleOf,
  fieldLine,
  isObject,
  sampleField,
  takesNumber,
  type Spotted,
} from './place.ts';
import { amiss, emptyWording, shown, suchAs, type Said, type Wording } from './say.ts';
import { wordingOf } from './wording.ts';

/** What is wrong at one place; `rule` where it is another than `schema`. */
export interface RecordFault extends Wording, Pick<Spot, 'on' | 'through'> {
  readonly path: Path;
  readonly rule?: 'needs-quotes' | 'number-form';
  /** The field that is missing, where that is the fault. */
  readonly lacks?: string;
  readonly meaning?: Finding['meaning'];
}

/** A record lacks a field that it must have. */
export function missingField(place: Spotted, key: string): RecordFault | undefined {
  const record = asRecord(place.spec);
  return (
    record && {
      ...keyAt(place),
      message: `this ${thing(record)} has no ${key}`,
      lacks: key,
      hint: dayOfId(place, key) ?? sampleField(key, record),
    }
  );
}

/** The day that stands in an id as `add` makes it is most likely the record's. */
function dayOfId({ path }: Spotted, key: string): string | undefined {
  if (key !== 'date' || path.length > 1) return undefined;
  const [, year = '', month = '', day = ''] =
    /^[a-z](\d\d)(\d\d)(\d\d)/.exec(String(path[0])) ?? [];
  const date = `20${year}-${month}-${day}`;
  return isDay(date) ? `add date: ${date}, the day in its id, or the right one` : undefined;
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
  const near = meantWord(key, spec.keys);
  return {
    message: `${shown(key)} is not one of the words for ${name}`,
    hint: didYouMean(near, `write one of ${spec.keys.join(', ')}`),
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
      hint: `add exactly one of them, such as ${fieldLine(names[0] ?? '', record)}`,
    };
  return {
    path: [...place.path, second],
    on: 'key',
    message: `this ${thing(record)} has ${listed(present)}, but only one of them can be there`,
    hint: `take ${listed(present, 'or')} out, whichever is not meant`,
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
    hint: 'take this one out',
  };
}

function keyAt({ path }: Spotted): { path: Path; on?: 'key' } {
  return typeof path.at(-1) === 'string' ? { path, on: 'key' } : { path };
}

/** What a record is called in a sentence. */
export function thing(record: RecordSpec): string {
  return record.title.toLowerCase();
}

/** What is wrong with a value that its schema refuses; `valueType` is a name in values.json. */
export function valueFault(place: Spotted, valueType: string, view: CoreFile): RecordFault {
  const { path, spec } = place;
  const said = saidAt(place, view);
  if (spec && !isScalar(spec)) return { path, ...blockWording(spec, said, place.value) };
  if (isObject(place.value)) return { path, ...partsWording(said, place.value) };
  if (place.value === null && said.text.trim() === '')
    return { path, ...nothingThere(place, said, view) };
  if (spec?.type === 'word') return { path, ...wordWording(spec.words, said) };
  if (takesNumber(spec) && isNumeral(said.text) && !isPlain(said.text))
    return numberForm(place, said);
  if (typeof place.value !== 'string' && fitsForm(valueType, said.text))
    return needsQuotes(place, said);
  return { path, ...meantBy(spec, said), ...wordingOf(valueType, said) };
}

/** Which record a text may mean that can't be an id, for it may be its name. */
function meantBy(spec: FieldSpec | undefined, { text }: Said): Pick<RecordFault, 'meaning'> {
  return spec?.type === 'reference'
    ? { meaning: { id: text, to: spec.to, words: spec.words ?? [] } }
    : {};
}

/** A text may have been taken for a comment. */
function nothingThere({ path, spec }: Spotted, said: Said, view: CoreFile): Wording {
  const comment = spec?.type === 'text' ? view.commentAfter?.(path) : undefined;
  if (comment === undefined) return emptyWording(said);
  return {
    message: `${said.name} is empty, for what comes after a # is a comment`,
    hint: `write it as ${said.name}: ${inQuotes(comment)}, with quotes, if the # belongs to it`,
  };
}

/** The value as sentences name it. */
function saidAt({ path, name, spec }: Spotted, view: CoreFile): Said {
  const said = { name, text: view.text(path), example: exampleOf(spec) };
  return path[1] === 'lines' && (name === 'count' || name === 'price')
    ? { ...said, below: '; what was brought back has returned: yes beside it' }
    : said;
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
  const meant = TRUTHS.get(said.text.toLowerCase()) ?? meantWord(said.text, words);
  if (words.length === 1) return amiss(said, 'which is not known here', `write ${words.join()}`);
  const known = words.find((word) => word === meant);
  const hint = didYouMean(known, `write one of ${words.join(', ')}`);
  return amiss(said, 'which is not one of its words', hint);
}

/** The nearest word, or the only one that begins as this does or that this begins as. */
function meantWord(text: string, words: readonly string[]): string | undefined {
  const begun = text.toLowerCase();
  const alike = words.filter(
    (word) => begun.length >= 3 && (word.startsWith(begun) || begun.startsWith(word)),
  );
  return nearest(text, words) ?? (alike.length === 1 ? alike[0] : undefined);
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
