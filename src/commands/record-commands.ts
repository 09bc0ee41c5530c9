/** What the catalogue says of the commands that change records. */
import { KINDS } from '../book.ts';
import { AFRESH, AS_OF, CHANGING, NO_INPUT, IN_LINES, STUDIO, as } from './options.ts';
import type { CommandSpec, OptionSpec } from './spec.ts';

/** Ends a day at a fair. */
const CLOSING = {
  flags: '--closing',
  about: 'with sales: end a day at a fair by what came back and the money that is there',
} as const;

/** A day's end as it is typed. */
export const CLOSING_EXAMPLE =
  'saggar add sales --closing --fair k260509bz --date 2026-05-10 --took "24 mug" --back "9 mug" --cash 312.50 --float 50 --card 260';

/** What it takes beside the options of every `add`. */
export const CLOSING_OPTIONS: readonly OptionSpec[] = [
  {
    flags: '--fair <id>',
    about: 'the fair; not needed while one alone is held that day',
    offers: ['fairs'],
  },
  { flags: '--date <day>', about: 'the day of the fair that ends (today, or its only day)' },
  {
    flags: '--took <line>',
    about: 'what was on the stall that morning, when not what the fair says it takes: "24 mug"',
    repeats: true,
    offers: 'sentence',
  },
  {
    flags: '--back <line>',
    about: 'what came back: "9 mug sea-green", or none',
    repeats: true,
    offers: 'sentence',
  },
  { flags: '--cash <amount>', about: 'the cash in the box now' },
  { flags: '--float <amount>', about: 'the cash that was in the box in the morning (0)' },
  { flags: '--card <amount>', about: "the card reader's total of the day" },
  {
    flags: '--sold <line>',
    about: 'gone pieces to write as one sale: "10 mug", "2 mug at 25", or all that are left',
    repeats: true,
    offers: 'sentence',
  },
  {
    flags: '--missing <line>',
    about: 'gone pieces to write as missing: "2 mug", or all that are left',
    repeats: true,
    offers: 'sentence',
  },
  { flags: '--discount <discount>', about: 'money or a percentage off the sale' },
  { flags: '--fee <amount>', about: "what the reader's statement says it took of the sale" },
  { flags: '--note <text>', about: 'a note of the sale' },
];

/** From the plainest change to what takes a record out. */
export const RECORD_COMMANDS = [
  {
    name: 'tidy',
    about: 'put quotes around the values that other readers of a file would change',
    examples: ['saggar tidy --dry-run', 'saggar tidy'],
    options: CHANGING,
  },
  {
    name: 'add',
    argument: { form: '[kind]', about: 'what it is: sales, bought, firings …' },
    more: { form: '[-]', about: 'takes the record as YAML from standard input' },
    takesFields: true,
    about: 'add a new record',
    examples: [
      'saggar add sales --channel door --line "1 mug oatmeal at 38" --dry-run',
      'saggar add used --material kaolin --quantity "2 lb" --for test --dry-run',
      'saggar help add firings',
    ],
    options: [
      {
        flags: '--lines <file>',
        about: 'take lines as sentences from a file, one on each line, or - from standard input',
      },
      { flags: '--id <id>', about: 'an id of your own' },
      CLOSING,
      {
        flags: '--back-to <place>',
        about:
          'put what was removed back, word for word: FILE:LINE; the record is on standard input',
      },
      NO_INPUT,
      IN_LINES,
      ...CHANGING,
    ],
  },
  {
    name: 'show',
    argument: { form: '<id>', about: "the record's id, or its name", offers: KINDS },
    about: 'show one record: where it is, what it came to, what uses it, how to change it',
    examples: ['saggar show s260627ah', 'saggar show sea-green', 'saggar show mug --as json'],
    options: [STUDIO, AS_OF, as(['text', 'json']), AFRESH],
  },
  {
    name: 'unload',
    argument: {
      form: '[firing]',
      about: "the firing's id; not needed while one alone is in the kiln",
      offers: 'in-kiln',
    },
    about: 'record what came out of a firing that is still in the kiln',
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
      IN_LINES,
      ...CHANGING,
    ],
  },
  {
    name: 'gone',
    argument: {
      form: '[ware]',
      about: 'what left: "1 mug oatmeal", "2 bowl second broken", "1 vase gift at gallery"',
      offers: 'sentence',
    },
    more: { form: '[wares...]', about: 'more that left', offers: 'sentence' },
    about: 'record what left without a sale: gifts, breakages, what you kept or miss',
    examples: [
      'saggar gone "1 mug oatmeal" --why gift --note "For the neighbours" --dry-run',
      'saggar gone "1 mug oatmeal broken" --date yesterday --dry-run',
    ],
    options: [
      {
        flags: '--why <how>',
        about: 'why it left, where the line does not say so',
        choices: ['gift', 'kept', 'broken', 'given-away', 'missing'],
      },
      { flags: '--date <day>', about: 'the day it left, when not today' },
      {
        flags: '--channel <id>',
        about: 'the gallery where it was, when not the studio',
        offers: ['channels'],
      },
      { flags: '--fair <id>', about: 'the fair where it broke or went missing', offers: ['fairs'] },
      { flags: '--lot <id>', about: 'the lot it is of, when not the oldest', offers: ['pieces'] },
      { flags: '--note <text>', about: 'a note, such as whom it went to' },
      NO_INPUT,
      IN_LINES,
      ...CHANGING,
    ],
  },
  {
    name: 'revise',
    argument: { form: '[recipe]', about: "the recipe's id", offers: ['recipes'] },
    more: {
      form: '[changes...]',
      about: '"kaolin 12", "rutile 2.5%" (on top of the base), "without rutile"',
      offers: 'sentence',
    },
    about: 'add a new version of a recipe from a day on: what changes, or the whole list',
    examples: [
      'saggar revise sea-green "rutile 2.5%" --note "Warmer" --dry-run',
      'saggar revise sea-green "kaolin 12" "without rutile" --from 2026-08-01 --dry-run',
    ],
    options: [
      {
        flags: '--tile <test>',
        about: 'what was tried on a good tile, as its record says in tried',
        offers: ['tests'],
      },
      {
        flags: '--base <line>',
        about: 'a line of the whole new base: "27 nepheline"; else it stays but for the changes',
        repeats: true,
        offers: 'sentence',
      },
      {
        flags: '--addition <line>',
        about: 'a line of all new additions: "2.5% rutile"; else they stay but for the changes',
        repeats: true,
        offers: 'sentence',
      },
      { flags: '--from <day>', about: 'the first day on which it is mixed so, when not today' },
      { flags: '--note <text>', about: 'a note of the version, such as why' },
      { flags: '--even-if-mixed', about: 'even if what was mixed since then changes' },
      NO_INPUT,
      IN_LINES,
      ...CHANGING,
    ],
  },
  {
    name: 'amend',
    argument: {
      form: '[id]',
      about: "the record's id; studio.yaml for the settings; without one it is asked for",
      offers: KINDS,
    },
    more: {
      form: '[changes...]',
      about:
        'FIELD=VALUE; within a list counted from 1: lines.1.price=40, or price=40 where one alone has it; FIELD= takes it out',
      offers: 'fields',
    },
    about: 'change values of a record',
    examples: [
      'saggar amend s260630db paid=2026-07-01 --dry-run',
      'saggar amend s260630db lines.1.price=36 "lines.6=1 mug oatmeal at 40" --dry-run',
      'saggar amend gallery commission=50% --from 2026-08-01 --dry-run',
      'saggar amend studio.yaml labour-rate=27 --from 2026-07-01 --dry-run',
    ],
    options: [
      {
        flags: '--from <day>',
        about:
          'the first day on which it is so, for products, channels, classes and labour-rate; figures before it stay',
      },
      {
        flags: '--even-if-closed',
        about: 'even if figures of a closed period change',
      },
      { flags: '--even-if-mixed', about: 'even if what was mixed by the recipe changes' },
      {
        flags: '--as-it-was',
        about: 'take the whole record from standard input, word for word, as before a change',
      },
      NO_INPUT,
      IN_LINES,
      ...CHANGING,
    ],
  },
  {
    name: 'take-in',
    argument: {
      form: '<file>',
      about:
        'a list as a shop, a card reader or a bank gives it out (csv), or notes; - for standard input',
    },
    about: 'take in a list: rows of a table become records, by a map of the studio',
    examples: [
      'saggar take-in orders.csv --by shop --draft',
      'saggar take-in orders.csv --by shop',
      'saggar take-in orders.csv --by shop --write',
    ],
    options: [
      { flags: '--by <map>', about: 'the map: shop is lists/shop.yaml', offers: 'lists' },
      { flags: '--write', about: 'take it in, all or nothing; else it is only shown' },
      {
        flags: '--draft',
        about: "propose a map by the list's head and the book; with --write it is saved",
      },
      {
        flags: '--late',
        about: 'take in what is held back too: rows before others that are there',
      },
      ...CHANGING,
    ],
  },
  {
    name: 'remove',
    argument: { form: '[id]', about: "the record's id", offers: KINDS },
    more: { form: '[ids...]', about: 'more of them', offers: KINDS },
    about: 'take records out of their files',
    examples: ['saggar remove s260627ah --dry-run'],
    options: [
      { flags: '--from <list>', about: 'all that was taken in from a list, with --on' },
      { flags: '--on <day>', about: 'the day on which it was taken in' },
      { flags: '--even-if-used', about: 'even if other records use it, or would not be sound' },
      ...CHANGING,
    ],
  },
] as const satisfies readonly CommandSpec[];
