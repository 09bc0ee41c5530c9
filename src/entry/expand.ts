/** Makes a whole record of what was typed: sentences into fields, fields into their order, defaults filled in. */
import {
  FIELDS,
  type FieldSpec,
  type MapSpec,
  type RecordSpec,
} from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { dayMeant, type Day } from '../number/date.ts';
import { isList, isMap, mapping, type Path, type Raw, type RawMap } from '../read/raw.ts';
import { withDefaults, type EntryGround } from './defaults.ts';
import { ENTRY_KEY, ENTRY_VALUE, type Form } from './form.ts';
import { formOf } from './forms.ts';
import { isOfDays } from './meant.ts';
import { readSentence, type Sentence } from './sentence.ts';
import type { WordFault } from './sentence-faults.ts';

/** What is wrong with a sentence that stands at a path of what was typed. */
export interface TypedFault extends WordFault {
  readonly path: Path;
  /** The whole sentence. */
  readonly sentence: string;
}

/** The record as it is to be written, and the sentences that could not be understood. */
export interface Expanded {
  readonly fields: RawMap;
  readonly faults: readonly TypedFault[];
}

/**
 * The record that was typed: wherever the schema has a record or a mapping in a list, a sentence of
 * its form may stand; fields come in the schema's order, those that it does not know last; and a
 * date or a price that was left out is filled in. Whatever it can't read stays as it was typed.
 */
export function expandRecord(kind: Kind, typed: RawMap, ground: EntryGround): Expanded {
  const faults: TypedFault[] = [];
  const reading = { kind, ...ground, faults };
  const fields = expandFields(reading, { spec: FIELDS[kind], path: [] }, typed);
  return { fields: faults.length > 0 ? fields : withDefaults(kind, fields, ground), faults };
}

/**
 * One value of a record in the place of another, as `expandRecord` reads it.
 * @param path of the value in the record
 */
export function expandValue(
  { kind, path, spec }: { readonly kind: Kind; readonly path: Path; readonly spec: FieldSpec },
  typed: Raw,
  ground: EntryGround,
): { readonly value: Raw; readonly faults: readonly TypedFault[] } {
  const faults: TypedFault[] = [];
  return { value: expand({ kind, ...ground, faults }, { spec, path }, typed), faults };
}

interface Expanding extends EntryGround {
  readonly kind: Kind;
  readonly faults: TypedFault[];
}

interface ValuePlace<S extends FieldSpec = FieldSpec> {
  readonly spec: S;
  readonly path: Path;
}

function expand(reading: Expanding, { spec, path }: ValuePlace, typed: Raw): Raw {
  if (spec.type === 'record') return expandOne(reading, { spec, path }, typed);
  if (spec.type === 'list') return expandList(reading, { spec: spec.of, path }, typed);
  if (spec.type === 'map') return expandMap(reading, { spec, path }, typed);
  if (typeof typed === 'string' && isOfDays(spec.type))
    return dayMeant(typed, reading.day) ?? typed;
  return spec.type === 'either' ? expandEither(reading, { spec: spec.record, path }, typed) : typed;
}

function expandOne(reading: Expanding, { spec, path }: ValuePlace<RecordSpec>, typed: Raw): Raw {
  if (isMap(typed)) return expandFields(reading, { spec, path }, typed);
  if (isList(typed) || formAt(reading, path) === undefined) return typed;
  return sentenceAt(reading, { spec, path }, typed).fields;
}

function expandFields(
  reading: Expanding,
  { spec, path }: ValuePlace<RecordSpec>,
  typed: RawMap,
): RawMap {
  const known = Object.keys(spec.fields).filter((name) => typed[name] !== undefined);
  const unknown = Object.keys(typed).filter((name) => spec.fields[name] === undefined);
  return mapping(
    [...known, ...unknown].map((name) => {
      const field = spec.fields[name];
      const value = typed[name] ?? '';
      return [name, field ? expand(reading, { spec: field, path: [...path, name] }, value) : value];
    }),
  );
}

// A single sentence may stand for a list of one, and words on one line for a list of words.
function expandList(reading: Expanding, { spec, path }: ValuePlace, typed: Raw): Raw {
  if (isMap(typed) || typed === '') return typed;
  const items = typeof typed === 'string' ? listItems(spec, typed) : typed;
  return items.map((item, index) => expand(reading, { spec, path: [...path, index] }, item));
}

function listItems(spec: FieldSpec, typed: string): readonly string[] {
  return spec.type === 'word' ? typed.split(/\s+/) : [typed];
}

function expandMap(reading: Expanding, { spec, path }: ValuePlace<MapSpec>, typed: Raw): Raw {
  const sentences = sentencesOf(typed);
  if (!sentences || formAt(reading, path) === undefined) return typed;
  const record = entrySpec(spec);
  const entries = new Map<string, Raw>();
  for (const [index, sentence] of sentences.entries()) {
    const at = { spec: record, path: [...path, index] };
    const { [ENTRY_KEY]: key = '', [ENTRY_VALUE]: value = '' } = sentenceAt(
      reading,
      at,
      sentence,
    ).fields;
    const name = typeof key === 'string' ? key : '';
    if (entries.has(name)) reading.faults.push(secondEntry(at.path, sentence, name));
    entries.set(name, value);
  }
  return mapping(entries);
}

/** The sentences of a list that holds nothing else, or the only one. */
function sentencesOf(typed: Raw): readonly string[] | undefined {
  if (typeof typed === 'string') return typed === '' ? undefined : [typed];
  if (!isList(typed)) return undefined;
  const sentences = typed.filter((each) => typeof each === 'string');
  return sentences.length === typed.length ? sentences : undefined;
}

function secondEntry(path: Path, sentence: string, name: string): TypedFault {
  return {
    rule: 'schema',
    path,
    sentence,
    start: 0,
    width: sentence.length,
    message: `"${name}" is given twice`,
    hint: 'keep one of the two',
  };
}

/** An entry of a mapping as a record of its name and its value. */
function entrySpec({ of, keys, keysTo, title, example }: MapSpec): RecordSpec {
  const label = { title: 'name', example };
  const key: FieldSpec = keysTo
    ? { ...label, type: 'reference', to: keysTo }
    : { ...label, ...(keys ? { type: 'word', words: keys } : { type: 'text' }) };
  return {
    type: 'record',
    title,
    example,
    fields: { [ENTRY_KEY]: key, [ENTRY_VALUE]: of },
    required: [ENTRY_KEY, ENTRY_VALUE],
  };
}

// Fuel: with a material it is drawn from stock, without one it is a quantity alone.
function expandEither(reading: Expanding, { spec, path }: ValuePlace, typed: Raw): Raw {
  if (spec.type !== 'record' || isList(typed)) return typed;
  if (isMap(typed)) return expandFields(reading, { spec, path }, typed);
  const { fields } = sentenceAt(reading, { spec, path }, typed);
  const [only, ...others] = Object.values(fields);
  return only !== undefined && others.length === 0 ? only : fields;
}

function sentenceAt(
  reading: Expanding,
  { spec, path }: ValuePlace<RecordSpec>,
  sentence: string,
): Sentence {
  const form = formAt(reading, path);
  if (!form) return { fields: mapping([]), faults: [] };
  const read = readSentence(sentence, { form, spec, lexicon: reading.lexicon });
  reading.faults.push(...read.faults.map((fault) => ({ ...fault, path, sentence })));
  return { ...read, fields: withDays(spec, read.fields, reading.day) };
}

function formAt({ kind }: Expanding, path: Path): Form | undefined {
  return formOf(kind, path.filter((step) => typeof step === 'string').join('.'));
}

function withDays({ fields: specs }: RecordSpec, fields: RawMap, today: Day): RawMap {
  return mapping(
    Object.entries(fields).map(([name, value]) => {
      const type = specs[name]?.type ?? 'text';
      const day = typeof value === 'string' && isOfDays(type) ? dayMeant(value, today) : undefined;
      return [name, day ?? value];
    }),
  );
}
