/** Help for people at a terminal: examples first, then what there is, in two columns. */
import { wrap } from '../render/width.ts';
import { COMMANDS, FIRST_EXAMPLES, PROGRAM } from './catalogue.ts';
import { fullAbout, sentence, usageOf } from './flags.ts';
import { EVERYWHERE } from './options.ts';
import type { CommandSpec } from './spec.ts';

/** Help on everything. */
export function generalHelp(width: number): string {
  const row = rowsFor(width, 14);
  return page([
    ...examples(FIRST_EXAMPLES),
    'Usage: saggar <command> [options]',
    '',
    sentence(PROGRAM),
    '',
    'Commands:',
    ...COMMANDS.flatMap(({ name, about }) => row(name, about)),
    '',
    'Options:',
    ...EVERYWHERE.flatMap(({ flags, about }) => row(flags, about)),
    '',
    'saggar COMMAND --help shows examples and options of a command.',
  ]);
}

/** Help on one command. */
export function commandHelp(spec: CommandSpec, width: number): string {
  const row = rowsFor(width, 24);
  const taken = [spec.argument, spec.more].filter((each) => each !== undefined);
  const options = [...spec.options, ...EVERYWHERE.filter(({ flags }) => flags === '--help')];
  return page([
    ...examples(spec.examples),
    `Usage: ${usageOf(spec)}`,
    '',
    sentence(spec.about),
    ...(taken.length > 0 ? [''] : []),
    ...taken.flatMap((argument) => row(argument.form, fullAbout(argument))),
    '',
    'Options:',
    ...options.flatMap((option) => row(option.flags, aboutOption(option))),
  ]);
}

function aboutOption(option: CommandSpec['options'][number]): string {
  return fullAbout(option) + (option.repeats === true ? '; may be given again and again' : '');
}

function examples(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['Examples:', ...lines.map((line) => `  ${line}`), ''];
}

function page(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}

/** Longer lines than this are hard to follow. */
const WIDEST = 100;

/** Rows of two columns, the right one wrapped; a left side that is too long has a line of its own. */
function rowsFor(width: number, column: number): (left: string, right: string) => string[] {
  const room = Math.max(Math.min(width, WIDEST) - column - 3, column);
  return (left, right) => {
    const isLong = left.length > column;
    const lines = wrap(right, { width: room }).map((line, index) => {
      const side = index === 0 && !isLong ? left : '';
      return `  ${side.padEnd(column)} ${line}`;
    });
    return isLong ? [`  ${left}`, ...lines] : lines;
  };
}
