/** Takes the words of the catalogue apart: `--as <format>`, `[id]`. */
import type { ArgumentSpec, CommandSpec, OptionSpec } from './spec.ts';

/** The word of an option as it is typed: `--as`. */
export function flagOf({ flags }: OptionSpec): string {
  return flags.split(' ')[0] ?? flags;
}

/** What to call an option's value, `<format>`; undefined where it takes none. */
export function valueOf({ flags }: OptionSpec): string | undefined {
  return flags.split(' ')[1];
}

/** What to call what stands after a command's name: `id`. */
export function nameOf({ form }: ArgumentSpec): string {
  return form.replace(/[<>[\].]/g, '');
}

/** Whether a command can't do without it. */
export function isNeeded({ form }: ArgumentSpec): boolean {
  return form.startsWith('<');
}

/** What there is to say of an option or an argument: `form of the output: text, json, csv`. */
export function fullAbout(spec: OptionSpec | ArgumentSpec): string {
  const { about, choices = [] } = spec;
  const says = choices.every((choice) => about.includes(choice));
  const again = 'repeats' in spec && spec.repeats ? '; may be given again and again' : '';
  return (says ? about : `${about}: ${choices.join(', ')}`) + again;
}

/** How a command is written: `saggar materials [id] [options]`. */
export function usageOf({ name, argument, more, options }: CommandSpec): string {
  const words = [argument?.form, more?.form, options.length > 0 ? '[options]' : undefined];
  return ['saggar', name, ...words.filter((word) => word !== undefined)].join(' ');
}

/** A phrase of the catalogue as a sentence. */
export function sentence(phrase: string): string {
  const end = phrase.endsWith('…') ? '' : '.';
  return `${phrase.slice(0, 1).toUpperCase()}${phrase.slice(1)}${end}`;
}
