/** Help for people at a terminal: examples first, then what there is, in two columns. */
import { wrap } from '../render/width.ts';
import { COMMANDS, FIRST_EXAMPLES, PROGRAM } from './catalogue.ts';
import { fullAbout, sentence, usageOf } from './flags.ts';
import { EVERYWHERE } from './options.ts';
import type { CommandSpec } from './spec.ts';

type Pair = readonly [left: string, right: string];

/** Help on everything. */
export function generalHelp(width: number): string {
  const commands = COMMANDS.map(({ name, about }): Pair => [name, about]);
  const options = EVERYWHERE.map(({ flags, about }): Pair => [flags, about]);
  return page([
    ...examples(FIRST_EXAMPLES),
    'Usage: saggar <command> [options]',
    '',
    sentence(PROGRAM),
    '',
    'Commands:',
    ...twoColumns(commands, width),
    '',
    'Options:',
    ...twoColumns(options, width),
    '',
    'saggar COMMAND --help shows examples and options of a command.',
  ]);
}

/** Help on one command. */
export function commandHelp(spec: CommandSpec, width: number): string {
  const taken = [spec.argument, spec.more].filter((each) => each !== undefined);
  const options = [...spec.options, ...EVERYWHERE.filter(({ flags }) => flags === '--help')];
  return page([
    ...examples(spec.examples),
    `Usage: ${usageOf(spec)}`,
    '',
    sentence(spec.about),
    ...(taken.length > 0 ? [''] : []),
    ...twoColumns(
      taken.map((argument) => [argument.form, fullAbout(argument)]),
      width,
    ),
    '',
    'Options:',
    ...twoColumns(
      options.map((option) => [option.flags, fullAbout(option)]),
      width,
    ),
  ]);
}

function examples(lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ['Examples:', ...lines.map((line) => `  ${line}`), ''];
}

function page(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}

/** Longer lines than this are hard to follow. */
const WIDEST = 100;
/** A longer left side has a line of its own. */
const WIDEST_LEFT = 24;
const GAP = '  ';

/** Rows of two columns, the right one wrapped. */
function twoColumns(pairs: readonly Pair[], width: number): readonly string[] {
  const lefts = pairs.map(([left]) => left.length).filter((length) => length <= WIDEST_LEFT);
  const column = Math.max(0, ...lefts);
  const room = Math.max(Math.min(width, WIDEST) - column - 2 * GAP.length, WIDEST_LEFT);
  return pairs.flatMap(([left, right]) => {
    const isLong = left.length > column;
    const lines = wrap(right, { width: room }).map((line, index) => {
      const side = index === 0 && !isLong ? left : '';
      return GAP + side.padEnd(column) + GAP + line;
    });
    return isLong ? [GAP + left, ...lines] : lines;
  });
}
