/** What `add` can take: the kinds, and the fields of one kind with the forms that they are typed in. */
import { DESCRIPTIONS } from '../../../schema/generated/descriptions.js';
import { DEFINITION_KINDS, EVENT_KINDS, type Kind } from '../../book.ts';
import { NOUN, listed, withArticle } from '../../check/finding.ts';
import { exampleWords } from '../../entry/examples.ts';
import { fieldOptions, onlyOneOf, type FieldOption } from '../../entry/fields.ts';
import { wrap } from '../../render/terminal/width.ts';
import { exampleLines, joinedLines, twoColumns, type LeftAndRight } from '../columns.ts';
import { CLOSING_EXAMPLE, CLOSING_OPTIONS } from '../record-commands.ts';
import { DRY_RUN, HELP, STUDIO } from '../options.ts';
import { allFlags, fullAbout } from '../spec.ts';
import { shellQuoted } from './undo.ts';

/** Options that every kind has, with what they do. */
const COMMON: readonly LeftAndRight[] = [
  ['--id <id>', 'an id of your own; without it an event gets one, a definition by its name'],
  ['-', 'take YAML on standard input: one record, or several by id'],
  [
    '--lines <file>',
    'take lines from a file, or - from standard input: a sentence a line, # for remarks; "back 2 mug" for another list',
  ],
  ['--no-input', 'never ask for what is missing, as is done on a terminal; say what it is'],
  [DRY_RUN.flags, DRY_RUN.about],
  [STUDIO.flags, STUDIO.about],
  ['--as-of <day>', 'the day that a record without a date is of (default: today)'],
  ['--as <format>', 'form of the output: text, json'],
  [allFlags(HELP), HELP.about],
];

/** Help on `add` alone. */
export function kindsHelp(width: number): string {
  const kinds: readonly LeftAndRight[] = [
    ['events', EVENT_KINDS.join(', ')],
    ['definitions', DEFINITION_KINDS.join(', ')],
  ];
  return joinedLines([
    'Examples:',
    ...(['sales', 'bought', 'firings'] as const).flatMap((kind) =>
      exampleLines(addExample(kind), width),
    ),
    '  saggar help add sales',
    '',
    'Usage: saggar add <kind> [options]',
    '',
    'Add a new record: by options, or as YAML on standard input (-).',
    '',
    'Kinds:',
    ...twoColumns(kinds, width),
    '',
    'Options:',
    ...twoColumns(COMMON, width),
    '',
    'Each kind has options for its fields: saggar help add KIND shows them.',
  ]);
}

/** Help on `add KIND`: an option for every field, and the forms of its lines. */
export function addHelp(kind: Kind, width: number): string {
  const options = fieldOptions(kind);
  return joinedLines([
    'Examples:',
    ...exampleLines(addExample(kind), width),
    `  saggar add ${kind} - < record.yaml`,
    '',
    `Usage: saggar add ${kind} [options]`,
    '',
    `Add ${withArticle(NOUN[kind])}.`,
    '',
    'Fields (* required, + repeatable):',
    ...twoColumns(
      options.map((option) => asPair(kind, option)),
      width,
    ),
    ...onlyOneOf(kind).map((names) => `  Give only one of ${listed(names)}.`),
    ...options.flatMap((option) => formLines(option, width)),
    ...(kind === 'sales' ? closingHelp(width) : []),
    '',
    'Options:',
    ...twoColumns(COMMON, width),
  ]);
}

/** How a day at a fair is ended. */
function closingHelp(width: number): string[] {
  const pairs = CLOSING_OPTIONS.map((option): LeftAndRight => [option.flags, fullAbout(option)]);
  return [
    '',
    ...wrap(
      'To end a day at a fair: --closing shows what is gone of what was taken along, and the money that should be there beside the money that is. It writes what you say: gone pieces as sold, as missing, or some of each.',
      { width },
    ),
    ...exampleLines(CLOSING_EXAMPLE, width),
    ...twoColumns(pairs, width),
  ];
}

/** The whole command line of a kind's example. */
function addExample(kind: Kind): string {
  return ['saggar', 'add', kind, ...exampleWords(kind)].map(shellQuoted).join(' ');
}

function asPair(kind: Kind, option: FieldOption): LeftAndRight {
  return [`--${option.name}${marks(option)}`, aboutField(kind, option)];
}

function marks({ required, repeats }: FieldOption): string {
  return (required ? ' *' : '') + (repeats ? ' +' : '');
}

/** Days are understood so too, in any field that takes one. */
const DAYS_IN_WORDS =
  'Today when left out; yesterday, monday (the last one) or 3 days ago will do.';

/** What the schema says of a field, and a value or the shape of a line as it is typed. */
function aboutField(kind: Kind, option: FieldOption): string {
  const place = option.path.filter((step) => typeof step === 'string').join('.');
  const described = DESCRIPTIONS[kind][place] ?? '';
  const usual = option.name === 'date' ? [DAYS_IN_WORDS] : [];
  return [described, ...usual, typedAs(option, described)].join(' ');
}

function typedAs({ form, spec, example }: FieldOption, described: string): string {
  if (form) return `Typed as ${form.shape}`;
  const one = spec.type === 'list' ? spec.of : spec;
  const words = 'words' in one ? (one.words ?? []) : [];
  const areSaid = words.every((word) => described.includes(word));
  const such = `Such as ${shellQuoted(example)}`;
  if (areSaid) return such;
  return one.type === 'word' ? `One of ${words.join(', ')}` : `${such}; or ${listed(words, 'or')}`;
}

function formLines({ form, name }: FieldOption, width: number): string[] {
  if (!form) return [];
  const examples = form.examples.map((example) => `  --${name} ${shellQuoted(example)}`);
  return ['', ...wrap(`--${name}: ${form.about}.`, { width }), ...examples];
}
