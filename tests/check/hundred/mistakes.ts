/** Mistakes as a potter makes them in an editor: one place of one file of the sound studio, each. */
import { AGAINST_THE_BOOK } from './against-the-book.ts';
import { IN_FIELDS } from './in-fields.ts';
import { IN_VALUES } from './in-values.ts';
import { IN_YAML } from './in-yaml.ts';

/**
 * What it is, the file, what stands there when all is well, and what stands there now: the signs « and »
 * are not in the file; they are round what `check` is to mark.
 */
export type MistakeRow = readonly [what: string, file: string, sound: string, wrong: string];

/** All of them. */
export const MISTAKES: readonly MistakeRow[] = [
  ...IN_YAML,
  ...IN_FIELDS,
  ...IN_VALUES,
  ...AGAINST_THE_BOOK,
];
