/** Help for people at a terminal: examples first, then what there is, in two columns. */
import { COMMANDS, FIRST_EXAMPLES, PROGRAM } from './catalogue.ts';
import { exampleLines, joinedLines, twoColumns, type LeftAndRight } from './columns.ts';
import { BEFOREHAND, EVERYWHERE, HELP } from './options.ts';
import {
  allFlags,
  asSentence,
  fullAbout,
  usageOf,
  type CommandSpec,
  type OptionSpec,
} from './spec.ts';

/** Help on everything. */
export function generalHelp(width: number): string {
  const commands = COMMANDS.map(({ name, about }): LeftAndRight => [name, about]);
  const options = [...BEFOREHAND, ...EVERYWHERE].map(asPair);
  return joinedLines([
    ...examples(FIRST_EXAMPLES, width),
    'Usage: saggar <command> [options]',
    '',
    asSentence(PROGRAM),
    '',
    'Commands:',
    ...twoColumns(commands, width),
    '',
    'Options common to most commands, before the command or after it:',
    ...twoColumns(options, width),
    '',
    'saggar help COMMAND shows examples and options of a command.',
  ]);
}

/** Help on one command. */
export function commandHelp(spec: CommandSpec, width: number): string {
  const taken = [spec.argument, spec.more].filter((each) => each !== undefined);
  const options = spec.options.map(asPair);
  return joinedLines([
    ...examples(spec.examples, width),
    `Usage: ${usageOf(spec)}`,
    '',
    asSentence(spec.about),
    ...(taken.length > 0 ? [''] : []),
    ...twoColumns(
      taken.map((argument) => [argument.form, fullAbout(argument)]),
      width,
    ),
    '',
    'Options:',
    ...twoColumns([...options, asPair(HELP)], width),
  ]);
}

function asPair(option: OptionSpec): LeftAndRight {
  return [allFlags(option), fullAbout(option)];
}

function examples(commands: readonly string[], width: number): readonly string[] {
  if (commands.length === 0) return [];
  return ['Examples:', ...commands.flatMap((command) => exampleLines(command, width)), ''];
}
