/** A file's content before it is typed: every scalar is the text that stands in the file. */
import type { Kind } from '../book.ts';
import type { Finding } from '../problem.ts';

export type Raw = string | readonly Raw[] | RawMap;

/** Inherits no keys, so that a key can be any word. */
export interface RawMap {
  readonly [key: string]: Raw;
}

/** One readable file of the studio. */
export interface RawFile {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  readonly kind: Kind | 'studio';
  /** Record id → record, in the file's order; for `studio.yaml` the settings themselves. */
  readonly root: RawMap;
  /**
   * True where an unquoted scalar under a key of the text fields would be read as something else
   * than text by a YAML 1.2 core reader, or a value is empty: only then need the slow check look.
   */
  readonly odd: boolean;
}

/** A file's text, without byte order mark. */
export interface FileText {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  readonly text: string;
}

/** What could be read of a file. */
export interface Parsed {
  /** The records in which nothing is wrong, in the file's order. */
  readonly root: RawMap;
  /** As in `RawFile`. */
  readonly odd: boolean;
  /** What is wrong: `yaml-error`, `duplicate-id` for two records of one id, `merge-conflict`. */
  readonly findings: readonly Finding[];
}

/** A map under construction. */
export type Growing<T = Raw> = Record<string, T>;

// Objects of one constructor share V8's hidden classes; `Object.create(null)` makes a hash table of
// each, which took seven times as long to fill.
const Mapping = function (this: object): void {
  /* nothing is put in yet */
} as unknown as new () => Growing<never>;
Mapping.prototype = Object.create(null) as object;

/** An empty map for a handful of keys; it inherits nothing, so that any key that is there is its own. */
export function newMapping<T = Raw>(): Growing<T> {
  return new Mapping();
}

/** An empty map for many keys: the records of a file. */
export function newTable<T = Raw>(): Growing<T> {
  return Object.create(null) as Growing<T>;
}

/** Keys and list indexes, from the outside in. */
export type Path = readonly (string | number)[];

/** Whether a value is a list. */
export function isList(value: Raw | undefined): value is readonly Raw[] {
  return Array.isArray(value);
}

/** Whether a value is a mapping. */
export function isMap(value: Raw | undefined): value is RawMap {
  return typeof value === 'object' && !Array.isArray(value);
}

/** A value that is a text, and an empty text for any other or none. */
export function textOrEmpty(value: Raw | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** What stands at a path; undefined where nothing does. */
export function valueAt(whole: Raw | undefined, path: Path): Raw | undefined {
  return path.reduce<Raw | undefined>((inner, step) => {
    if (isList(inner)) return typeof step === 'number' ? inner[step] : undefined;
    return isMap(inner) && typeof step === 'string' ? inner[step] : undefined;
  }, whole);
}

/** The text of a field; empty where it holds none. */
export function textUnder(whole: Raw | undefined, field: string): string {
  return textOrEmpty(valueAt(whole, [field]));
}

/** The whole with a value at a path; mappings and lists on the way are made where there are none. */
export function withValue(whole: Raw | undefined, path: Path, value: Raw): Raw {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = isList(whole) ? [...whole] : [];
    list[step] = withValue(list[step], rest, value);
    return list;
  }
  const inner = isMap(whole) ? whole[step] : undefined;
  return mapping([
    ...Object.entries(isMap(whole) ? whole : {}),
    [step, withValue(inner, rest, value)],
  ]);
}

/** The whole without what stands at a path; what held it stays. */
export function withoutValue(whole: Raw, path: Path): Raw {
  const holder = path.slice(0, -1);
  const last = path.at(-1);
  const held = valueAt(whole, holder);
  if (isList(held))
    return withValue(
      whole,
      holder,
      held.filter((_, index) => index !== last),
    );
  if (!isMap(held)) return whole;
  const rest = Object.entries(held).filter(([key]) => key !== last);
  return withValue(whole, holder, Object.fromEntries(rest));
}

/** A mapping of entries; the last of two with one key counts, in the first one's place. */
export function mapping(entries: Iterable<readonly [string, Raw]>): RawMap {
  const map = newMapping();
  for (const [key, value] of entries) map[key] = value;
  return map;
}
