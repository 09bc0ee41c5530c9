/** A file as a YAML 1.2 core reader sees it: what other readers and editors would make of it. */

import { CORE_START, NO_TEXT, TEXT } from './codes.ts';
import { isList, newMapping, valueAt, type Path, type Raw, type RawMap } from '../raw.ts';

/** One file of the studio, read with numbers, truths and nulls recognised. */
export interface CoreFile {
  /** The whole file as plain values. */
  readonly root: unknown;
  /**
   * Whether the scalar at a path (keys and list indexes from the root) stands there without quotes;
   * undefined where there is no scalar.
   */
  readonly plain: (path: Path) => boolean | undefined;
  /** The text of the scalar at a path as it stands in the file, without quotes; empty for none. */
  readonly text: (path: Path) => string;
  /** The comment, with its #, that follows a key in the place of a value; undefined where none does. */
  readonly commentAfter?: (path: Path) => string | undefined;
}

/** A core reader's view of a file's content, which was read with marks before its scalars, and its text. */
export function coreFile(marked: RawMap, text: string): CoreFile {
  const scalarAt = (path: Path): string | undefined => {
    const found = valueAt(marked, path);
    return typeof found === 'string' ? found : undefined;
  };
  return {
    root: valueOf(marked),
    plain: (path) => scalarAt(path)?.startsWith(UNQUOTED),
    text: (path) => scalarAt(path)?.slice(UNQUOTED.length) ?? '',
    commentAfter: (path) => commentIn(text, path),
  };
}

/** Goes from key to key of a path through a text. */
function commentIn(text: string, path: Path): string | undefined {
  let at = 0;
  for (const key of path) {
    const found = typeof key === 'number' ? -1 : text.slice(at).search(keyForm(key));
    if (found >= 0) at += found + String(key).length;
  }
  return /^:? *:[ \t]+(#.*)/.exec(text.slice(at))?.[1]?.trim();
}

function keyForm(key: string): RegExp {
  return new RegExp(`(?<![\\w-])${key.replaceAll(/[^\w-]/g, '.')}:`);
}

/** A text in the quotes in which it can stand as it is. */
export function inQuotes(text: string): string {
  return /["\\]/.test(text) ? `'${text.replaceAll("'", "''")}'` : `"${text}"`;
}

function valueOf(marked: Raw): unknown {
  if (typeof marked === 'string') return scalarValue(marked);
  if (isList(marked)) return marked.map(valueOf);
  const map = newMapping<unknown>();
  for (const [key, value] of Object.entries(marked)) map[key] = valueOf(value);
  return map;
}

function scalarValue(marked: string): unknown {
  const text = marked.slice(UNQUOTED.length);
  return marked.startsWith(UNQUOTED) ? coreValue(text) : text;
}

// YAML 1.2.2, section 10.3.2 (core schema, tag resolution).
const NULL = /^(?:~|null|Null|NULL)?$/;
const BOOLEAN = /^(?:true|True|TRUE|false|False|FALSE)$/;
const INTEGER = /^(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$/;
const FLOAT = /^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$/;
const INFINITE = /^[-+]?\.(?:inf|Inf|INF)$/;
const NOT_A_NUMBER = /^\.(?:nan|NaN|NAN)$/;
const ANY = new RegExp(
  [NULL, BOOLEAN, INTEGER, FLOAT, INFINITE, NOT_A_NUMBER].map(({ source }) => source).join('|'),
);
// No other value goes on like this: dates, times, quantities and percentages are soon ruled out.
const DIGITS_AND_MORE = /^[0-9]+[^0-9.eExo]/;

/** Whether a core reader takes an unquoted text for something else than that text. */
export function isCoreValue(text: string): boolean {
  return !DIGITS_AND_MORE.test(text) && ANY.test(text);
}

/** Whether a core reader takes an unquoted text for a number written in decimal digits. */
export function isPlainNumber(text: string): boolean {
  return FLOAT.test(text);
}

/** The value that a core reader sees in an unquoted text: null, a boolean, a number, else the text. */
export function coreValue(text: string): unknown {
  if (!ANY.test(text)) return text;
  if (NULL.test(text)) return null;
  if (BOOLEAN.test(text)) return text.toLowerCase() === 'true';
  if (INFINITE.test(text)) return text.startsWith('-') ? -Infinity : Infinity;
  // `Number` knows the forms 0o17, 0x1f, 1., .5 and 1e3; a text that is no number gives NaN.
  return Number(text);
}

/** Before the text of an unquoted scalar, where a reader marks. */
export const UNQUOTED = '=';

/** Before the text of a quoted or a block scalar, where a reader marks. */
export const QUOTED = '"';

/** What the readers are told. */
export interface ReadOptions {
  /** The keys under which an unquoted number may stand. */
  readonly numberKeys: ReadonlySet<string>;
  /** How many records the fast reader takes; all of them where that is left out. */
  readonly most?: number;
  /** Puts `UNQUOTED` or `QUOTED` before every scalar. */
  readonly marks?: boolean;
}

/**
 * Whether an unquoted number may stand under a key: one of those, or the number of a tax sheet's line,
 * for no name of a field begins with a digit.
 */
export function isNumberKey(key: string, numberKeys: ReadonlySet<string>): boolean {
  return numberKeys.has(key) || /^\d/.test(key);
}

/**
 * Whether a YAML 1.2 core reader would take an unquoted scalar for something else than text where
 * no such thing may stand, so that the slow check has to look.
 */
export function isOdd(text: string, isUnderNumberKey: boolean): boolean {
  const start = CORE_START[text.charCodeAt(0)] ?? TEXT;
  if (start === TEXT) return false;
  if (!isUnderNumberKey) return isCoreValue(text);
  return start === NO_TEXT && isCoreValue(text) && !Number.isFinite(coreValue(text));
}
