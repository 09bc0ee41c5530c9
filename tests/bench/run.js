/** `npm run bench`: times the program on grown studios, beside outside yardsticks. */
import { existsSync } from 'node:fs';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { MEMORY, jobsFor, restore } from './jobs.js';
import { measure } from './measure.js';
import { grownStudio } from './studios.js';
import { page, summarise } from './summary.js';

const HELP = `node tests/bench/run.js [options]
  --quick         studios of 1 and 10 years only, 5 runs
  --runs N        runs of each job (default 11; at most 3 on one of more than 10 years)
  --years LIST    studios to measure, as 1,10 (default 1,10,100)
  --alone         leave the outside yardsticks out
  --program PATH  the program to measure (default bin/saggar.js)
  --json          print the figures as JSON`;

/** @type {(words: string) => void} */
const say = (words) => void process.stderr.write(`${words}\n`);

/**
 * @typedef {object} Options
 * @property {boolean} help
 * @property {boolean} json
 * @property {boolean} alone
 * @property {number} runs
 * @property {number[]} years
 * @property {string} program
 */

/** @type {() => Options} */
function options() {
  const { values } = parseArgs({
    options: {
      help: { type: 'boolean', default: false },
      quick: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
      alone: { type: 'boolean', default: false },
      runs: { type: 'string' },
      years: { type: 'string' },
      program: { type: 'string' },
    },
  });
  const runs = Number(values.runs ?? (values.quick ? 5 : 11));
  const years = (values.years ?? (values.quick ? '1,10' : '1,10,100')).split(',').map(Number);
  const program = values.program ?? fileURLToPath(new URL('../../bin/saggar.js', import.meta.url));
  if (!Number.isInteger(runs) || runs < 1) throw new Error('--runs wants a whole number from 1 on');
  if (!years.every((count) => Number.isInteger(count) && count >= 1 && count <= 100))
    throw new Error('--years wants whole numbers from 1 to 100');
  if (!values.help && !existsSync(program)) throw new Error(`there is no program at ${program}`);
  return { help: values.help, json: values.json, alone: values.alone, runs, years, program };
}

function main() {
  const { help, json, alone, runs, years, program } = options();
  if (help) return HELP;
  process.env['SAGGAR_MEMORY'] = MEMORY;
  const studios = years.map((count) => {
    say(`studio of ${count} ${count === 1 ? 'year' : 'years'}`);
    const studio = grownStudio(count);
    restore(studio.folder);
    return studio;
  });
  try {
    const summary = summarise(measure(jobsFor({ program, runs, studios, alone }), say), studios);
    if (!json) return page(summary);
    const machine = { node: process.version, platform: process.platform, arch: process.arch };
    return JSON.stringify({ ...machine, ...summary }, null, 2);
  } finally {
    for (const { folder } of studios) restore(folder);
  }
}

try {
  process.stdout.write(`${main()}\n`);
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
