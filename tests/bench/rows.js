/** What the benchmark asks, generated from the catalogue: every report with every option that changes its figures. */
import { COMMANDS } from './catalogue.js';
import { GALLERIES } from './grow-definitions.js';

/** @import { CommandSpec, OptionSpec } from '../../src/commands/spec.ts' */

/**
 * One question: the words of a command line. A plain one is a command without anything more.
 * @typedef {{ name: string, words: readonly string[], isPlain: boolean }} Row
 */

/**
 * What is asked for by its id in the studio that is measured: its last firing and its last fair.
 * @typedef {{ firing: string, fair: string }} Ids
 */

/**
 * Options that change no figure, or are measured in another way: `--as` by its page, `--afresh` as cold.
 * @type {readonly string[]}
 */
const NO_FIGURES = [
  '--since',
  '--studio',
  '--afresh',
  '--strict',
  '--rules',
  '--dry-run',
  '--filed',
  '--on',
];

/**
 * What the others are asked with.
 * @type {Readonly<Record<string, readonly string[]>>}
 */
const VALUES = {
  '--as': ['html'],
  '--as-of': ['2025-06-30'],
  '--assurance': ['95'],
  '--at': ['main'],
  '--date': ['2025-06-30'],
  '--class': ['wheel'],
  '--from': ['2025-04-01'],
  '--make': ['20 mug'],
  '--sheet': ['us-schedule-c', 'uk-sa103s', 'plain'],
  '--tax-rate': ['22'],
  '--to': ['2025-09-30'],
  '--until': ['2026-09-30'],
  '--version-of': ['2025-06-30'],
  '--window': ['30'],
  '--without': ['names,prices'],
  '--year': ['2024'],
};

/**
 * Options that a command takes only beside another one.
 * @type {Readonly<Record<string, readonly string[]>>}
 */
const BESIDE = {
  'materials --from': ['--where'],
  'materials --to': ['--where'],
  'materials --year': ['--where'],
  'trace --as': ['clear'],
  'trace --full': ['clear'],
  'trace --as-of': ['clear'],
  'trace --at': ['clear'],
  'trace --only': ['clear'],
  'trace --version-of': ['clear'],
};

/**
 * What stands after the name of a report that takes something there.
 * @type {(ids: Ids) => Readonly<Record<string, readonly string[]>>}
 */
const argumentsOf = ({ firing, fair }) => ({
  claims: ['mug'],
  tests: ['clear'],
  costs: ['mug'],
  fairs: [fair],
  firings: [firing],
  galleries: GALLERIES.slice(0, 1),
  kilns: ['front-loader'],
  materials: ['feldspar', 'clear'],
  orders: [],
  plan: [],
  recipes: ['clear'],
  quarter: ['2025-Q4', '2025-Q2', '2019-Q2', '2025'],
  show: ['mug', firing],
  trace: ['feldspar', 'clear', firing],
});

/**
 * The commands that are no reports: those without an entry in `writing.js` are asked so, once.
 * @type {Readonly<Record<string, readonly (readonly string[])[]>>}
 */
export const OTHERS = {
  add: [],
  amend: [],
  completion: [['bash']],
  'complete-words': [['materials', 'f']],
  export: [['OUT'], ['--archive', 'OUT.zip']],
  forget: [[]],
  gone: [],
  help: [[], ['materials']],
  init: [['OUT']],
  man: [[]],
  match: [],
  paper: [['labels', '12 mug']],
  remove: [],
  revise: [],
  review: [['main'], ['main', '--without', 'names,prices']],
  'take-in': [],
  tidy: [['--dry-run']],
  unload: [],
  weigh: [
    ['clear', '5 kg'],
    ['clear', '12 L', '--gravity', '1.45'],
  ],
};

/**
 * Whether a command shows the book in a form that one chooses.
 * @param {CommandSpec} command
 */
export const isReport = ({ name, options }) =>
  !(name in OTHERS) && options.some(({ flags }) => flags.startsWith('--as '));

/**
 * All questions to reports. A new option without a value here, or a new command that is not a report and
 * has no line above, ends the benchmark.
 * @param {Ids} ids
 * @param {readonly CommandSpec[]} [commands]
 * @returns {Row[]}
 */
export function reportRows(ids, commands = COMMANDS) {
  const lost = commands.find((each) => !isReport(each) && !OTHERS[each.name]);
  if (lost) throw new Error(`${lost.name} has no row in tests/bench/rows.js`);
  return commands.filter(isReport).flatMap((command) => rowsOf(command, argumentsOf(ids)));
}

/** @type {(command: CommandSpec, given: Readonly<Record<string, readonly string[]>>) => Row[]} */
function rowsOf({ name, argument, options }, given) {
  if (argument && !given[name])
    throw new Error(`${name} has no ${argument.form} in tests/bench/rows.js`);
  const asked = options.flatMap((option) => wordsOf(name, option));
  const flags = asked.filter(({ length }) => length === 1);
  const spans = asked.filter((words) => words.at(-2) === '--from' && !BESIDE[`${name} --from`]);
  const more = [
    ...(given[name] ?? []).map((word) => [word]),
    ...asked,
    ...flags.flatMap((flag) => spans.map((span) => [...flag, ...span])),
  ];
  return [[], ...more].map((words) => ({
    name,
    words: [name, ...words],
    isPlain: words.length === 0,
  }));
}

/**
 * An option with each value that it is asked with.
 * @type {(name: string, option: OptionSpec) => string[][]}
 */
function wordsOf(name, { flags, choices }) {
  const [option = '', value] = flags.split(' ');
  if (NO_FIGURES.includes(option)) return [];
  if (value === undefined) return [[option]];
  const values = VALUES[option] ?? choices;
  if (!values) throw new Error(`${option} of ${name} has no value in tests/bench/rows.js`);
  const beside = BESIDE[`${name} ${option}`] ?? [];
  return values.map((each) => [...beside, option, each]);
}
