/** What to say when an id is not in the book. */
import { nearest } from '../nearest.ts';
import type { Refusal } from './world.ts';

/** Says that there is no such record, and which one may have been meant. */
export function unknownId(noun: string, id: string, known: Iterable<string>): Refusal {
  const near = nearest(id, known);
  const hint = near === undefined ? '' : `; did you mean ${near}?`;
  return { refused: `there is no ${noun} "${id}" in this studio${hint}` };
}

/** Says that a word is not a choice for an option or a command. */
export function unknownWord(option: string, word: string, known: readonly string[]): Refusal {
  const near = nearest(word, known);
  const hint = near === undefined ? '' : `; did you mean ${near}?`;
  return { refused: `"${word}" is not a choice for ${option}: use ${known.join(', ')}${hint}` };
}
