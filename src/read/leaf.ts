/** How a reader hands a scalar on: as bare text, or marked when it must be known how it stood. */
import { CORE_START, NO_TEXT, TEXT } from './chars.ts';
import { coreValue, isCoreValue } from './core-value.ts';

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
