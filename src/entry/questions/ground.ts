/** What questions about a record start from. */
import type { Kind } from '../../book.ts';
import { mapping } from '../../read/raw.ts';
import { expandRecord, type Expanded } from '../expand.ts';
import { fieldOptions, readOptions, type FieldOption } from '../fields.ts';
import { lexiconOf, type Lexicon } from '../lexicon.ts';
import type { OpenedStudio } from '../plan.ts';
import type { Answer } from './question.ts';

/** The studio, the kind, and what was given on the command line. */
export interface Ground {
  readonly opened: OpenedStudio;
  readonly lexicon: Lexicon;
  readonly kind: Kind;
  /** Options and values, in turns. */
  readonly words: readonly string[];
}

/** Gathers it. */
export function groundOf(
  opened: OpenedStudio,
  { kind, words }: Pick<Ground, 'kind' | 'words'>,
): Ground {
  return { opened, kind, words, lexicon: lexiconOf(opened.reading.files) };
}

/** All options that say the same as the command line and the answers together. */
export function optionWords({ words }: Ground, answers: readonly Answer[]): readonly string[] {
  const all = [...words];
  for (const { gives } of answers) {
    const [, name, turn] = ADDS_TO.exec(gives[0] ?? '') ?? [];
    if (name === undefined) all.push(...gives);
    else addTo(all, { name, turn: Number(turn) }, gives[1] ?? '');
  }
  return all;
}

const ADDS_TO = /^\+(.+)\.(\d+)$/;

/** What an answer gives whose words go at the end of an option that was given already; the first is 0. */
export function addsTo(name: string, turn: number, words: string): readonly string[] {
  return [`+${name}.${turn}`, words];
}

function addTo(
  all: string[],
  { name, turn }: { readonly name: string; readonly turn: number },
  words: string,
): void {
  const places = all.flatMap((word, at) =>
    word === `--${name}` ? [at + 1] : word.startsWith(`--${name}=`) ? [at] : [],
  );
  const place = places[turn];
  if (place !== undefined) all[place] = `${all[place] ?? ''} ${words}`;
}

/** The record of some options, made whole as far as it goes. */
export function recordOf(ground: Ground, words: readonly string[]): Expanded {
  const { kind, lexicon, opened } = ground;
  const read = readOptions({ kind, words, others: [] });
  const fields = 'refused' in read ? mapping([]) : read.fields;
  return expandRecord(kind, fields, { lexicon, day: opened.asOf });
}

/** The option of a kind by its name. */
export function optionNamed(kind: Kind, name: string): FieldOption | undefined {
  return fieldOptions(kind).find((option) => option.name === name);
}
