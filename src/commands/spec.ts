/** What the catalogue says of a command: enough for the command line, help, completion and the man page. */
import type { Kind } from '../book.ts';
import { camelCase } from '../camel-case.ts';

/**
 * What completion offers for a value: ids of records of some kinds, firings that are still in the kiln,
 * folders, the fields of the record that the argument names, business years and quarters, tax sheets,
 * commands, or what may come next in a line of several values.
 */
export type Offers =
  | readonly Kind[]
  | 'in-kiln'
  | 'folders'
  | 'fields'
  | 'periods'
  | 'sheets'
  | 'commands'
  | 'lists'
  | 'papers'
  | 'sentence';

/** An option as it is typed: `--as <format>`, or `--where` without a value. */
export interface OptionSpec {
  readonly flags: string;
  /** Another spelling of its word: `-h`, `--color`. */
  readonly also?: string;
  readonly about: string;
  readonly choices?: readonly string[];
  readonly offers?: Offers;
  /** Whether it may be given more than once. */
  readonly repeats?: boolean;
}

/** What comes after a command's name: `<id>`, or in brackets what may be left out. */
export interface ArgumentSpec {
  readonly form: string;
  readonly about: string;
  readonly choices?: readonly string[];
  readonly offers?: Offers;
}

/** One command. */
export interface CommandSpec {
  readonly name: string;
  /** What may come after the name: `[id]`. */
  readonly argument?: ArgumentSpec;
  /** What may come after that, more than once: `[changes...]`. */
  readonly more?: ArgumentSpec;
  /** Whether the fields of the kind that the argument names are options too; it prints its own help. */
  readonly takesFields?: boolean;
  readonly about: string;
  /** Whole command lines that work in any studio of the demo's kind; help leads with them. */
  readonly examples: readonly string[];
  readonly options: readonly OptionSpec[];
}

/** `as-of` is `asOf`. */
type InCamelCase<W> = W extends `${infer A}-${infer B}` ? `${A}${Capitalize<InCamelCase<B>>}` : W;

/** An option's name as commander keeps it; that of `--no-input` is `input`. */
type NameOfFlags<F> = F extends `--no-${infer N}`
  ? InCamelCase<N>
  : F extends `--${infer N} <${string}`
    ? InCamelCase<N>
    : F extends `--${infer N}`
      ? InCamelCase<N>
      : never;

type ValueOfOption<O extends OptionSpec> = O extends { readonly choices: readonly (infer C)[] }
  ? C
  : O extends { readonly repeats: true }
    ? readonly string[]
    : O['flags'] extends `${string} <${string}`
      ? string
      : boolean;

/** What a command that declares these options gets of them: nothing else can be read, and their choices are kept. */
export type ValuesOf<O extends OptionSpec> = {
  readonly [E in O as NameOfFlags<E['flags']> & string]: ValueOfOption<E> | undefined;
};

/** The word of an option as it is typed: `--as`. */
export function flagOf({ flags }: OptionSpec): string {
  return flags.split(' ')[0] ?? flags;
}

/** An option with all its spellings: `-h, --help`. */
export function allFlags({ flags, also }: OptionSpec): string {
  return also === undefined ? flags : `${also}, ${flags}`;
}

/** An option's name as commander keeps it: `--as-of` is `asOf`, and `--no-input` is `input`. */
export function optionKey(option: OptionSpec): string {
  return camelCase(flagOf(option).replace(/^--(?:no-)?/, ''));
}

/** What to call an option's value, `<format>`; undefined where it takes none. */
export function valueName({ flags }: OptionSpec): string | undefined {
  return flags.split(' ')[1];
}

/** What to call what comes after a command's name: `id`. */
export function argumentName({ form }: ArgumentSpec): string {
  return form.replace(/[<>[\].]/g, '');
}

/** Whether a command can't do without it. */
export function isRequired({ form }: ArgumentSpec): boolean {
  return form.startsWith('<');
}

/** What there is to say of an option or an argument: `form of the output: text, json, csv`. */
export function fullAbout(spec: OptionSpec | ArgumentSpec): string {
  const { about, choices = [] } = spec;
  const says = choices.every((choice) => about.includes(choice));
  const again = 'repeats' in spec && spec.repeats ? '; repeatable' : '';
  return (says ? about : `${about}: ${choices.join(', ')}`) + again;
}

/** How a command is written: `saggar materials [id] [options]`. */
export function usageOf({ name, argument, more, options }: CommandSpec): string {
  const words = [argument?.form, more?.form, options.length > 0 ? '[options]' : undefined];
  return ['saggar', name, ...words.filter((word) => word !== undefined)].join(' ');
}

/** A phrase that begins with a word to type as it is: `none: …`, `bash, zsh or fish`, `us-schedule-c`. */
const TYPED_FIRST = /^(?:\w+: |\w+, \w+(?:,| or )|[a-z]+-[a-z])/;

/** A phrase of the catalogue as a sentence; a word that is typed keeps its case. */
export function asSentence(phrase: string): string {
  const end = phrase.endsWith('…') ? '' : '.';
  const first = phrase.slice(0, 1);
  return `${TYPED_FIRST.test(phrase) ? first : first.toUpperCase()}${phrase.slice(1)}${end}`;
}
