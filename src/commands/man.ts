/** `saggar man`: the manual page, for man to show. */
import { printedLayout } from '../render/printable.ts';
import { roffItem, roffMacro, roffText, roffVerbatim } from '../render/roff.ts';
import { COMMANDS, PROGRAM, type CommandOf } from './catalogue.ts';
import { exampleLines } from './columns.ts';
import { EVERYWHERE } from './options.ts';
import {
  allFlags,
  asSentence,
  flagOf,
  fullAbout,
  usageOf,
  type CommandSpec,
  type OptionSpec,
} from './spec.ts';
import { EXIT } from './world.ts';

/** Prints the page as roff: `saggar man | man -l -` shows it. */
export const man: CommandOf<'man'> = (_, world) => {
  world.write(printedLayout(manPage()));
  return Promise.resolve(EXIT.fine);
};

/** A word and what there is to say of it. */
type WordAbout = readonly [word: string, about: string];

/** What the program is for, in paragraphs. */
const DESCRIPTION: readonly string[] = [
  'A studio is a folder of YAML files with studio.yaml at its root. saggar checks them, and says what is left in the bags, what a firing cost, what was lost and what each product earned. It works offline and sends nothing anywhere.',
  'The studio is the nearest folder upwards that has studio.yaml. Data goes to standard output, problems and questions to standard error.',
];

/** Files that it reads and writes. */
const FILES: readonly WordAbout[] = [
  ['studio.yaml', 'the settings; the folder that it is in is the studio'],
  ['KIND.yaml, KIND/', 'the records of a kind: one file, or any .yaml files below a folder'],
  ['.saggar-lock', 'is there while a command writes; one that a crash left is cleared by the next'],
  [
    '~/.cache/saggar/',
    'what is remembered of each studio to be quick (on macOS in ~/Library/Caches, on Windows in %LOCALAPPDATA%); saggar forget deletes it',
  ],
  [
    '~/.local/state/saggar/',
    'what is being written to several files at once, to undo it after a crash (on macOS in ~/Library/Application Support, on Windows in %LOCALAPPDATA%)',
  ],
];

/** Variables of the environment that it heeds. */
const ENVIRONMENT: readonly WordAbout[] = [
  ['NO_COLOR', 'when set, output is not coloured, unless --colour is given'],
  [
    'SAGGAR_MEMORY',
    'none: remember nothing between runs; or the full path of the folder to remember it in',
  ],
  ['XDG_CACHE_HOME', 'the folder for what is remembered, where it is not ~/.cache'],
  ['XDG_STATE_HOME', 'the folder for what is being written, where it is not ~/.local/state'],
  ['FORCE_COLOR', 'when set, output is coloured though it is not for a terminal; 0 means never'],
  ['COLUMNS', 'how wide output into a pipe or a file may be, unless --width says so (80)'],
];

/** What the exit status means. */
export const STATUSES: readonly WordAbout[] = [
  ['0', 'nothing wrong'],
  ['1', 'errors were found in the book, or nothing was written'],
  [
    '2',
    'the command could not run: it was not understood, or there is no studio to read; or what it had to show could not be written',
  ],
  ['130', 'interrupted'],
];

/** What to take care of, in paragraphs. */
export const CAUTIONS: readonly string[] = [
  'saggar keeps records; it vouches for nothing. It never says that ware is safe: only which test is on record, or that none is.',
  'Silica dust harms the lungs: weigh powders with a fitted respirator, clean wet, never sweep dry, and keep food out of the studio. Follow the safety data sheets of your materials, vent the kiln, and leave work on it, with the power off, to someone competent.',
  'Local electrical, fire, gas and food-contact codes rule. Figures for taxes are a summary for whoever prepares them; local rules and licensed advice come first.',
];

/** An option that so many commands take is told of once, and only named with each. */
const MANY = 4;

/** Columns that man leaves to examples on a terminal of 80. */
const ROOM = 70;

/** The page as roff with the macros of man. */
function manPage(): string {
  const shared = sharedOptions();
  return [
    '.\\" Made by saggar man from the same words as saggar --help.',
    '.TH SAGGAR 1 "" saggar',
    ...section('NAME', [roffText('saggar') + ' \\- ' + roffText(PROGRAM)]),
    ...section('SYNOPSIS', [
      roffMacro('B', 'saggar <command> [options]'),
      '.br',
      roffMacro('B', 'saggar help <command>'),
    ]),
    ...section('DESCRIPTION', paragraphs(DESCRIPTION)),
    ...section(
      'COMMANDS',
      COMMANDS.flatMap((spec) => aboutCommand(spec, shared)),
    ),
    ...section('OPTIONS', [
      roffText('Options common to most commands, before the command or after it.'),
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

function entries(pairs: readonly WordAbout[]): string[] {
  return pairs.flatMap(([word, about]) => roffItem(word, asSentence(about)));
}

function aboutCommand(spec: CommandSpec, shared: readonly OptionSpec[]): string[] {
  const own = spec.options.filter((option) => !shared.includes(option));
  const common = spec.options.filter((option) => shared.includes(option));
  const taken = [spec.argument, spec.more].filter((each) => each !== undefined);
  return [
    roffMacro('SS', usageOf(spec)),
    roffText(asSentence(spec.about)),
    ...taken.flatMap((argument) => roffItem(argument.form, asSentence(fullAbout(argument)))),
    ...own.flatMap(optionItem),
    ...alsoTaken(common),
    ...ownHelp(spec),
    '.PP',
    ...roffVerbatim(spec.examples.flatMap((example) => exampleLines(example, ROOM))),
  ];
}

function optionItem(option: OptionSpec): string[] {
  return roffItem(allFlags(option), asSentence(fullAbout(option)));
}

function alsoTaken(common: readonly OptionSpec[]): string[] {
  if (common.length === 0) return [];
  return ['.PP', roffText(`Also ${common.map(flagOf).join(', ')}.`)];
}

function ownHelp({ name, takesFields, argument }: CommandSpec): string[] {
  if (takesFields !== true) return [];
  const words = `saggar help ${name} ${argument?.form ?? ''}`;
  return ['.PP', roffText(`The fields are options too: ${words} shows them.`)];
}
