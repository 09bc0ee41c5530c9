/** The manual page, from the catalogue: every command with its options and examples. */
import { roffItem, roffMacro, roffText, roffVerbatim } from '../render/roff.ts';
import { COMMANDS, PROGRAM } from './catalogue.ts';
import { exampleLines } from './columns.ts';
import { flagOf, fullAbout, sentence, usageOf } from './flags.ts';
import { CAUTIONS, DESCRIPTION, ENVIRONMENT, FILES, STATUSES, type Entry } from './manual.ts';
import { EVERYWHERE } from './options.ts';
import type { CommandSpec, OptionSpec } from './spec.ts';

/** An option that so many commands take is told of once, and only named with each. */
const MANY = 4;

/** Columns that man leaves to examples on a terminal of 80. */
const ROOM = 70;

/** The page as roff with the macros of man. */
export function manPage(): string {
  const shared = sharedOptions();
  return [
    '.\\" Made by saggar man from the same words as saggar --help.',
    '.TH SAGGAR 1 "" saggar',
    ...section('NAME', [roffText('saggar') + ' \\- ' + roffText(PROGRAM)]),
    ...section('SYNOPSIS', [
      roffMacro('B', 'saggar <command> [options]'),
      '.br',
      roffMacro('B', 'saggar --help'),
    ]),
    ...section('DESCRIPTION', paragraphs(DESCRIPTION)),
    ...section(
      'COMMANDS',
      COMMANDS.flatMap((spec) => aboutCommand(spec, shared)),
    ),
    ...section('OPTIONS', [
      roffText('These stand with any command, or with many of them.'),
      ...[...shared, ...EVERYWHERE].flatMap(optionItem),
    ]),
    ...section('FILES', entries(FILES)),
    ...section('ENVIRONMENT', entries(ENVIRONMENT)),
    ...section('EXIT STATUS', entries(STATUSES)),
    ...section('CAUTIONS', paragraphs(CAUTIONS)),
    '',
  ].join('\n');
}

function sharedOptions(): readonly OptionSpec[] {
  const all = [...new Set(COMMANDS.flatMap(({ options }) => options))];
  return all.filter(
    (option) => COMMANDS.filter(({ options }) => options.includes(option)).length >= MANY,
  );
}

function section(title: string, lines: readonly string[]): readonly string[] {
  return [roffMacro('SH', title), ...lines];
}

function paragraphs(texts: readonly string[]): string[] {
  return texts.flatMap((text, index) => (index === 0 ? [] : ['.PP']).concat(roffText(text)));
}

function entries(pairs: readonly Entry[]): string[] {
  return pairs.flatMap(([word, about]) => roffItem(word, sentence(about)));
}

function aboutCommand(spec: CommandSpec, shared: readonly OptionSpec[]): string[] {
  const own = spec.options.filter((option) => !shared.includes(option));
  const common = spec.options.filter((option) => shared.includes(option));
  const taken = [spec.argument, spec.more].filter((each) => each !== undefined);
  return [
    roffMacro('SS', usageOf(spec)),
    roffText(sentence(spec.about)),
    ...taken.flatMap((argument) => roffItem(argument.form, sentence(fullAbout(argument)))),
    ...own.flatMap(optionItem),
    ...alsoTaken(common),
    ...ownHelp(spec),
    '.PP',
    ...roffVerbatim(spec.examples.flatMap((example) => exampleLines(example, ROOM))),
  ];
}

function optionItem(option: OptionSpec): string[] {
  return roffItem(option.flags, sentence(fullAbout(option)));
}

function alsoTaken(common: readonly OptionSpec[]): string[] {
  if (common.length === 0) return [];
  return ['.PP', roffText(`Also ${common.map(flagOf).join(', ')}.`)];
}

function ownHelp({ name, takesFields, argument }: CommandSpec): string[] {
  if (takesFields !== true) return [];
  const words = `saggar ${name} ${argument?.form ?? ''} --help`;
  return ['.PP', roffText(`The fields are options too: ${words} shows them.`)];
}
