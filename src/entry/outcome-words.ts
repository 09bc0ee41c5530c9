/** The words for what came out of the kiln: grades, losses and their causes. */
import type { RecordSpec } from '../../schema/generated/fields.js';
import { nearest } from '../check/nearest.ts';
import type { Raw, RawMap } from '../read/raw.ts';

/** The counts that a load line has. */
export const OUTCOMES: readonly string[] = ['first', 'second', 'lost'];

/** What begins the causes of the lost pieces alone, and the field that they go into. */
export const LOST_TO = 'lost-to';

/** The causes of loss that a load line may name. */
export function causesOf({ fields }: RecordSpec): readonly string[] {
  const why = fields['why'];
  return (why?.type === 'map' ? why.keys : undefined) ?? [];
}

/** What a count is of: pieces that came out so, or a cause. */
export interface Outcome {
  readonly field: string;
  readonly cause?: string;
}

/** What a word after a count names, where it names an outcome or a cause. */
export function outcomeNamed(spec: RecordSpec, word: string): Outcome | undefined {
  if (OUTCOMES.includes(word)) return { field: word };
  return causesOf(spec).includes(word) ? { field: 'why', cause: word } : undefined;
}

/** Whether a word counts what was meant to be an outcome: of `1 craked` the second word alone is wrong. */
export function isCountOfMistyped(spec: RecordSpec, word: string, next: string): boolean {
  return /^\d+$/.test(word) && nearest(next, [...OUTCOMES, ...causesOf(spec)]) !== undefined;
}

/**
 * Adds a cause to what was read of a load line, and says whether it did: each is counted once, but one
 * of lost pieces, after `lost-to`, may be of seconds too.
 */
export function countCause(fields: Map<string, Raw>, cause: string, count: string): boolean {
  const why = fields.get('why') as RawMap | undefined;
  const lostTo = fields.get(LOST_TO) as RawMap | undefined;
  if (cause in (lostTo ?? why ?? {})) return false;
  const all = Number(why?.[cause] ?? 0) + Number(count);
  fields.set('why', { ...why, [cause]: String(all) });
  if (lostTo) fields.set(LOST_TO, { ...lostTo, [cause]: count });
  return true;
}
