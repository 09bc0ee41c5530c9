/** The words for what came out of the kiln: grades, losses and their causes. */
import type { RecordSpec } from '../../schema/generated/fields.js';
import { nearest } from '../check/nearest.ts';

/** The counts that a load line has. */
export const OUTCOMES: readonly string[] = ['first', 'second', 'lost'];

/** The causes of loss that a load line may name. */
export function causesOf({ fields }: RecordSpec): readonly string[] {
  const why = fields['why'];
  return (why?.type === 'map' ? why.keys : undefined) ?? [];
}

/** Whether a word counts what was meant to be an outcome: of `1 craked` the second word alone is wrong. */
export function isCountOfMistyped(spec: RecordSpec, word: string, next: string): boolean {
  return /^\d+$/.test(word) && nearest(next, [...OUTCOMES, ...causesOf(spec)]) !== undefined;
}
