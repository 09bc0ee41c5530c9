/** The fields of a kind as options: their names, where their values go, and what may stand in them. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { formOf, type Form } from './forms.ts';

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
