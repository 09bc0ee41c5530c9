/** What to say when a command line can't be understood: what is wrong, and what to do next. */
import { nearest } from '../nearest.ts';
import { visible } from '../render/escape.ts';
import { COMMANDS } from './catalogue.ts';
import { unknownWord } from './ids.ts';
import { BEFOREHAND, EVERYWHERE } from './options.ts';
import {
  argumentName,
  flagOf,
  isRequired,
  optionKey,
  valueName,
  type ArgumentSpec,
  type CommandSpec,
  type OptionSpec,
} from './spec.ts';
import type { Asked, Refusal } from './world.ts';

/** A word where a command is wanted, and none is called so. */
export function unknownCommand(word: string): Refusal {
  const near = nearest(
    word,
    COMMANDS.map(({ name }) => name),
  );
  const hint = near === undefined ? 'saggar help lists the commands' : `did you mean ${near}?`;
  return { refused: `there is no command ${visiblyQuoted(word)}; ${hint}` };
}

/** An option that the command does not have or that takes no value, or that stands before a command. */
export function unknownOption(typed: string, spec: CommandSpec | undefined): Refusal {
  const [flag = typed] = typed.split('=');
  const options: readonly OptionSpec[] = [...(spec?.options ?? BEFOREHAND), ...EVERYWHERE];
  if (options.some((option) => isCalled(option, flag)))
    return { refused: `${flag} takes no value; write ${flag} alone` };
  const owner = COMMANDS.find((each) => each.options.some((option) => isCalled(option, flag)));
  if (!spec && owner)
    return { refused: `${flag} goes after a command, as in saggar ${owner.name} ${flag}` };
  const near = nearestFlag(flag, options);
  const all = spec ? `saggar help ${spec.name}` : 'saggar help';
  const hint = near === undefined ? `${all} lists the options` : `did you mean ${near}?`;
  const subject = spec ? `${spec.name} has` : 'there is';
  return { refused: `${subject} no option ${visible(flag)}; ${hint}` };
}

function isCalled(option: OptionSpec, flag: string): boolean {
  return flagOf(option) === flag || option.also === flag;
}

function nearestFlag(flag: string, options: readonly OptionSpec[]): string | undefined {
  return nearest(flag, options.map(flagOf));
}

/** An option at the end of the line without the value that it takes. */
export function missingValue(option: OptionSpec | undefined): Refusal {
  if (!option) return { refused: 'the last option needs a value' };
  const { about, choices } = option;
  if (choices) return { refused: `${flagOf(option)} needs one of ${choices.join(', ')}` };
  const name = (valueName(option) ?? '<value>').slice(1, -1);
  return { refused: `${flagOf(option)} needs ${valueInWords(name)}: ${about}` };
}

/** `a year`, `an outcome`, but `days`. */
function valueInWords(noun: string): string {
  if (noun.endsWith('s')) return noun;
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

/** A number of columns that can't be laid out in. */
export function wrongWidth(typed: string): Refusal {
  return {
    refused: `"${visible(typed)}" is not a width; write a whole number of columns, as in --width 100`,
  };
}

/** What is wrong with the words of a command, where something is missing, too much or no choice. */
export function wrongWords(spec: CommandSpec, { words, options }: Asked): Refusal | undefined {
  return (
    missingWord(spec, words) ??
    extraWord(spec, words) ??
    wrongChoice(spec.name, spec.argument, words[0]) ??
    spec.options
      .map((option) => wrongChoice(flagOf(option), option, options[optionKey(option)]))
      .find((refusal) => refusal !== undefined)
  );
}

function missingWord(spec: CommandSpec, words: readonly string[]): Refusal | undefined {
  const { name, argument, examples } = spec;
  if (!argument || !isRequired(argument) || words.length > 0) return undefined;
  return { refused: `${name} needs ${argument.about}, as in ${examples[0] ?? `saggar ${name}`}` };
}

/** A word after a command on which there is no help of its own. */
export function unknownTopic(command: string, word: string): Refusal {
  return {
    refused: `${command} has no help on ${visiblyQuoted(word)}; saggar help ${command} shows all of it`,
  };
}

function extraWord(spec: CommandSpec, words: readonly string[]): Refusal | undefined {
  const { name, argument, more } = spec;
  const extra = words[argument ? 1 : 0];
  if (more || extra === undefined) return undefined;
  const takes = argument ? `takes one ${argumentName(argument)}` : 'takes options only';
  const word = visiblyQuoted(extra);
  return { refused: `${name} ${takes}, and not ${word}; saggar help ${name} shows examples` };
}

function wrongChoice(
  name: string,
  { choices }: OptionSpec | ArgumentSpec = { form: '', about: '' },
  value: Asked['options'][string],
): Refusal | undefined {
  if (!choices || typeof value !== 'string' || choices.includes(value)) return undefined;
  return unknownWord(name, visible(value), choices);
}

function visiblyQuoted(word: string): string {
  return `"${visible(word)}"`;
}
