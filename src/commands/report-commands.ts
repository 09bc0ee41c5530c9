/** What the catalogue says of the reports. */
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../groups.ts';
import { DRY_RUN, OF_ANY_TIME, SPAN, by } from './options.ts';
import type { CommandSpec } from './spec.ts';
import { TRACING_COMMANDS } from './tracing-commands.ts';

/** From the bags to the fairs. */
export const REPORT_COMMANDS = [
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
      { flags: '--where', about: 'where the money in materials is' },
      { flags: '--window <days>', about: 'days that usage is measured over (90)' },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
  },
  {
    name: 'firings',
    argument: { form: '[id]', about: "one firing's load", offers: ['firings'] },
    about: 'say what each firing cost and what a piece in it cost',
    examples: ['saggar firings', 'saggar firings --from 2026-04-01', 'saggar firings --year 2025'],
    options: [...OF_ANY_TIME, ...SPAN],
  },
  {
    name: 'losses',
    about: 'say what was lost in making and firing, and which firing is out of line',
    examples: [
      'saggar losses',
      'saggar losses --by product',
      'saggar losses --chart',
      'saggar losses --chart --by kiln',
    ],
    options: [
      by(LOSS_GROUPS, 'what losses are counted by'),
      {
        flags: '--chart',
        about: 'each firing beside the limits for its kind; with --by a small chart for each group',
      },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
  },
  {
    name: 'income',
    about: 'say what a year earned, down to the margin',
    examples: ['saggar income', 'saggar income --year 2025', 'saggar income --by channel'],
    options: [by(INCOME_GROUPS, 'what income is counted by'), ...OF_ANY_TIME, ...SPAN],
  },
  {
    name: 'pieces',
    about: 'say how many pieces are at which stage, and what is ready to sell where',
    examples: ['saggar pieces', 'saggar pieces --by place'],
    options: [by(PIECES_GROUPS, 'how the pieces are laid out'), ...OF_ANY_TIME],
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
  },
  {
    name: 'galleries',
    argument: { form: '[channel]', about: 'what one gallery has now', offers: ['channels'] },
    about: 'say what each gallery has of yours, what it sold and what it owes',
    examples: [
      'saggar galleries',
      'saggar galleries gallery',
      'saggar galleries gallery --history',
    ],
    options: [
      { flags: '--history', about: 'what came to that gallery, was sold, returned and paid' },
      ...OF_ANY_TIME,
    ],
  },
  {
    name: 'weigh',
    argument: { form: '<recipe>', about: "the recipe's id", offers: ['recipes'] },
    more: {
      form: '[amount...]',
      about: 'how much: "5 kg" of the base, or "12 L" of slop with --gravity',
    },
    about: 'write the sheet beside the scales: what to weigh out for a mix',
    examples: [
      'saggar weigh sea-green 5 kg',
      'saggar weigh sea-green 12 L --gravity 1.45',
      'saggar weigh sea-green 200 g --blend linen --steps 5',
    ],
    options: [
      { flags: '--total', about: 'the weight is of all that is dry, additions included' },
      { flags: '--gravity <number>', about: 'specific gravity of the slop: says the water, too' },
      {
        flags: '--blend <recipe>',
        about: 'a line blend from the one recipe to the other',
        offers: ['recipes'],
      },
      { flags: '--steps <number>', about: 'mixes of a line blend, both ends counted (5)' },
      ...OF_ANY_TIME,
    ],
  },
  {
    name: 'recipes',
    argument: {
      form: '[id]',
      about: 'one recipe: its versions, and all that was tried on it',
      offers: ['recipes'],
    },
    about: 'say what each recipe costs, what is mixed of it, and whether that is enough',
    examples: ['saggar recipes', 'saggar recipes sea-green'],
    options: [...OF_ANY_TIME],
  },
  {
    name: 'kilns',
    argument: { form: '[id]', about: "one kiln's log, firing by firing", offers: ['kilns'] },
    about: 'say how far the parts of the kilns are worn, and whether firings drift',
    examples: ['saggar kilns', 'saggar kilns big-kiln', 'saggar kilns big-kiln --year 2025'],
    options: [...OF_ANY_TIME, ...SPAN],
  },
  {
    name: 'orders',
    argument: { form: '[id]', about: 'one order with its story', offers: ['orders'] },
    about: 'say what is to be delivered to whom by when, and what there is for it',
    examples: ['saggar orders', 'saggar orders o260512ns', 'saggar orders --all'],
    options: [{ flags: '--all', about: 'delivered and cancelled orders too' }, ...OF_ANY_TIME],
  },
  {
    name: 'plan',
    argument: {
      form: '[id]',
      about: 'an order or a fair to plan for',
      offers: ['orders', 'fairs'],
    },
    more: { form: '[ids...]', about: 'further orders and fairs' },
    about: 'say what to start, load and order, so that all that is wanted is there in time',
    examples: [
      'saggar plan',
      'saggar plan --until 2026-09-19 --assurance 95',
      'saggar plan --make "20 mug oatmeal" --until 2026-09-14',
    ],
    options: [
      { flags: '--until <day>', about: 'leave out what is due later' },
      {
        flags: '--assurance <percent>',
        about: 'how sure it is to be that enough come through (90)',
      },
      { flags: '--make <pieces>', about: 'pieces to plan for: "20 mug oatmeal"' },
      ...OF_ANY_TIME,
    ],
  },
  {
    name: 'fairs',
    argument: { form: '[id]', about: 'one fair, line by line', offers: ['fairs'] },
    about: 'say what each fair brought in after all that it cost',
    examples: [
      'saggar fairs',
      'saggar fairs k251206hd',
      'saggar fairs --bring',
      'saggar fairs --year 2025',
    ],
    options: [
      {
        flags: '--bring',
        about: 'what to bring to that fair, or the next: what sold there before, and the list',
      },
      ...OF_ANY_TIME,
      ...SPAN,
    ],
  },
  {
    name: 'match',
    argument: {
      form: '<file>',
      about: "a bank's or a card reader's list (csv); - for standard input",
    },
    about: "hold a bank's or a card reader's list against the book",
    examples: [
      'saggar match bank.csv --by bank',
      'saggar match bank.csv --by bank --all',
      'saggar match bank.csv --by bank --by-month',
    ],
    options: [
      {
        flags: '--by <map>',
        about: 'the map of the list: bank is lists/bank.yaml',
        offers: 'lists',
      },
      { flags: '--all', about: 'what is on both sides too, with the records of each row' },
      { flags: '--by-month', about: 'what is on which side, month by month' },
      { flags: '--days <number>', about: 'so many days may lie between a record and its row (10)' },
      ...OF_ANY_TIME,
    ],
  },
  ...TRACING_COMMANDS,
] as const satisfies readonly CommandSpec[];
