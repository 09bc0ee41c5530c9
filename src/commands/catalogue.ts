/** All commands with their words: the one source of help, completion and documentation. */
import { AFRESH, AS_OF, AT, OF_ANY_TIME, PROBLEMS_AS, SPAN, STUDIO, as } from './options.ts';
import { PAPER_COMMAND } from './paper-command.ts';
import { RECORD_COMMANDS } from './record-commands.ts';
import { REPORT_COMMANDS } from './report-commands.ts';
import type { CommandSpec, ValuesOf } from './spec.ts';
import type { Asked, Command } from './world.ts';

/** What the program is, in a few words. */
export const PROGRAM = 'a studio book for a potter who works alone';

/** What to try first: the examples of the help on everything. */
export const FIRST_EXAMPLES: readonly string[] = [
  'saggar init hill-street',
  'saggar check',
  'saggar add sales --channel door --line "1 mug oatmeal at 38" --dry-run',
  'saggar materials',
  'saggar losses --by product',
];

/** Answers the shells' scripts of completion; not for people, so no help speaks of it. */
export const COMPLETE_WORDS = {
  name: 'complete-words',
  more: { form: '[words...]', about: 'the words of a command line up to the cursor' },
  about: 'say how a command line can go on',
  examples: [],
  options: [],
} as const satisfies CommandSpec;

const ALL = [
  {
    name: 'init',
    argument: {
      form: '<folder>',
      about: 'a new or empty folder',
      offers: 'folders',
    },
    about: 'make a new studio, with samples of everything',
    examples: [
      'saggar init hill-street',
      'saggar init hill-street --name "Hill Street Pottery" --currency EUR --weight-unit kg',
      'saggar init . --with hooks,workflow',
    ],
    options: [
      { flags: '--name <name>', about: "what the studio is called (from the folder's name)" },
      { flags: '--currency <code>', about: 'three letters of ISO 4217 (USD)' },
      {
        flags: '--weight-unit <unit>',
        about: 'the unit of weight that you prefer (lb with USD, else kg)',
        choices: ['g', 'kg', 't', 'oz', 'lb', 'ton'],
      },
      {
        flags: '--with <parts>',
        about: 'hooks, workflow (for git), editor (settings, ids); to a studio too',
      },
      as(['text', 'json']),
    ],
  },
  {
    name: 'day',
    about: 'say how the studio is at the end of the day, on one screen',
    examples: [
      'saggar day',
      'saggar day --long',
      'saggar day --date yesterday',
      'saggar day --as-of 2026-05-17',
    ],
    options: [
      { flags: '--long', about: "all there is to say, and the day's records with their ids" },
      {
        flags: '--date <day>',
        about:
          'only list the records of that day as they are now, and definitions that change from it on',
      },
      ...OF_ANY_TIME,
    ],
  },
  {
    name: 'check',
    about: 'say what is wrong in the book, where, and how to fix it',
    examples: [
      'saggar check',
      'saggar check --strict',
      'saggar check --at HEAD',
      'saggar check --since HEAD',
      'saggar check --rules',
      'saggar check --as sarif > problems.sarif',
    ],
    options: [
      {
        flags: '--strict',
        about: 'count warnings as errors, but for figures that are only asked about',
      },
      {
        flags: '--since <revision>',
        about: 'first what that commit does not have, then the rest in short',
      },
      { flags: '--rules', about: 'list the rules instead, with what each finds wrong' },
      STUDIO,
      AS_OF,
      PROBLEMS_AS,
      AT,
      AFRESH,
    ],
  },
  ...RECORD_COMMANDS,
  ...REPORT_COMMANDS,
  PAPER_COMMAND,
  {
    name: 'review',
    argument: { form: '<base>', about: 'the branch that this one is to be merged into, or A..B' },
    more: { form: '[head]', about: 'the branch to be merged (the working tree)' },
    about: 'say what a branch changes in the book, for a pull request',
    examples: [
      'saggar review main',
      'saggar review main HEAD --as markdown',
      'saggar review main --without names,prices',
    ],
    options: [
      { flags: '--strict', about: 'count new warnings as errors' },
      { flags: '--without <what>', about: 'keep names, prices or names,prices to yourself' },
      STUDIO,
      AS_OF,
      AFRESH,
      as(['text', 'json', 'markdown', 'annotations']),
    ],
  },
  {
    name: 'export',
    argument: {
      form: '[folder]',
      about: 'a new or empty folder; - writes an archive to standard output',
      offers: 'folders',
    },
    about: 'write the whole book and all reports as tables and pages, to hand over',
    examples: [
      'saggar export handover-2025 --year 2025',
      'saggar export --archive handover.zip',
      'saggar export - > handover.zip',
    ],
    options: [
      { flags: '--archive <file>', about: 'a zip of all of it, with the files of the book' },
      STUDIO,
      AS_OF,
      AT,
      AFRESH,
      ...SPAN,
    ],
  },
  {
    name: 'forget',
    about: 'delete what is remembered of the studio to be quick; its files stay as they are',
    examples: ['saggar forget', 'saggar forget --all'],
    options: [{ flags: '--all', about: 'what is remembered of every studio' }, STUDIO],
  },
  {
    name: 'completion',
    argument: { form: '<shell>', about: 'bash, zsh or fish', choices: ['bash', 'zsh', 'fish'] },
    about: 'print the script that lets a shell complete commands, options and ids',
    examples: ['saggar completion bash', 'saggar completion zsh', 'saggar completion fish'],
    options: [],
  },
  {
    name: 'help',
    argument: { form: '[command]', about: 'the command', offers: 'commands' },
    more: { form: '[kind]', about: 'with add, the kind of record: its fields' },
    about: 'print help on everything, or on a command',
    examples: ['saggar help', 'saggar help materials', 'saggar help add sales'],
    options: [],
  },
  {
    name: 'man',
    about: 'print the manual page',
    examples: ['saggar man', 'saggar man > saggar.1'],
    options: [],
  },
] as const satisfies readonly CommandSpec[];

/** Every command, in the order of a potter's day. */
export const COMMANDS: readonly CommandSpec[] = ALL;

type Spec = (typeof ALL)[number] | typeof COMPLETE_WORDS;

/** The name of a command. */
export type CommandName = Spec['name'];

/** The values of a command's options, by their names in camelCase. */
export type OptionsOf<N extends CommandName> = ValuesOf<
  Extract<Spec, { readonly name: N }>['options'][number]
>;

/** What is asked of a command. */
export type AskedOf<N extends CommandName> = Asked<OptionsOf<N>>;

/** What carries a command out. */
export type CommandOf<N extends CommandName> = Command<OptionsOf<N>>;
