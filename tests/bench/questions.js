/** How long the questions of `add` keep a person waiting: from Enter to the next question, at a pseudo-terminal. */
import { spawnSync } from 'node:child_process';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { AS_OF } from './grow.js';
import { EVENT_KINDS } from './catalogue.js';
import { GALLERIES } from './grow-definitions.js';
import { ENVIRONMENT, letSettle, run } from './measure.js';

/** @import { Kind } from '../../src/book.ts' */

/**
 * What the questions of one kind took; `end` is the last thing asked.
 * @typedef {object} Questions
 * @property {string} kind
 * @property {{ prompt: string, ms: number }} slowest
 * @property {number} asked
 * @property {string} end
 */

/**
 * What is answered where a bare Enter is no answer, by the question; a list is answered item by item, and
 * what begins with a kind is of that kind alone.
 * @type {Readonly<Record<string, readonly string[]>>}
 */
const ANSWERS = {
  Amount: ['12'],
  Channel: ['studio-door'],
  Count: ['1'],
  For: ['studio'],
  Kiln: ['front-loader'],
  Kind: ['bisque'],
  Lines: ['1 mug at 32'],
  Load: ['3 for a neighbour'],
  Made: ['12'],
  Material: ['feldspar'],
  Materials: ['20 kg quartz'],
  Name: ['Winter fair'],
  Period: ['2024'],
  Product: ['mug'],
  Quantity: ['1 kg'],
  Sheet: ['plain'],
  To: ['Paper Corner'],
  'advances For': ['deposit'],
  'bought Lines': ['25 kg feldspar for 55'],
  'consigned Channel': GALLERIES.slice(0, 1),
  'consigned Sent': ['1 mug'],
  'fairs Channel': ['market'],
  'filed Lines': ['12 1'],
  'spent For': ['office'],
  'tests Kind': ['tile'],
};

/**
 * Answers the questions of every kind of event up to the last one, and gives up there.
 * @param {{ program: string, work: string, settleMs: number }} where
 * @returns {Questions[]} none without Python
 */
export function questionTimes({ program, work, settleMs }) {
  if (spawnSync('python3', ['-c', 'import pty, termios']).status !== 0) return [];
  letSettle(settleMs);
  run({ argv: [process.execPath, program, 'check', '--studio', work, '--as-of', AS_OF] });
  return EVENT_KINDS.map((kind) => timesOf(kind, { program, work }));
}

/** @type {(kind: Kind, where: { program: string, work: string }) => Questions} */
function timesOf(kind, { program, work }) {
  const words = ['add', kind, '--studio', work, '--as-of', AS_OF];
  const order = { command: [process.execPath, program, ...words], answers: ANSWERS, kind };
  const driver = fileURLToPath(new URL('questions.py', import.meta.url));
  const input = JSON.stringify(order);
  const done = spawnSync('python3', [driver], { input, env: ENVIRONMENT, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(`questions of add ${kind} failed\n${done.stderr}`);
  /** @type {unknown} */
  const told = JSON.parse(done.stdout);
  const { times, end } = /** @type {{ times: { prompt: string, ms: number }[], end: string }} */ (
    told
  );
  const nothing = { prompt: '', ms: 0 };
  const slowest = times.reduce((most, each) => (each.ms > most.ms ? each : most), nothing);
  return { kind, slowest, asked: times.length, end };
}
