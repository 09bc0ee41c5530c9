/** What to say when an id is not in the book. */
import { listed } from '../check/finding.ts';
import { nearest } from '../nearest.ts';
import type { Refusal } from './world.ts';

/** A record that an id may have meant; most definitions have a name too. */
interface OfferedRecord {
  readonly id: string;
  readonly name?: string;
}

/** So many records are named in one line. */
const MOST_OFFERED = 5;

/** Says that there is no such record, and which one may have been meant: by its id or by its name. */
export function unknownId(
  noun: string,
  id: string,
  known: Iterable<OfferedRecord | string>,
): Refusal {
  const all = Array.from(known, (each) => (typeof each === 'string' ? { id: each } : each));
  const near = nearest(
    id,
    all.map((each) => each.id),
  );
  const hint = near === undefined ? hintByName(id, all) : `; did you mean ${near}?`;
  return { refused: `there is no ${noun} "${id}" in this studio${hint}` };
}

function hintByName(id: string, known: readonly OfferedRecord[]): string {
  const word = id.toLowerCase();
  const name = nearest(
    id,
    known.flatMap((each) => each.name ?? []),
  );
  const alike = known.filter(
    (each) =>
      (each.name !== undefined && each.name === name) ||
      [each.id, each.name].some((text) => text?.toLowerCase().includes(word)),
  );
  const named = alike.length === 0 ? known : alike;
  if (named.length === 0 || named.length > MOST_OFFERED) return '';
  const words = named.map((each) =>
    each.name === undefined ? each.id : `${each.id} (${each.name})`,
  );
  return alike.length === 0
    ? `; known here: ${listed(words)}`
    : `; did you mean ${listed(words, 'or')}?`;
}

/** Says that a word is not a choice for an option or a command. */
export function unknownWord(option: string, word: string, known: readonly string[]): Refusal {
  const near = nearest(word, known);
  const hint = near === undefined ? '' : `; did you mean ${near}?`;
  return { refused: `"${word}" is not a choice for ${option}: use ${known.join(', ')}${hint}` };
}
