/** Draws the benchmark's figures together as ratios, each beside its target, and prints them worst first. */
import { median, ratio } from './arithmetic.js';

/** @import { Case, State } from './cases.js' */
/** @import { Questions } from './questions.js' */
/** @import { GrownStudio } from './studios.js' */

/** @typedef {{ studio: GrownStudio, floorMs: number, cases: readonly Case[] }} Measured */

/**
 * One figure: a ratio to `node -e 0`, and how many times its target that is.
 * @typedef {{ ratio: number, ofTarget: number | undefined }} Figure
 */

/**
 * @typedef {object} Line
 * @property {string} name
 * @property {Partial<Record<State, Figure>>} figures
 * @property {number} worst the most that a figure is of its target; 0 without targets
 * @property {number} [peakMb]
 */

/**
 * The columns, in their order, with what stands above each.
 * @type {Readonly<Record<State, string>>}
 */
const HEADS = {
  never: 'never asked',
  again: 'again',
  end: 'last month changed',
  back: '11 months back',
  still: 'price changed',
  all: 'space changed',
  cold: 'cold',
  today: 'written today',
  year: 'written 11 months back',
};
const STATES = /** @type {readonly State[]} */ (Object.keys(HEADS));

/** What a figure may be, in times of `node -e 0`. */
/** @type {(which: Case, state: State, colds: { check: number, own: number, loader: number | undefined }) => number | undefined} */
function targetOf({ name, command }, state, { check, own, loader }) {
  if (state === 'cold' && name === 'check') return loader && 0.35 * loader;
  if (state === 'cold') return (command === 'export' ? 3 : 1.3) * check;
  if (state === 'all') return 1.1 * (Number.isNaN(own) ? check : own);
  if (command === 'export') return 25;
  if (command === 'review' || state === 'back' || state === 'year') return 4;
  if (name === 'check') return state === 'end' ? 3 : 2;
  return name.includes('--as html') ? 3.5 : 2.5;
}

/**
 * @param {Measured} measured
 * @param {number | undefined} loaderMs
 * @returns {Line[]} the worst first
 */
export function linesOf({ floorMs, cases }, loaderMs) {
  /** @type {(which: Case | undefined, state: State) => number} */
  const ratioOf = (which, state) => median(which?.times[state] ?? []) / floorMs;
  const check = ratioOf(
    cases.find(({ name }) => name === 'check'),
    'cold',
  );
  const loader = ratio(loaderMs, floorMs);
  const lines = cases.map((which) => {
    const states = STATES.filter((state) => which.times[state]);
    const figures = states.map((state) => {
      const value = ratioOf(which, state);
      const target = targetOf(which, state, { check, own: ratioOf(which, 'cold'), loader });
      return /** @type {const} */ ([state, { ratio: value, ofTarget: ratio(value, target) }]);
    });
    const worst = Math.max(0, ...figures.map(([, { ofTarget }]) => ofTarget ?? 0));
    const { name, peakMb } = which;
    const line = { name, figures: Object.fromEntries(figures), worst };
    return peakMb === undefined ? line : { ...line, peakMb };
  });
  return lines.sort((a, b) => b.worst - a.worst);
}

/** @typedef {{ measured: readonly Measured[], loaderMs: number | undefined, questions: readonly Questions[], machine: string }} All */

/**
 * The tables of a run, to be kept in the notes for developers.
 * @param {All} all
 * @returns {string}
 */
export function page({ measured, loaderMs, questions, machine }) {
  const [first, ...larger] = measured;
  if (!first) return '';
  const lines = linesOf(first, loaderMs);
  const { years, files, records, bytes } = first.studio;
  const loader =
    loaderMs === undefined ? '' : `, CSafeLoader ${loaderMs.toFixed(0)} ms for all files`;
  return [
    `${years} years: ${files} files, ${records} records, ${figure(bytes / 1e6)} MB. ${machine}: \`node -e 0\` takes ${figure(first.floorMs)} ms${loader}.`,
    `Times are ratios to \`node -e 0\`, the worst beside its target first; what misses its target is **bold**.`,
    worstOf(lines),
    tableOf(lines.filter(({ figures }) => !figures.today && !figures.year)),
    tableOf(lines.filter(({ figures }) => figures.today ?? figures.year)),
    coldOf(lines, ratio(loaderMs, first.floorMs)),
    questionsTable(questions),
    ...larger.map((other) => growthTable(first, other)),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

/** @type {(value: number) => string} */
const figure = (value) => (value < 100 ? value.toFixed(value < 10 ? 2 : 1) : value.toFixed(0));

/** @type {(lines: readonly Line[]) => string} */
function worstOf([line]) {
  const worst = Object.entries(line?.figures ?? {}).find(
    ([, each]) => each.ofTarget === line?.worst,
  );
  if (!line || !worst) return '';
  const [state, { ratio: value }] = /** @type {[State, Figure]} */ (worst);
  return `Worst: \`${line.name}\`, ${HEADS[state]}: ${figure(value)} ×, ${figure(line.worst)} of its target.`;
}

/** @type {(lines: readonly Line[]) => string} */
function tableOf(lines) {
  const states = STATES.filter((state) => lines.some(({ figures }) => figures[state]));
  const hasPeaks = lines.some(({ peakMb }) => peakMb !== undefined);
  const rows = lines.map(({ name, figures, peakMb }) => [
    `\`${name}\``,
    ...states.map((state) => cellOf(figures[state])),
    ...(hasPeaks ? [peakMb === undefined ? '' : peakMb.toFixed(0)] : []),
  ]);
  return tableText(
    ['command', ...states.map((state) => HEADS[state]), ...(hasPeaks ? ['MiB'] : [])],
    rows,
  );
}

/** @type {(cell: Figure | undefined) => string} */
function cellOf(cell) {
  if (!cell) return '';
  const text = figure(cell.ratio);
  return (cell.ofTarget ?? 0) > 1 ? `**${text}**` : text;
}

/** @type {(lines: readonly Line[], loader: number | undefined) => string} */
function coldOf(lines, loader) {
  const colds = lines.flatMap(({ name, figures }) =>
    figures.cold ? [{ name, ...figures.cold }] : [],
  );
  if (loader === undefined) return '';
  colds.sort((a, b) => b.ratio - a.ratio);
  const rows = colds.map(({ name, ratio: value }) => [`\`${name}\``, figure(value / loader)]);
  return tableText(['cold', '× CSafeLoader'], rows);
}

const LONGEST_MS = 150;

/** @type {(questions: readonly Questions[]) => string} */
function questionsTable(questions) {
  const rows = [...questions]
    .sort((a, b) => b.slowest.ms - a.slowest.ms)
    .map(({ kind, slowest, asked, end }) => [
      kind,
      slowest.ms > LONGEST_MS ? `**${slowest.ms.toFixed(0)}**` : slowest.ms.toFixed(0),
      slowest.prompt,
      String(asked),
      end,
    ]);
  if (rows.length === 0) return '';
  return tableText(['`add`', 'slowest, ms', 'after', 'questions', 'ended at'], rows);
}

/** @type {(small: Measured, large: Measured) => string} */
function growthTable(small, large) {
  const rows = large.cases.flatMap(({ name, times, peakMb }) => {
    const before = small.cases.find((each) => each.name === name);
    /** @type {(state: State) => string} */
    const grown = (state) =>
      figure(median(times[state] ?? []) / median(before?.times[state] ?? []));
    return [
      [`\`${name}\``, grown('cold'), grown('never'), grown('again'), peakMb?.toFixed(0) ?? ''],
    ];
  });
  const head = `times ${small.studio.years} years, of ${large.studio.years}`;
  return tableText([head, 'cold', 'never asked', 'again', 'MiB'], rows);
}

/**
 * A table in markdown.
 * @param {readonly string[]} heads
 * @param {readonly (readonly string[])[]} rows
 */
function tableText(heads, rows) {
  const widths = heads.map((head, at) =>
    Math.max(head.length, 3, ...rows.map((row) => row[at]?.length ?? 0)),
  );
  /** @type {(cells: readonly string[]) => string} */
  const lineText = (cells) =>
    `| ${cells.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join(' | ')} |`;
  return [
    lineText(heads),
    lineText(widths.map((width) => '-'.repeat(width))),
    ...rows.map(lineText),
  ].join('\n');
}
