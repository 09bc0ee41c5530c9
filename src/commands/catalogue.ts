/** All commands with their words: the one source of help, completion and documentation. */
import { INCOME_GROUPS, LOSS_GROUPS, PIECES_GROUPS } from '../groups.ts';
import type { Command } from './world.ts';

/** An option as it is typed: `--as FORMAT`, or `--where` without a value. */
export interface OptionSpec {
  readonly flags: string;
  readonly about: string;
  readonly choices?: readonly string[];
}

/** One command. */
export interface CommandSpec {
  readonly name: string;
  /** What may stand after the name: `[ID]`. */
  readonly argument?: { readonly form: string; readonly about: string };
  readonly about: string;
  /** Whole command lines that work in any studio of the demo's kind; help leads with them. */
  readonly examples: readonly string[];
  readonly options: readonly OptionSpec[];
  /** Loads the command; nothing of it is loaded before it is run. */
  readonly load: () => Promise<Command>;
}

const STUDIO: OptionSpec = {
  flags: '--studio <folder>',
  about: 'the studio, when it is not this folder or one above it',
};
const AS_OF: OptionSpec = {
  flags: '--as-of <day>',
  about: 'look at the book as it stood at the end of that day (today)',
};
const AS: OptionSpec = {
  flags: '--as <format>',
  about: 'form of the output',
  choices: ['text', 'json', 'csv', 'markdown'],
};
const FROM: OptionSpec = { flags: '--from <day>', about: 'leave out what was before that day' };
const TO: OptionSpec = { flags: '--to <day>', about: 'leave out what came after that day' };
const YEAR: OptionSpec = { flags: '--year <year>', about: 'the business year, such as 2026' };
const COMMON = [STUDIO, AS_OF, AS];
const SPAN = [YEAR, FROM, TO];

function by(choices: readonly string[], about: string): OptionSpec {
  return { flags: '--by <group>', about, choices };
}

/** Every command, in the order of a potter's day. */
export const COMMANDS: readonly CommandSpec[] = [
  {
    name: 'check',
    about: 'say what is wrong in the book, where, and how to mend it',
    examples: ['saggar check', 'saggar check --strict', 'saggar check --as json'],
    options: [{ flags: '--strict', about: 'count warnings as errors' }, ...COMMON],
    load: async () => (await import('./check.ts')).check,
  },
  {
    name: 'materials',
    argument: { form: '[id]', about: "one material's or glaze's history" },
    about: 'say what is left in the bags, how long it lasts and when to order',
    examples: [
      'saggar materials',
      'saggar materials kaolin',
      'saggar materials --where --from 2026-01-01',
    ],
    options: [
      { flags: '--where', about: 'where the value of the materials is' },
      { flags: '--window <days>', about: 'days that usage is measured over (90)' },
      ...COMMON,
      ...SPAN,
    ],
    load: async () => (await import('./materials.ts')).materials,
  },
  {
    name: 'firings',
    argument: { form: '[id]', about: "one firing's load" },
    about: 'say what each firing cost and what a piece in it cost',
    examples: ['saggar firings', 'saggar firings --from 2026-04-01', 'saggar firings --year 2025'],
    options: [...COMMON, ...SPAN],
    load: async () => (await import('./firings.ts')).firings,
  },
  {
    name: 'losses',
    about: 'say what was lost in making and firing, and which firing is out of line',
    examples: ['saggar losses', 'saggar losses --by product', 'saggar losses --chart'],
    options: [
      by(LOSS_GROUPS, 'what losses are counted by'),
      { flags: '--chart', about: 'each firing beside the limits for its kind' },
      ...COMMON,
      ...SPAN,
    ],
    load: async () => (await import('./losses.ts')).losses,
  },
  {
    name: 'income',
    about: 'say what a year earned, down to the margin',
    examples: ['saggar income', 'saggar income --year 2025', 'saggar income --by channel'],
    options: [by(INCOME_GROUPS, 'what income is counted by'), ...COMMON, ...SPAN],
    load: async () => (await import('./income.ts')).income,
  },
  {
    name: 'pieces',
    about: 'say what stands at which stage, and what is ready to sell where',
    examples: ['saggar pieces', 'saggar pieces --by place'],
    options: [by(PIECES_GROUPS, 'how the pieces are laid out'), ...COMMON],
    load: async () => (await import('./pieces.ts')).pieces,
  },
];
