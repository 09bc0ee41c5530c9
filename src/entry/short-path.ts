/** Finds the value that `count=3` means in a record which has one count alone. */
import { FIELDS } from '../../schema/generated/fields.js';
import { listed } from '../check/finding.ts';
import { pathWords } from '../in-words.ts';
import { isList, isMap, type Path, type Raw } from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import { readAmendment, type Amendable, type ReadAmendment } from './amendment.ts';
import type { EntryGround } from './defaults.ts';

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
