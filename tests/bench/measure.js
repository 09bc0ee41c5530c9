/** Runs the benchmark's jobs turn about and notes how long each took and how much memory it held. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { URL } from 'node:url';
import { median } from './arithmetic.js';

/** @import { Job } from './jobs.js' */

/**
 * @typedef {object} Result
 * @property {Job} job
 * @property {readonly number[]} times wall time of each run in ms
 * @property {number} ms their median
 * @property {number} cpuMs median processor time, user and system, of runs that were not timed
 * @property {number} peakMb most memory held in any of those, in MiB
 */

/** @typedef {{ peakKb: number, cpuMs: number }} Note */

/** Rounds in which memory and processor time are noted; on the largest studios it is one. */
const PROBES = 3;

const PROBE = new URL('probe.js', import.meta.url).href;

/**
 * Runs a job once; a job that fails ends the benchmark.
 * @param {Job} job
 * @param {Record<string, string>} [env]
 * @returns {number} wall time in ms
 */
function runOnce({ argv, prepare, name }, env = {}) {
  prepare();
  const [program = '', ...args] = argv;
  const start = process.hrtime.bigint();
  const done = spawnSync(program, args, {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, ...env },
  });
  const ms = Number(process.hrtime.bigint() - start) / 1e6;
  if (done.error !== undefined || done.status !== 0)
    throw new Error(
      `${name} failed (${done.error?.message ?? `exit ${done.status ?? done.signal ?? '?'}`}): ${argv.join(' ')}\n${String(done.stderr)}`,
    );
  return ms;
}

/**
 * Runs a job once with the probe in it, which costs a little time: so this run is not timed.
 * @param {Job} job
 * @returns {Note}
 */
function probe(job) {
  const folder = mkdtempSync(join(tmpdir(), 'saggar-probe-'));
  const file = join(folder, 'notes');
  try {
    const options = `${process.env['NODE_OPTIONS'] ?? ''} --import=${PROBE}`.trim();
    runOnce(job, { SAGGAR_BENCH_PROBE: file, NODE_OPTIONS: options });
    return readNotes(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @type {(line: string) => Note} */
function noteOf(line) {
  /** @type {unknown} */
  const note = JSON.parse(line);
  return /** @type {Note} */ (note);
}

/** @type {(file: string) => Note} */
function readNotes(file) {
  const notes = readFileSync(file, 'utf8').trim().split('\n').map(noteOf);
  return {
    peakKb: Math.max(...notes.map(({ peakKb }) => peakKb)),
    cpuMs: notes.reduce((sum, { cpuMs }) => sum + cpuMs, 0),
  };
}

/**
 * Measures all jobs: round after round, each job once a round as long as it has runs left, so that
 * a slow moment of the machine hits all alike. More rounds measure memory and processor time.
 * @param {readonly Job[]} jobs
 * @param {(words: string) => void} say told of each round
 * @returns {Result[]}
 */
export function measure(jobs, say) {
  const times = inRounds(jobs, (job) => job.runs, { run: (job) => runOnce(job), say });
  const probes = inRounds(jobs, probesOf, {
    run: probe,
    say: (words) => {
      say(`memory and processor time, ${words}`);
    },
  });
  return jobs.map((job, index) => {
    const [own = [], notes = []] = [times[index], probes[index]];
    return {
      job,
      times: own,
      ms: median(own),
      cpuMs: median(notes.map(({ cpuMs }) => cpuMs)),
      peakMb: Math.max(...notes.map(({ peakKb }) => peakKb)) / 1024,
    };
  });
}

/** @type {(job: Job) => number} */
const probesOf = ({ runs, years = 0 }) => (years > 10 ? 1 : Math.min(runs, PROBES));

/**
 * What each job gave in each of its rounds.
 * @template T
 * @param {readonly Job[]} jobs
 * @param {(job: Job) => number} roundsOf
 * @param {{ run: (job: Job) => T, say: (words: string) => void }} how
 * @returns {T[][]}
 */
function inRounds(jobs, roundsOf, { run, say }) {
  const results = jobs.map(() => /** @type {T[]} */ ([]));
  const rounds = Math.max(...jobs.map(roundsOf));
  for (let round = 0; round < rounds; round += 1) {
    say(`round ${round + 1} of ${rounds}`);
    jobs.forEach((job, index) => {
      if (round < roundsOf(job)) results[index]?.push(run(job));
    });
  }
  return results;
}
