/** How a reader hands a scalar on: as bare text, or marked when it must be known how it stood. */
import { isCoreValue, isPlainNumber } from './core-value.ts';
import { CORE_START } from './chars.ts';

/** Before the text of an unquoted scalar, where a reader marks. */
export const UNQUOTED = '=';

/** Before the text of a quoted or a block scalar, where a reader marks. */
export const QUOTED = '"';

/** What the readers are told. */
export interface ReadOptions {
  /** The keys under which an unquoted number may stand. */
  readonly numberKeys: ReadonlySet<string>;
  /** Puts `UNQUOTED` or `QUOTED` before every scalar. */
  readonly marks?: boolean;
}

/**
 * Whether a YAML 1.2 core reader would take an unquoted scalar for something else than text where
 * no such thing may stand, so that the slow check has to look.
 */
export function isOdd(text: string, underNumberKey: boolean): boolean {
  const start = CORE_START[text.charCodeAt(0)];
  if (start === 0) return false;
  if (underNumberKey) return start === 2 && isCoreValue(text) && !isPlainNumber(text);
  return isCoreValue(text);
}
