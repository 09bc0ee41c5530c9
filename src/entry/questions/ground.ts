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
  return [...words, ...answers.flatMap(({ gives }) => gives)];
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
