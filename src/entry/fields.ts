/** The fields of a kind as options: their names, where their values go, and what may stand in them. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { nearest } from '../nearest.ts';
import { isList, newMapping, valueAt, withValue, type RawMap } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import type { Form } from './form.ts';
import { formOf } from './forms.ts';

/** One option of a kind, and the field that it fills. */
export interface FieldOption {
  /** Without the hyphens: `clay-each`, `line`. */
  readonly name: string;
  /** The field's place in the record; a list within a new recipe's only version has index 0 above it. */
  readonly path: readonly (string | number)[];
  /** Of a list or a mapping, the whole one. */
  readonly spec: FieldSpec;
  /** What to call it in front of a person. */
  readonly title: string;
  /** A good value as it is typed. */
  readonly example: string;
  /** Whether every record of the kind has it; also where a default steps in. */
  readonly required: boolean;
  /** Whether it may be given again and again: lists and mappings. */
  readonly repeats: boolean;
  /** How a line of it reads, where that takes more than one value. */
  readonly form?: Form;
}

/** The options of a kind, in the order in which the fields are written. */
export function fieldOptions(kind: Kind): readonly FieldOption[] {
  return optionsIn(kind, FIELDS[kind], { path: [], prefix: '', required: true });
}

/** Fields of a kind of which exactly one, or at most one, may be there: each group's names. */
export function onlyOneOf(kind: Kind): readonly (readonly string[])[] {
  const { oneOf, atMostOneOf } = FIELDS[kind];
  return [oneOf, atMostOneOf].filter((names) => names !== undefined);
}

interface Holder {
  readonly path: readonly (string | number)[];
  /** What the names within begin with: `clay-`. */
  readonly prefix: string;
  /** Its own title, where the titles within do not say enough alone. */
  readonly title?: string;
  readonly required: boolean;
}

function optionsIn(kind: Kind, record: RecordSpec, holder: Holder): FieldOption[] {
  return Object.entries(record.fields).flatMap(([name, spec]) => {
    if (isFromList(name, spec)) return [];
    const path = [...holder.path, name];
    const required = holder.required && record.required.includes(name);
    const form = formOf(kind, path.filter((step) => typeof step === 'string').join('.'));
    if (spec.type === 'record')
      return optionsIn(kind, spec, { path, prefix: `${name}-`, required, title: spec.title });
    // A new definition has its one version, and no changes yet.
    if (!form && spec.type === 'list' && spec.of.type === 'record')
      return required ? optionsIn(kind, spec.of, { path: [...path, 0], prefix: '', required }) : [];
    const title = titleIn(holder, spec.title);
    return [optionFor({ name: nameIn(holder, name), path, required, title }, spec, form)];
  });
}

/** Whether a field says which row of a list a record is from: nobody types that. */
function isFromList(name: string, { type }: FieldSpec): boolean {
  return name === 'from' && type === 'record';
}

// A recipe's versions have notes of their own beside the recipe's.
function nameIn({ prefix, path }: Holder, name: string): string {
  const isInner = path.includes(0) && name === 'note';
  return isInner ? `version-${name}` : prefix + name;
}

function titleIn(holder: Holder, title: string): string {
  if (holder.title === undefined || holder.title === title) return title;
  return `${holder.title}, ${title.toLowerCase()}`;
}

function optionFor(
  named: Pick<FieldOption, 'name' | 'path' | 'required' | 'title'>,
  spec: FieldSpec,
  form: Form | undefined,
): FieldOption {
  const repeats = spec.type === 'list' || spec.type === 'map';
  if (!form) return { ...named, spec, repeats, example: exampleOf(spec) };
  return { ...named, name: form.option, spec, repeats, example: form.examples[0] ?? '', form };
}

function exampleOf(spec: FieldSpec): string {
  return spec.type === 'list' ? spec.of.example : spec.example;
}

/** What was typed for a kind, and the command's other options, for did-you-mean. */
interface TypedOptions {
  readonly kind: Kind;
  /** Options and values as they came: `--line`, `2 mug at 38`, `--paid=no`. */
  readonly words: readonly string[];
  /** Names of the options that are none of a record's fields, without hyphens. */
  readonly others: readonly string[];
}

/** The record of the options; each value is taken as it was typed, without the blanks around it. */
export function readOptions(typed: TypedOptions): { readonly fields: RawMap } | Refused {
  const options = new Map(fieldOptions(typed.kind).map((option) => [option.name, option]));
  let fields: RawMap = newMapping();
  const given = givenOptions(typed.words);
  if ('refused' in given) return given;
  for (const { name, value } of given) {
    const option = options.get(name);
    if (!option) return unknownOption(typed, name, [...options.keys()]);
    if (value === undefined)
      return { refused: `--${name} wants a value, such as ${example(option)}` };
    const taken = putOption(fields, option, value.trim());
    if (!taken) return { refused: `--${name} is given twice; keep one of the two` };
    fields = taken;
  }
  return { fields };
}

/** An option as it came, and its value; undefined where none came. */
export interface GivenOption {
  readonly name: string;
  readonly value: string | undefined;
}

/** Options with the word after each: a value may begin with a hyphen, as a refund does. */
export function givenOptions(words: readonly string[]): GivenOption[] | Refused {
  const given: GivenOption[] = [];
  for (let at = 0; at < words.length; at++) {
    const word = words[at] ?? '';
    const [, name = '', joined] = /^--([^=]+)(?:=(.*))?$/s.exec(word) ?? [];
    if (name === '') return strayWord(word);
    given.push({ name, value: joined ?? words[++at] });
  }
  return given;
}

function strayWord(word: string): Refused {
  return {
    refused: `"${word}" has no option before it; put words that belong together in quotes, as in --line "2 mug at 38"`,
  };
}

function unknownOption({ kind, others }: TypedOptions, name: string, own: string[]): Refused {
  const near = nearest(name, [...own, ...others]);
  const hint = near === undefined ? `see saggar add ${kind} --help` : `did you mean --${near}?`;
  return { refused: `${kind} has no option --${name}; ${hint}` };
}

function example({ example: text }: FieldOption): string {
  return text.includes(' ') ? `"${text}"` : text;
}

/** The record with a value at its place; undefined where there is one that can't be added to. */
function putOption(record: RawMap, option: FieldOption, value: string): RawMap | undefined {
  const { path, repeats } = option;
  const known = valueAt(record, path);
  if (!repeats) return known === undefined ? (withValue(record, path, value) as RawMap) : undefined;
  const added = isWordList(option) ? value.split(/\s+/) : [value];
  return withValue(record, path, [...(isList(known) ? known : []), ...added]) as RawMap;
}

/** Whether an option takes a list of words, typed with blanks between them. */
export function isWordList({ spec }: FieldOption): boolean {
  return spec.type === 'list' && spec.of.type === 'word';
}

/** What each record of a list holds; undefined of anything else. */
export function itemSpec(spec: FieldSpec): RecordSpec | undefined {
  return spec.type === 'list' && spec.of.type === 'record' ? spec.of : undefined;
}

/** Filled in where they are left out. */
const FILLED_IN = new Set(['date', 'versions.from', 'meter.before']);

/**
 * The options without which a record of the kind is not sound, as far as they are not given; of
 * fields that stand for each other the first.
 */
export function missingOptions(kind: Kind, fields: RawMap): readonly FieldOption[] {
  const options = fieldOptions(kind);
  const isGiven = (option: FieldOption): boolean => valueAt(fields, option.path) !== undefined;
  const { oneOf = [] } = FIELDS[kind];
  const [first, ...others] = options.filter(({ name }) => oneOf.includes(name));
  const lacksOne = first && ![first, ...others].some(isGiven);
  return options.filter((option) =>
    option === first ? lacksOne : option.required && !isFilledIn(option) && !isGiven(option),
  );
}

function isFilledIn({ path }: FieldOption): boolean {
  return FILLED_IN.has(path.filter((step) => typeof step === 'string').join('.'));
}

/** Whether another field that stands for the named one is there. */
export function isStoodFor(kind: Kind, fields: RawMap, name: string | undefined): boolean {
  const group = onlyOneOf(kind).find((names) => names.some((each) => each === name)) ?? [];
  return group.some((other) => other !== name && fields[other] !== undefined);
}
