/** The options that more than one command takes, so that one word means the same everywhere. */
import type { OptionSpec, ValuesOf } from './spec.ts';

/** Where the book is. */
export const STUDIO = {
  flags: '--studio <folder>',
  about: 'studio folder (default: this one or the nearest above)',
  offers: 'folders',
} as const satisfies OptionSpec;

/** Puts no trust in what is remembered. */
export const AFRESH = {
  flags: '--afresh',
  about: 'read all files again, and forget what is remembered of them',
} as const;

/** The day that the book is looked at. */
export const AS_OF = {
  flags: '--as-of <day>',
  about: 'the book as it was at the end of that day (default: today)',
} as const;

const FORMATS = ['text', 'json', 'csv', 'markdown', 'html'] as const;

/** The form of the output. */
export function as<const C extends readonly string[]>(
  choices: C,
): { readonly flags: '--as <format>'; readonly about: string; readonly choices: C } {
  return { flags: '--as <format>', about: 'form of the output', choices };
}

/** The form of a list of problems. */
export const PROBLEMS_AS = as([...FORMATS, 'sarif', 'annotations']);

/** Shows a change without making it. */
export const DRY_RUN = {
  flags: '--dry-run',
  about: 'show the change, and write nothing',
} as const;

/** Keeps a command from asking. */
export const NO_INPUT = {
  flags: '--no-input',
  about: 'never ask; say what is missing instead',
} as const;

/** Asks in plain lines. */
export const IN_LINES = {
  flags: '--plain',
  about: 'ask line by line and draw nothing, for a screen reader (also SAGGAR_PLAIN=1)',
} as const;

/** Another state of the book than the one on the disk. */
export const AT = {
  flags: '--at <revision>',
  about: 'the book as that commit, branch or tag of git has it',
} as const;

/** What every report takes. */
export const COMMON = [STUDIO, AS_OF, as(FORMATS), AFRESH] as const;
/** What a report takes that can be given of an older book too. */
export const OF_ANY_TIME = [...COMMON, AT] as const;
/** What every command takes that changes records. */
export const CHANGING = [DRY_RUN, STUDIO, AS_OF, as(['text', 'json']), AFRESH] as const;
/** The days that a report is of. */
export const SPAN = [
  { flags: '--year <year>', about: 'the business year, such as 2026' },
  { flags: '--from <day>', about: 'leave out what was before that day' },
  { flags: '--to <day>', about: 'leave out what came after that day' },
] as const;

/** What finding and reading a studio needs. */
export type FindingOptions = ValuesOf<typeof STUDIO | typeof AS_OF | typeof AFRESH>;
/** What making a change needs; a command that shows reports too knows more forms than a change has. */
export type ChangeOptions = Omit<ValuesOf<(typeof CHANGING)[number]>, 'as'> & {
  readonly as?: string | undefined;
};
/** What says of which days a report is. */
export type SpanOptions = Partial<ValuesOf<(typeof SPAN)[number]>>;

/** What a report is grouped by. */
export function by<const C extends readonly string[]>(
  choices: C,
  about: string,
): { readonly flags: '--by <group>'; readonly about: string; readonly choices: C } {
  return { flags: '--by <group>', about, choices };
}

/** How wide tables and texts may be. */
const WIDTH = {
  flags: '--width <number>',
  about: "how wide the output may be (default: the terminal's width; in a pipe COLUMNS, or 80)",
} as const satisfies OptionSpec;

/** Only what was asked for. */
const QUIET = {
  flags: '--quiet',
  about: 'leave out notes and words on what is done: add says only the id, check only the errors',
} as const satisfies OptionSpec;

/** Asks for help. */
export const HELP = {
  flags: '--help',
  also: '-h',
  about: 'print help',
} as const satisfies OptionSpec;

/** What any command takes, before its name or after it. */
export const EVERYWHERE = [
  WIDTH,
  QUIET,
  {
    flags: '--colour',
    also: '--color',
    about: 'colour the output even when it is not for a terminal',
  },
  { flags: '--no-colour', also: '--no-color', about: 'never colour the output' },
  { flags: '--version', also: '-V', about: 'print the version' },
  HELP,
] as const satisfies readonly OptionSpec[];

/** What may be given before a command's name too, to the commands that take it. */
export const BEFOREHAND: readonly OptionSpec[] = [STUDIO, AS_OF, as(FORMATS), AFRESH];

/** The values of what any command takes, and whether it is to draw nothing. */
export type OptionsEverywhere = Partial<ValuesOf<(typeof EVERYWHERE)[number] | typeof IN_LINES>>;
