/** A file's content before it is typed: every scalar is the text that stands in the file. */
import type { Kind } from '../book.ts';

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

/** Whether two contents are the same text by text, keys in the same order. */
export function isSameRaw(a: Raw | undefined, b: Raw | undefined): boolean {
  if (typeof a !== 'object' || typeof b !== 'object') return a === b;
  const [keys, others] = [Object.keys(a), Object.keys(b)];
  if (keys.length !== others.length || isList(a) !== isList(b)) return false;
  return keys.every((key, at) => key === others[at] && isSameRaw(valueAt(a, key), valueAt(b, key)));
}

function isList(raw: Raw): raw is readonly Raw[] {
  return Array.isArray(raw);
}

function valueAt(raw: RawMap | readonly Raw[], key: string): Raw | undefined {
  return isList(raw) ? raw[Number(key)] : raw[key];
}
