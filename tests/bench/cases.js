/** Every question of the benchmark in every state that the program's memory and the studio can be in. */
import { appendFileSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { BASE, branchOf } from './branch.js';
import { AS_OF } from './grow.js';
import { SCRATCH, bring, floorTimes, forgetAll, keep, letSettle, peakOf, run } from './measure.js';
import { OTHERS, reportRows } from './rows.js';
import { restore, workingCopy } from './studios.js';
import { deeds } from './writing.js';

/** @import { GrownStudio } from './studios.js' */
/** @import { Ids, Row } from './rows.js' */

/**
 * - never: facts of the files are known, this question was never asked
 * - again: right after that
 * - end, back: after a record of the last month, or of eleven months back, changed
 * - still, all: after a definition changed in what moves nothing, or in what moves all
 * - cold: nothing is known
 * - today, year: a record of today, or of eleven months back, is written
 * @typedef {'never' | 'again' | 'end' | 'back' | 'still' | 'all' | 'cold' | 'today' | 'year'} State
 */

/**
 * @typedef {object} Case
 * @property {string} name
 * @property {string} command
 * @property {Partial<Record<State, number[]>>} times in ms, of its runs in each state
 * @property {number} [peakMb]
 */

/**
 * @typedef {object} Plan
 * @property {string} program
 * @property {number} runs
 * @property {boolean} isQuick
 * @property {(command: string) => boolean} isAsked
 * @property {number} settleMs how long files are left alone before they are learnt
 * @property {(words: string) => void} say
 */

/**
 * What is measured on, and what was measured so far.
 * @typedef {object} Bench
 * @property {Plan} plan
 * @property {GrownStudio} studio
 * @property {string} work the copy that is written in
 * @property {string} branch the copy in git
 * @property {ReturnType<typeof floorTimes>} floor
 * @property {Map<string, Case>} cases
 */

/** @type {(path: string, change: (text: string) => string) => (work: string) => void} */
const rewriting = (path, change) => (work) => {
  const text = readFileSync(join(work, path), 'utf8');
  if (change(text) === text) throw new Error(`nothing to change in ${path}`);
  writeFileSync(join(work, path), change(text));
};

const SALE = `s-later:\n  date: ${AS_OF}\n  channel: studio-door\n  lines:\n    - { product: mug, count: 1, price: 32 }\n`;

/**
 * Each change of the files, and whether a quick run asks every question after it.
 * @type {readonly { state: State, isForAll: boolean, change: (work: string) => void }[]}
 */
const CHANGES = [
  {
    state: 'end',
    isForAll: true,
    change: (work) => {
      appendFileSync(join(work, `sales/${AS_OF.slice(0, 7)}.yaml`), SALE);
    },
  },
  {
    state: 'back',
    isForAll: false,
    change: rewriting('bought/2025-01.yaml', (text) => text.replace(/quantity: /, 'quantity: 1')),
  },
  {
    state: 'still',
    isForAll: false,
    change: rewriting('products.yaml', (text) => text.replace('price: ', 'price: 1')),
  },
  {
    state: 'all',
    isForAll: false,
    change: rewriting('products.yaml', (text) => text.replace('space: ', 'space: 1')),
  },
];

/**
 * Measures everything on one studio; of others than the first only how plain reports grow with the years.
 * @param {GrownStudio} studio
 * @param {Plan} plan
 * @param {boolean} isFirst
 * @returns {{ studio: GrownStudio, floorMs: number, cases: readonly Case[] }}
 */
export function casesOf(studio, plan, isFirst) {
  const work = workingCopy(studio);
  const branch = branchOf(studio.folder);
  const bench = { plan, studio, work, branch, floor: floorTimes(), cases: new Map() };
  const rows = reportRows(idsIn(studio.folder)).filter(({ name }) => plan.isAsked(name));
  try {
    learn(bench);
    askReports(bench, isFirst ? rows : rows.filter(({ isPlain }) => isPlain));
    if (isFirst) {
      askOthers(bench);
      askAfterChanges(bench, rows);
      write(bench);
    }
  } finally {
    restore(work, studio.folder);
  }
  return { studio, floorMs: bench.floor.ms(), cases: [...bench.cases.values()] };
}

/**
 * The last firing and the last fair of a studio.
 * @param {string} folder
 * @returns {Ids}
 */
export function idsIn(folder) {
  /** @type {(kind: string) => string} */
  const last = (kind) => {
    const name = readdirSync(join(folder, kind)).sort().at(-1) ?? '';
    return (
      readFileSync(join(folder, kind, name), 'utf8')
        .match(/^\S+(?=:)/gm)
        ?.at(-1) ?? ''
    );
  };
  return { firing: last('firings'), fair: last('fairs') };
}

/** @type {(bench: Bench, words: readonly string[]) => string[]} */
function argvOf({ plan, work, branch }, words) {
  const isInGit = words.includes('--at') || words[0] === 'review';
  const where = ['--studio', isInGit ? branch : work];
  const day = words.includes('--as-of') ? [] : ['--as-of', AS_OF];
  const more = WITHOUT_A_STUDIO.includes(words[0] ?? '') ? [] : [...where, ...day];
  const named = words.map((word) => word.replace(/^OUT/, join(SCRATCH, 'out')));
  return [process.execPath, plan.program, ...named, ...(words[0] === 'forget' ? where : more)];
}

const WITHOUT_A_STUDIO = ['init', 'completion', 'complete-words', 'man', 'forget'];

/**
 * Measures a line in some state.
 * @param {Bench} bench
 * @param {{ name: string, words: readonly string[], input?: string }} line
 * @param {Partial<Record<State, () => void>>} states in their order, each with what is done before it
 */
function ask(bench, { name, words, input }, states) {
  const { plan, floor, cases } = bench;
  const found = cases.get(name) ?? { name, command: words[0] ?? '', times: {} };
  cases.set(name, found);
  const line = { argv: argvOf(bench, words), ...(input === undefined ? {} : { input }) };
  for (let turn = 0; turn < plan.runs; turn += 1)
    for (const [state, prepare] of /** @type {[State, () => void][]} */ (Object.entries(states))) {
      prepare();
      floor.beside();
      clearOut();
      (found.times[state] ??= []).push(run(line));
    }
  return { found, line };
}

function clearOut() {
  for (const name of ['out', 'out.zip'])
    rmSync(join(SCRATCH, name), { recursive: true, force: true });
}

const asIs = () => {
  /* Whatever is remembered stays. */
};

/** @type {(bench: Bench) => void} */
function learn(bench) {
  forgetAll();
  relearn(bench);
}

/** Lets the program learn the files as they are now; what it knows then is kept for every question. */
/** @type {(bench: Bench) => void} */
function relearn(bench) {
  letSettle(bench.plan.settleMs);
  for (const words of [['check'], ['materials'], ['check', '--at', BASE], ['review', BASE]])
    run({ argv: argvOf(bench, words) });
  keep();
}

/** @type {(row: Row) => { name: string, words: readonly string[] }} */
const lineOf = ({ words }) => ({ name: words.join(' '), words });

/** @type {(bench: Bench, rows: readonly Row[]) => void} */
function askReports(bench, rows) {
  const { isQuick, say } = bench.plan;
  for (const row of rows) {
    say(`asked, and asked again: ${row.words.join(' ')}`);
    const { found, line } = ask(bench, lineOf(row), { never: bring, again: asIs });
    if (row.isPlain && !isQuick) found.peakMb = peakOf(line);
  }
  for (const row of rows.filter(({ isPlain }) => isPlain || !isQuick)) {
    say(`cold: ${row.words.join(' ')}`);
    const { found, line } = ask(bench, lineOf(row), { cold: forgetAll });
    if (!row.isPlain || isQuick) continue;
    forgetAll();
    found.peakMb = Math.max(found.peakMb ?? 0, peakOf(line));
  }
}

const ALSO_COLD = ['export', 'review'];

/** @type {(bench: Bench) => void} */
function askOthers(bench) {
  const { isQuick, isAsked, say } = bench.plan;
  const lines = Object.entries(OTHERS).flatMap(([command, all]) =>
    all.map((more, at) => ({ command, words: [command, ...more], isFirst: at === 0 })),
  );
  for (const { command, words, isFirst } of lines.filter((line) => isAsked(line.command))) {
    const name = words.join(' ');
    say(name);
    const isAlsoCold = ALSO_COLD.includes(command) && (isFirst || !isQuick);
    const states = { never: bring, ...(isAlsoCold ? { cold: forgetAll } : {}) };
    const { found, line } = ask(bench, { name, words }, states);
    if (command === 'export' && !isQuick) found.peakMb = peakOf(line);
  }
}

/** @type {(bench: Bench, rows: readonly Row[]) => void} */
function askAfterChanges(bench, rows) {
  const { plan, work, studio } = bench;
  const inWork = rows.filter(({ words }) => !words.includes('--at'));
  for (const { state, isForAll, change } of CHANGES) {
    restore(work, studio.folder);
    bring();
    relearn(bench);
    change(work);
    for (const row of inWork.filter(({ isPlain }) => isPlain || isForAll || !plan.isQuick)) {
      plan.say(`${state}: ${row.words.join(' ')}`);
      ask(bench, lineOf(row), { [state]: bring });
    }
  }
}

/** Each deed once: a record is written but once. */
/** @type {(bench: Bench) => void} */
function write(bench) {
  const { plan, work, studio } = bench;
  const once = { ...bench, plan: { ...plan, runs: 1 } };
  for (let turn = 0; turn < plan.runs; turn += 1) {
    restore(work, studio.folder);
    bring();
    relearn(bench);
    for (const { when, ...deed } of deeds().filter(({ words }) => plan.isAsked(words[0] ?? ''))) {
      plan.say(`${when}: ${deed.name}`);
      ask(once, deed, { [when]: asIs });
    }
  }
}
