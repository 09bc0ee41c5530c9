/** What the benchmark runs: the program's commands on each studio, and the yardsticks beside them. */
import { spawnSync } from 'node:child_process';
import { appendFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { BASE, branchOf } from './branch.js';
import { AS_OF } from './grow.js';

/** @import { GrownStudio } from './studios.js' */

/**
 * - cold: the program's cache is removed before each run
 * - warm: right after a run of the same command
 * - touched: the same after one file of sales was changed
 * @typedef {'cold' | 'warm' | 'touched'} Kind
 */

/**
 * @typedef {object} Job
 * @property {string} name
 * @property {number | undefined} years
 * @property {Kind | undefined} kind
 * @property {readonly string[]} argv program and arguments
 * @property {number} runs measured runs
 * @property {() => void} prepare done before each run, not measured
 */

/** A word that tells the sales that the benchmark puts down. */
const NOTE = 'put down by the benchmark';

const SALE = [...'add sales --channel studio-door --line'.split(' '), '1 mug at 30'];

/**
 * The commands that are measured. A new command is one more line; its kinds stand in the order in
 * which they follow each other, so that a warm run comes after a cold one.
 * @type {readonly { name: string, args: readonly string[], kinds: readonly Kind[] }[]}
 */
export const COMMANDS = [
  { name: 'check', args: ['check'], kinds: ['cold', 'warm'] },
  { name: 'materials', args: ['materials'], kinds: ['cold', 'warm', 'touched'] },
  { name: 'day', args: ['day'], kinds: ['cold', 'warm'] },
  { name: 'add --dry-run', args: [...SALE, '--dry-run'], kinds: ['cold', 'warm'] },
  { name: 'add', args: [...SALE, '--note', NOTE], kinds: ['warm'] },
];

/** What is reviewed: a branch that changes twenty files, on a studio of so many years. */
export const REVIEW = { name: 'review', years: 10 };

export const FLOOR = 'node -e 0';
export const LOADER = 'PyYAML CSafeLoader';
export const PARSER = 'yaml package parse';

/** The largest studio that the slow yardsticks read, in years. */
const YARDSTICK_YEARS = 10;

const nothing = () => {
  /* The run needs no preparation. */
};

/** @type {(name: string) => string} */
const sibling = (name) => fileURLToPath(new URL(name, import.meta.url));

/**
 * All jobs in the order of one round.
 * @param {{ program: string, runs: number, studios: readonly GrownStudio[], alone: boolean }} plan `alone` leaves the yardsticks out
 * @returns {Job[]}
 */
export function jobsFor({ program, runs, studios, alone }) {
  const floor = {
    name: FLOOR,
    years: undefined,
    kind: undefined,
    argv: [process.execPath, '-e', '0'],
    runs,
    prepare: nothing,
  };
  const loads = !alone && hasLoader();
  return [
    floor,
    ...studios.flatMap((studio) => [
      ...commandJobs(studio, { program, runs }),
      ...(studio.years === REVIEW.years ? reviewJobs(studio, { program, runs }) : []),
      ...(!alone && studio.years <= YARDSTICK_YEARS ? yardsticks(studio, { runs, loads }) : []),
    ]),
  ];
}

/** @type {(studio: GrownStudio, plan: { program: string, runs: number }) => Job[]} */
function commandJobs(studio, { program, runs }) {
  const { folder, years } = studio;
  return COMMANDS.flatMap(({ name, args, kinds }) =>
    kinds.map((kind) => ({
      name,
      years,
      kind,
      argv: [process.execPath, program, ...args, '--studio', folder, '--as-of', AS_OF],
      runs: years > YARDSTICK_YEARS ? Math.min(runs, 3) : runs,
      prepare: preparation(folder, kind),
    })),
  );
}

/**
 * A review of the branch when nothing is known, again, and when only its base is known.
 * @type {(studio: GrownStudio, plan: { program: string, runs: number }) => Job[]}
 */
function reviewJobs({ folder, years }, { program, runs }) {
  const branch = branchOf(folder);
  const words = ['review', BASE, '--studio', branch, '--as-of', AS_OF];
  return /** @type {const} */ (['cold', 'warm', 'touched']).map((kind) => ({
    name: REVIEW.name,
    years,
    kind,
    argv: [process.execPath, program, ...words],
    runs,
    prepare:
      kind === 'cold'
        ? () => {
            restore(branch);
          }
        : preparation(branch, kind),
  }));
}

/** @type {(studio: GrownStudio, plan: { runs: number, loads: boolean }) => Job[]} */
function yardsticks({ folder, years }, { runs, loads }) {
  const common = { years, kind: undefined, prepare: nothing };
  const parser = {
    ...common,
    name: PARSER,
    argv: [process.execPath, sibling('yardstick-yaml.js'), folder],
    runs: Math.min(runs, 3),
  };
  const loader = {
    ...common,
    name: LOADER,
    argv: ['python3', sibling('yardstick_pyyaml.py'), folder],
    runs: Math.min(runs, 7),
  };
  return loads ? [parser, loader] : [parser];
}

/** @type {() => boolean} */
function hasLoader() {
  return spawnSync('python3', ['-c', 'import yaml; yaml.CSafeLoader']).status === 0;
}

/** @type {(folder: string, kind: Kind) => () => void} */
function preparation(folder, kind) {
  if (kind === 'cold') return dropCache;
  return kind === 'touched'
    ? () => {
        touch(folder);
      }
    : nothing;
}

/** Where the program remembers what it is measured on. */
export const MEMORY = join(tmpdir(), 'saggar-bench-memory');

/** Lets the program forget all; each studio is measured from a cold run on. */
export function dropCache() {
  rmSync(MEMORY, { recursive: true, force: true });
}

/** The file that sales of the last day go to, and one that is done with. */
const ADDED_TO = `sales/${AS_OF.slice(0, 7)}.yaml`;
const TOUCHED = ADDED_TO.replace('-12', '-11');
const MARK = '# counted again\n';

/** @type {(folder: string) => void} */
function touch(folder) {
  appendFileSync(join(folder, TOUCHED), MARK);
}

const RECORD = /^\S+:\n(?:[ ].*\n)*/gm;

/**
 * Takes out what the runs put in, and the cache.
 * @param {string} folder
 */
export function restore(folder) {
  rewrite(join(folder, TOUCHED), (text) => text.replaceAll(MARK, ''));
  rewrite(join(folder, ADDED_TO), (text) =>
    text.replace(RECORD, (record) => (record.includes(NOTE) ? '' : record)),
  );
  dropCache();
}

/** @type {(file: string, change: (text: string) => string) => void} */
function rewrite(file, change) {
  const text = readFileSync(file, 'utf8');
  if (change(text) !== text) writeFileSync(file, change(text));
}
