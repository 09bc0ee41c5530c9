/** Runs command lines as a person would, with a memory of the benchmark's own, and notes how long each took. */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { median } from './arithmetic.js';

/** What the benchmark keeps beside its studios; nothing of it is a person's. */
export const SCRATCH = join(tmpdir(), 'saggar-bench-scratch');
const MEMORY = join(SCRATCH, 'memory');
const KNOWN = join(SCRATCH, 'known');
const NOTES = join(SCRATCH, 'notes');

/** @type {Record<string, string | undefined>} */
export const ENVIRONMENT = {
  ...process.env,
  SAGGAR_MEMORY: MEMORY,
  XDG_STATE_HOME: join(SCRATCH, 'state'),
};

/** Begins with nothing remembered and nothing measured. */
export function begin() {
  end();
  mkdirSync(SCRATCH, { recursive: true });
}

const EXAMPLE = fileURLToPath(new URL('../../example-studio', import.meta.url));

/** What a program that is in use has done before: it keeps what was compiled in its first runs. */
const FIRST_RUNS = [
  ...['check', 'day', 'materials', 'firings', 'losses', 'income', 'pieces', 'costs', 'quarter'],
  ...['galleries', 'fairs', 'amend mug price=41 --dry-run'],
  'add spent --to A --for tools --amount 1 --dry-run',
];

/**
 * Runs each as often as that.
 * @param {string} program
 */
export function breakIn(program) {
  const studio = join(SCRATCH, 'example');
  cpSync(EXAMPLE, studio, { recursive: true });
  const where = ['--studio', studio, '--as-of', '2026-06-30'];
  for (const words of FIRST_RUNS.flatMap((each) => [each, each, each]))
    run({ argv: [process.execPath, program, ...words.split(' '), ...where] });
}

/** Leaves nothing but the grown studios. */
export function end() {
  rmSync(SCRATCH, { recursive: true, force: true });
}

/** Lets the program forget everything. */
export function forgetAll() {
  rmSync(MEMORY, { recursive: true, force: true });
}

/** Keeps what the program remembers now, for `bring`. */
export function keep() {
  rmSync(KNOWN, { recursive: true, force: true });
  mkdirSync(MEMORY, { recursive: true });
  cpSync(MEMORY, KNOWN, { recursive: true, preserveTimestamps: true });
}

/** Lets the program remember what it did at `keep`, and nothing since. */
export function bring() {
  if (stampsIn(MEMORY) === stampsIn(KNOWN)) return;
  forgetAll();
  cpSync(KNOWN, MEMORY, { recursive: true, preserveTimestamps: true });
}

/** @type {(folder: string) => string} */
function stampsIn(folder) {
  if (!existsSync(folder)) return '';
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const stamps = entries.map((entry) => {
    const path = join(entry.parentPath, entry.name);
    const { size, mtimeMs } = statSync(path);
    return entry.isFile() ? `${relative(folder, path)} ${size} ${mtimeMs}` : '';
  });
  return stamps.sort().join('\n');
}

/**
 * A file's stamp is believed once the file has been left alone for three seconds.
 * @param {number} ms
 */
export function letSettle(ms) {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, ms);
}

/**
 * @typedef {object} Line
 * @property {readonly string[]} argv program and arguments
 * @property {string} [input]
 */

/**
 * Runs a line once; one that fails ends the benchmark.
 * @param {Line} line
 * @param {Readonly<Record<string, string>>} [more] variables
 * @returns {number} wall time in ms
 */
export function run({ argv, input = '' }, more = {}) {
  const [program = '', ...args] = argv;
  const env = { ...ENVIRONMENT, ...more };
  const start = process.hrtime.bigint();
  const done = spawnSync(program, args, { input, stdio: ['pipe', 'ignore', 'pipe'], env });
  const ms = Number(process.hrtime.bigint() - start) / 1e6;
  if (done.error !== undefined || done.status !== 0)
    throw new Error(
      `failed (${done.error?.message ?? `exit ${done.status ?? done.signal ?? '?'}`}): ${argv.join(' ')}\n${String(done.stderr)}`,
    );
  return ms;
}

const PROBE = new URL('probe.js', import.meta.url).href;

/**
 * The most memory that a line holds, in MiB; a run with the probe in it is not timed.
 * @param {Line} line
 * @returns {number}
 */
export function peakOf(line) {
  rmSync(NOTES, { force: true });
  const options = `${process.env['NODE_OPTIONS'] ?? ''} --import=${PROBE}`.trim();
  run(line, { SAGGAR_BENCH_PROBE: NOTES, NODE_OPTIONS: options });
  return Math.max(...readFileSync(NOTES, 'utf8').trim().split('\n').map(Number)) / 1024;
}

const FLOOR = [process.execPath, '-e', '0'];

/** Times of `node -e 0` between the others, so that a slow moment of the machine is seen in it too. */
export function floorTimes() {
  /** @type {number[]} */
  const times = [];
  let asked = 0;
  return {
    beside: () => {
      if (asked++ % 4 === 0) times.push(run({ argv: FLOOR }));
    },
    ms: () => median(times),
  };
}

/** @type {(name: string) => string} */
const sibling = (name) => fileURLToPath(new URL(name, import.meta.url));

/**
 * How long CSafeLoader takes for the files of a studio; undefined where it is not there.
 * @param {string} folder
 * @param {number} runs
 * @returns {number | undefined}
 */
export function loaderMs(folder, runs) {
  if (spawnSync('python3', ['-c', 'import yaml; yaml.CSafeLoader']).status !== 0) return undefined;
  const argv = ['python3', sibling('yardstick_pyyaml.py'), folder];
  return median(Array.from({ length: runs }, () => run({ argv })));
}
