/** Reads `lines.1.price=40`: which value of a record is meant, and what is to stand there. */
import { FIELDS, type FieldSpec } from '../../schema/generated/fields.js';
import { NOUN, listed } from '../check/finding.ts';
import { pathWords } from '../in-words.ts';
import { nearest } from '../nearest.ts';
import { isList, isMap, withValue, withoutValue, type Path, type Raw } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import type { EntryGround } from './defaults.ts';
import { expandValue, type TypedFault } from './expand.ts';
import { formOf } from './forms.ts';
import type { FoundRecord } from './lexicon.ts';

type AnyKind = Amendable['kind'];

/** One change of a record. */
export interface Amendment {
  /** Within the record. */
  readonly path: Path;
  /** Absent to take the value out. */
  readonly value?: Raw;
  /** Whether it is a new item of a list that has others after it. */
  readonly isNew?: boolean;
}

/** A record, or the settings, whose id is empty. */
export interface Amendable extends Omit<FoundRecord, 'kind'> {
  readonly kind: FoundRecord['kind'] | 'studio';
}

/** A record with changes made in it. */
export function withChanges(raw: Raw, amendments: readonly Amendment[]): Raw {
  return amendments.reduce<Raw>(
    (whole, { path, value }) =>
      value === undefined ? withoutValue(whole, path) : withValue(whole, path, value),
    raw,
  );
}

/** A change that was understood, and the sentences in it that were not. */
export interface ReadAmendment extends Amendment {
  readonly faults: readonly TypedFault[];
}

/**
 * Reads one change: names joined by points, list items counted from 1, then `=` and the value; with
 * nothing after it the value is taken out. A whole item of a list may be a sentence of its form.
 */
export function readAmendment(
  text: string,
  kind: AnyKind,
  ground: EntryGround,
): ReadAmendment | Refused {
  const split = text.indexOf('=');
  if (split < 1)
    return { refused: `"${text}" is not a change; write FIELD=VALUE, such as note="second bag"` };
  const target = targetOf(kind, text.slice(0, split).split('.'));
  if ('refused' in target) return target;
  const typed = text.slice(split + 1).trim();
  if (typed === '') return { path: target.path, faults: [] };
  return valueFor(target, typed, { ...ground, kind });
}

/** The field that a change is of. */
interface Target {
  readonly path: Path;
  readonly spec: FieldSpec;
  /** As it was typed. */
  readonly name: string;
}

/** The field that `lines.1.price` names; refused where no value can be written there. */
export function fieldMeant(name: string, kind: AnyKind): Target | Refused {
  const target = targetOf(kind, name.split('.'));
  return 'refused' in target ? target : (holdsMore(target, kind) ?? target);
}

function targetOf(kind: AnyKind, steps: readonly string[]): Target | Refused {
  let spec: FieldSpec = FIELDS[kind];
  const path: (string | number)[] = [];
  for (const step of steps) {
    const next = stepInto(spec, step);
    if (!next) return noSuchStep(kind, spec, { step, name: steps.slice(0, path.length).join('.') });
    path.push(spec.type === 'list' ? Number(step) - 1 : step);
    spec = next;
  }
  return { path, spec, name: steps.join('.') };
}

function stepInto(spec: FieldSpec, step: string): FieldSpec | undefined {
  if (spec.type === 'record')
    return Object.hasOwn(spec.fields, step) ? spec.fields[step] : undefined;
  if (spec.type === 'list') return /^[1-9]\d{0,3}$/.test(step) ? spec.of : undefined;
  if (spec.type === 'map') return step === '' ? undefined : spec.of;
  return spec.type === 'either' ? stepInto(spec.record, step) : undefined;
}

function noSuchStep(
  kind: AnyKind,
  spec: FieldSpec,
  { step, name }: { readonly step: string; readonly name: string },
): Refused {
  const holder = name === '' ? kindName(kind) : name;
  if (spec.type === 'list') return { refused: whichOf(name, step) };
  const fields = spec.type === 'record' ? Object.keys(spec.fields) : [];
  if (fields.length === 0) return { refused: `${holder} is a single value and has no "${step}"` };
  const near = nearest(step, fields);
  const hint = near === undefined ? `it has ${listed(fields)}` : `did you mean ${near}?`;
  return { refused: `${holder} has no field "${step}"; ${hint}` };
}

function whichOf(name: string, step = ''): string {
  return /^0+$/.test(step)
    ? `lists count from 1: the first of ${name} is ${name}.1, and ${name}.${step} is none of them`
    : `${name} is a list: say which, counted from 1, as in ${name}.1=…`;
}

function kindName(kind: AnyKind): string {
  return kind === 'studio' ? 'studio.yaml' : `a ${NOUN[kind]}`;
}

function valueFor(
  target: Target,
  typed: string,
  { kind, ...ground }: EntryGround & { readonly kind: AnyKind },
): ReadAmendment | Refused {
  const { spec, path } = target;
  const refused = holdsMore(target, kind);
  if (refused) return refused;
  // The settings have no form of their own, as the definitions of classes have none.
  const of = kind === 'studio' ? 'classes' : kind;
  const { value, faults } = expandValue({ kind: of, path, spec }, typed, ground);
  return { path, value, faults };
}

/** That a field holds others, so that it is not clear what a value would be. */
function holdsMore({ spec, path, name }: Target, kind: AnyKind): Refused | undefined {
  if (spec.type === 'record' && !formAt(kind, path))
    return { refused: `${name} has fields of its own: ${ownFields(name, spec)}` };
  if (spec.type === 'map')
    return { refused: `${name} holds values by name: write ${name}.NAME=VALUE` };
  return spec.type === 'list' && spec.of.type === 'record' ? { refused: whichOf(name) } : undefined;
}

function formAt(kind: AnyKind, path: Path): boolean {
  return (
    kind !== 'studio' &&
    formOf(kind, path.filter((step) => typeof step === 'string').join('.')) !== undefined
  );
}

function ownFields(name: string, spec: FieldSpec): string {
  const fields = spec.type === 'record' ? Object.keys(spec.fields) : [];
  return listed(fields.map((field) => `${name}.${field}`));
}

/**
 * A change with the whole path to its value: `count=3` is `lines.1.count=3` where only one line has a
 * count. What the record has itself, or has nowhere, stays as it is; refused where several have it.
 */
export function withWholePath(text: string, { kind, raw }: Amendable): string | Refused {
  const [, name = '', rest = ''] = /^([^.=]+)([.=].*)$/s.exec(text) ?? [];
  if (Object.hasOwn(FIELDS[kind].fields, name)) return text;
  const [only, ...others] = placesNamed(raw, name);
  if (!only) return text;
  if (others.length === 0) return `${pathWords(only)}${rest}`;
  const all = [only, ...others].map((path) => pathWords(path));
  return { refused: `it has ${listed(all)}; say which, as in ${pathWords(only)}${rest}` };
}

/** Reads one change of a record, by the whole path to its value or by a short one. */
export function readChange(
  text: string,
  record: Amendable,
  ground: EntryGround,
): ReadAmendment | Refused {
  const whole = withWholePath(text, record);
  return typeof whole === 'string' ? readAmendment(whole, record.kind, ground) : whole;
}

/** Where a name is a key below the record's own fields. */
function placesNamed(value: Raw, name: string, path: Path = []): readonly Path[] {
  if (isList(value)) return value.flatMap((item, at) => placesNamed(item, name, [...path, at]));
  if (!isMap(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    key === name ? [[...path, key]] : placesNamed(inner, name, [...path, key]),
  );
}
