/** What fields and records move, by what the schemas say: the most of what is in them. */
import { MOVES } from '../../schema/generated/moves.js';
import type { Moved, Moves } from '../../schema/build/spec.ts';
import type { Kind } from '../../src/book.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';

/**
 * What the field at a path of keys moves: `date` means whatever happens from the earliest day on of the
 * record, or of a record that names it. A field that no schema has moves all.
 */
export function movesOf(kind: Kind | 'studio', path: readonly (string | number)[]): Moves {
  let found: Moved = MOVES[kind];
  for (const key of path) {
    if (typeof found === 'string') return found;
    if (typeof key === 'string') found = found[key] ?? 'all';
  }
  return mostOf(wordsIn(found));
}

/** What a sound record moves that came, went or changed: the most of the fields that it has. */
export function movedByRecord(kind: Kind | 'studio', record: RawMap): Moves {
  return mostOf(wordsOf(record, MOVES[kind]));
}

function wordsIn(moved: Moved): Moves[] {
  return typeof moved === 'string' ? [moved] : Object.values(moved).flatMap(wordsIn);
}

function wordsOf(raw: Raw, moved: Moved): Moves[] {
  if (typeof moved === 'string') return [moved];
  if (Array.isArray(raw)) return raw.flatMap((each: Raw) => wordsOf(each, moved));
  return Object.entries(raw).flatMap(([key, value]) => wordsOf(value, moved[key] ?? 'all'));
}

function mostOf(words: readonly Moves[]): Moves {
  return (['all', 'date'] as const).find((word) => words.includes(word)) ?? 'nothing';
}
