/** All commands with their words: the one source of help, completion and documentation. */
import { KINDS } from '../book.ts';
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../groups.ts';
import { by, CHANGING, COMMON, DRY_RUN, NO_INPUT, OF_ANY_TIME, SPAN, STUDIO } from './options.ts';
import { AMEND } from './amend-spec.ts';
import { CHECK } from './check-spec.ts';
import { CLOSING } from './closing-spec.ts';
import { REVIEW } from './review-spec.ts';
import { EXPORT } from './export-spec.ts';
import type { CommandSpec } from './spec.ts';

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
export const COMPLETE_WORDS: CommandSpec = {
  name: 'complete-words',
  more: { form: '[words...]', about: 'the words of a command line up to the cursor' },
  about: 'say how a command line can go on',
  examples: [],
  options: [],
  load: async () => (await import('./complete-words.ts')).completeWords,
};

/** Every command, in the order of a potter's day. */
export const COMMANDS: readonly CommandSpec[] = [
  {
    name: 'init',
    argument: {
      form: '<folder>',
      about: 'an empty folder, or one that is to be made',
      offers: 'folders',
    },
    about: 'make a new studio, with samples of everything',
    examples: [
      'saggar init hill-street',
      'saggar init hill-street --name "Hill Street Pottery" --currency EUR --weight-unit kg',
      'saggar init . --with hooks,diff',
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
        about: 'hooks, workflow, diff (for git), schemas (renewed); to a studio too',
      },
    ],
    load: async () => (await import('./init.ts')).init,
  },
  {
    name: 'day',
    about: 'say where the studio stands at the end of the day, on one screen',
    examples: ['saggar day', 'saggar day --long', 'saggar day --as-of 2026-05-17'],
    options: [{ flags: '--long', about: 'all there is to say, on as many lines' }, ...COMMON],
    load: async () => (await import('./day.ts')).day,
  },
  CHECK,
  {
    name: 'tidy',
    about: 'put quotes round the values that other readers of a file would change',
    examples: ['saggar tidy --dry-run', 'saggar tidy'],
    options: CHANGING,
    load: async () => (await import('./tidy.ts')).tidy,
  },
  {
    name: 'add',
    argument: { form: '[kind]', about: 'what it is: sales, bought, firings …' },
    takesFields: true,
    about: 'write a new record down',
    examples: [
      'saggar add sales --channel door --line "1 mug oatmeal at 38" --dry-run',
      'saggar add used --material kaolin --quantity "2 lb" --for test --dry-run',
      'saggar add firings --help',
    ],
    options: [
      { flags: '--record <where>', about: '- takes the record as YAML from standard input' },
      { flags: '--id <id>', about: 'an id of your own' },
      CLOSING,
      NO_INPUT,
      ...CHANGING,
    ],
    load: async () => (await import('./add.ts')).add,
  },
  {
    name: 'unload',
    argument: {
      form: '[firing]',
      about: "the firing's id; not needed while one alone is in the kiln",
      offers: 'in-kiln',
    },
    about: 'write down what came out of a firing that is still in the kiln',
    examples: ['saggar unload f260702kt --line "19 first 1 lost 1 cracked" --hours 8.5'],
    options: [
      {
        flags: '--line <outcome>',
        about: 'what came out of a lot, or of the next line: "22 first 1 second 1 lost 1 cracked"',
        repeats: true,
      },
      { flags: '--date <day>', about: 'the day it was unloaded, when not today' },
      { flags: '--cone-seen <cone>', about: 'the cone that went down' },
      { flags: '--peak <temperature>', about: 'the highest temperature, such as "2228 °F"' },
      { flags: '--hours <hours>', about: 'how long it fired' },
      { flags: '--energy <quantity>', about: 'what it drew, such as "71.4 kWh"' },
      { flags: '--meter-after <reading>', about: 'the meter at the end' },
      { flags: '--meter-before <reading>', about: "the meter before, when not the last firing's" },
      { flags: '--fuel-used <quantity>', about: 'fuel, such as "8.2 m3-gas" or "12 lb propane"' },
      { flags: '--tended <hours>', about: 'hours of work at the kiln' },
      NO_INPUT,
      ...CHANGING,
    ],
    load: async () => (await import('./unload.ts')).unload,
  },
  AMEND,
  {
    name: 'remove',
    argument: { form: '<id>', about: "the record's id", offers: KINDS },
    about: 'take a record out of its file',
    examples: ['saggar remove s260627ah --dry-run'],
    options: [
      { flags: '--even-if-used', about: 'though other records name it, or would not be sound' },
      ...CHANGING,
    ],
    load: async () => (await import('./remove.ts')).remove,
  },
  {
    name: 'materials',
    argument: {
      form: '[id]',
      about: "one material's or glaze's history",
      offers: ['materials', 'recipes'],
    },
    about: 'say what is left in the bags, how long it lasts and when to order',
    examples: [
      'saggar materials',
      'saggar materials kaolin',
      'saggar materials --where --from 2026-01-01',
    ],
    options: [
      { flags: '--where', about: 'where the value of the materials is' },
      { flags: '--window <days>', about: 'days that usage is measured over (90)' },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
    load: async () => (await import('./materials.ts')).materials,
  },
  {
    name: 'firings',
    argument: { form: '[id]', about: "one firing's load", offers: ['firings'] },
    about: 'say what each firing cost and what a piece in it cost',
    examples: ['saggar firings', 'saggar firings --from 2026-04-01', 'saggar firings --year 2025'],
    options: [...OF_ANY_TIME, ...SPAN],
    load: async () => (await import('./firings.ts')).firings,
  },
  {
    name: 'losses',
    about: 'say what was lost in making and firing, and which firing is out of line',
    examples: ['saggar losses', 'saggar losses --by product', 'saggar losses --chart'],
    options: [
      by(LOSS_GROUPS, 'what losses are counted by'),
      { flags: '--chart', about: 'each firing beside the limits for its kind' },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
    load: async () => (await import('./losses.ts')).losses,
  },
  {
    name: 'income',
    about: 'say what a year earned, down to the margin',
    examples: ['saggar income', 'saggar income --year 2025', 'saggar income --by channel'],
    options: [by(INCOME_GROUPS, 'what income is counted by'), ...OF_ANY_TIME, ...SPAN],
    load: async () => (await import('./income.ts')).income,
  },
  {
    name: 'pieces',
    about: 'say what stands at which stage, and what is ready to sell where',
    examples: ['saggar pieces', 'saggar pieces --by place'],
    options: [by(PIECES_GROUPS, 'how the pieces are laid out'), ...OF_ANY_TIME],
    load: async () => (await import('./pieces.ts')).pieces,
  },
  {
    name: 'costs',
    argument: { form: '[product]', about: "one product's cost, taken apart", offers: ['products'] },
    about: 'say what one good piece costs, and the least price that covers it',
    examples: ['saggar costs', 'saggar costs mug', 'saggar costs --year 2025 --overhead-by labour'],
    options: [
      {
        flags: '--overhead-by <basis>',
        about: 'what running expenses are spread by (space)',
        choices: OVERHEAD_BASES,
      },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
    load: async () => (await import('./costs.ts')).costs,
  },
  {
    name: 'quarter',
    argument: {
      form: '[period]',
      about: "the business year's quarter, 2026-Q2, or the year, 2026 (the quarter of --as-of)",
      offers: 'periods',
    },
    about: 'sum up a quarter or a year for a tax preparer',
    examples: [
      'saggar quarter',
      'saggar quarter 2026-Q1 --basis accrual',
      'saggar quarter 2025 --sheet us-schedule-c --tax-rate 22',
      'saggar quarter 2025 --filed --on 2026-03-20 --dry-run',
    ],
    options: [
      {
        flags: '--basis <basis>',
        about: 'when money counts: as it is paid, or as it is earned',
        choices: ['cash', 'accrual'],
      },
      {
        flags: '--sheet <sheet>',
        about: 'us-schedule-c, uk-sa103s, plain, or a file of your own in the studio',
        offers: 'sheets',
      },
      { flags: '--tax-rate <percent>', about: 'your own rate of income tax, to set aside by' },
      { flags: '--filed', about: 'record that the lines of the sheet were filed as they are now' },
      { flags: '--on <day>', about: 'the day it was filed (that of --as-of)' },
      DRY_RUN,
      ...OF_ANY_TIME,
    ],
    load: async () => (await import('./quarter.ts')).quarter,
  },
  {
    name: 'galleries',
    argument: { form: '[channel]', about: "one gallery's deliveries", offers: ['channels'] },
    about: 'say what each gallery has of yours, what it sold and what it owes',
    examples: ['saggar galleries', 'saggar galleries gallery'],
    options: [...OF_ANY_TIME],
    load: async () => (await import('./galleries.ts')).galleries,
  },
  {
    name: 'fairs',
    argument: { form: '[id]', about: 'one fair, line by line', offers: ['fairs'] },
    about: 'say what each fair brought in after all that it cost',
    examples: ['saggar fairs', 'saggar fairs k251206hd', 'saggar fairs --year 2025'],
    options: [...OF_ANY_TIME, ...SPAN],
    load: async () => (await import('./fairs.ts')).fairs,
  },
  REVIEW,
  EXPORT,
  {
    name: 'forget',
    about: 'delete what is remembered of the studio to be quick; its files stay as they are',
    examples: ['saggar forget', 'saggar forget --all'],
    options: [{ flags: '--all', about: 'what is remembered of every studio' }, STUDIO],
    load: async () => (await import('./forget.ts')).forget,
  },
  {
    name: 'completion',
    argument: { form: '<shell>', about: 'bash, zsh or fish', choices: ['bash', 'zsh', 'fish'] },
    about: 'print the script that lets a shell complete commands, options and ids',
    examples: ['saggar completion bash', 'saggar completion zsh', 'saggar completion fish'],
    options: [],
    load: async () => (await import('./completion.ts')).completion,
  },
  {
    name: 'man',
    about: 'print the manual page',
    examples: ['saggar man', 'saggar man > saggar.1'],
    options: [],
    load: async () => (await import('./man.ts')).man,
  },
];
