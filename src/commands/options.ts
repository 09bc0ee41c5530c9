/** The options that more than one command takes, so that one word means the same everywhere. */
import type { OptionSpec } from './spec.ts';

/** Where the book is. */
export const STUDIO: OptionSpec = {
  flags: '--studio <folder>',
  about: 'the studio, when it is not this folder or one above it',
  offers: 'folders',
};
/** Puts no trust in what is remembered. */
export const AFRESH: OptionSpec = {
  flags: '--afresh',
  about: 'read all files anew, and forget what is remembered of them',
};
/** The day that the book is looked at. */
export const AS_OF: OptionSpec = {
  flags: '--as-of <day>',
  about: 'look at the book as it stood at the end of that day (today)',
};
/** The form of a report. */
export const AS: OptionSpec = {
  flags: '--as <format>',
  about: 'form of the output',
  choices: ['text', 'json', 'csv', 'markdown', 'html'],
};
/** The form of a list of problems. */
export const PROBLEMS_AS: OptionSpec = {
  ...AS,
  choices: [...(AS.choices ?? []), 'sarif', 'annotations'],
};
/** The first day of a span. */
export const FROM: OptionSpec = {
  flags: '--from <day>',
  about: 'leave out what was before that day',
};
/** The last day of a span. */
export const TO: OptionSpec = { flags: '--to <day>', about: 'leave out what came after that day' };
/** A span of one business year. */
export const YEAR: OptionSpec = {
  flags: '--year <year>',
  about: 'the business year, such as 2026',
};
/** Shows a change without making it. */
export const DRY_RUN: OptionSpec = {
  flags: '--dry-run',
  about: 'print the change as a diff, and write nothing',
};

/** Keeps a command from asking. */
export const NO_INPUT: OptionSpec = {
  flags: '--no-input',
  about: 'never ask; say what is missing instead',
};

/** Another state of the book than the one on the disk. */
export const AT: OptionSpec = {
  flags: '--at <revision>',
  about: 'the book as that commit, branch or tag of git has it',
};

/** What every report takes. */
export const COMMON = [STUDIO, AS_OF, AS, AFRESH];
/** What a report takes that can be given of an older book too. */
export const OF_ANY_TIME = [...COMMON, AT];
/** What every command takes that changes records. */
export const CHANGING = [DRY_RUN, STUDIO, AS_OF, AFRESH];
/** The days that a report is of. */
export const SPAN = [YEAR, FROM, TO];

/** What a report is grouped by. */
export function by(choices: readonly string[], about: string): OptionSpec {
  return { flags: '--by <group>', about, choices };
}

/** What stands with any command, and without one. */
export const EVERYWHERE: readonly OptionSpec[] = [
  { flags: '--colour', about: 'colour the output even when it is not for a terminal' },
  { flags: '--no-colour', about: 'never colour the output' },
  { flags: '--version', about: 'print the version' },
  { flags: '--help', about: 'print help' },
];
