/** Faults of one value: of another sort than the field's, without the quotes it needs, or not in its form. */
import { PATTERNS } from '../../../schema/generated/fields.js';
import type { FieldSpec } from '../../../schema/generated/fields.js';
import type { CoreFile } from '../../read/core.ts';
import { nearest } from '../nearest.ts';
import { isNumeral, isPlain, plainDigits } from './numerals.ts';
import { isObject, type Spotted } from './place.ts';
import type { Fault } from './record-faults.ts';
import { exampleOf, takesNumber } from './sample.ts';
import { amiss, emptyWording, suchAs, type Said, type Wording } from './say.ts';
import { wordingOf } from './wording.ts';

/** What is wrong with a value that its schema refuses; `valueType` is a name in values.json. */
export function valueFault(place: Spotted, valueType: string, view: CoreFile): Fault {
  const { path, spec } = place;
  const said = saidOf(place, view);
  if (spec && !isScalar(spec)) return { path, ...blockWording(spec, said, place.value) };
  if (isObject(place.value)) return { path, ...partsWording(said, place.value) };
  if (place.value === null && said.text.trim() === '') return { path, ...emptyWording(said) };
  if (spec?.type === 'word') return { path, ...wordWording(spec.words, said) };
  if (takesNumber(spec) && isOtherNotation(said.text)) return numberForm(place, said);
  if (lacksQuotes(place, valueType, said.text)) return needsQuotes(place, said);
  return { path, ...wordingOf(valueType, said) };
}

/** The value as sentences name it. */
export function saidOf({ path, name, spec }: Spotted, view: CoreFile): Said {
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
  const hint =
    meant !== undefined && words.includes(meant)
      ? `did you mean "${meant}"?`
      : `write one of ${words.join(', ')}`;
  return amiss(said, 'which is not one of its words', hint);
}

function isOtherNotation(text: string): boolean {
  return isNumeral(text) && !isPlain(text);
}

/** A number in another notation than plain digits. */
export function numberForm({ path, spec }: Spotted, said: Said): Fault {
  const digits = plainDigits(said.text);
  if (spec?.type === 'count' || digits === undefined || digits === said.text)
    return { path, rule: 'number-form', ...wordingOf(spec?.type ?? '', said) };
  return {
    path,
    rule: 'number-form',
    ...amiss(said, 'which other programs may read as another number', `write ${digits}`),
  };
}

function lacksQuotes({ value }: Spotted, valueType: string, text: string): boolean {
  return typeof value !== 'string' && fitsForm(valueType, text);
}

function fitsForm(valueType: string, text: string): boolean {
  const form = PATTERNS[valueType];
  return form !== undefined && new RegExp(form, 'u').test(text);
}

/** A text that other readers would take for something else. */
function needsQuotes({ path, value }: Spotted, { name, text }: Said): Fault {
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
export function formFault(place: Spotted, view: CoreFile): Fault | undefined {
  const { spec, value } = place;
  if (typeof value !== 'number' || spec === undefined) return undefined;
  const said = saidOf(place, view);
  if (spec.type === 'word' && said.text !== String(value)) return numberForm(place, said);
  const fits = fitsForm(spec.type, value < 0 ? said.text.slice(1) : said.text);
  return takesNumber(spec) && !fits ? numberForm(place, said) : undefined;
}
