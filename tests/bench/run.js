/** `npm run bench`: times every command on a grown studio, in every state of what is remembered. */
import { existsSync } from 'node:fs';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { casesOf } from './cases.js';
import { begin, breakIn, end, loaderMs } from './measure.js';
import { questionTimes } from './questions.js';
import { grownStudio, workingCopy } from './studios.js';
import { linesOf, page } from './summary.js';

const HELP = `node tests/bench/run.js [options]
  --quick         one run of each case; cold, 11 months back and definitions only of plain commands
  --runs N        runs of each case (default 3)
  --years LIST    studios to measure, as 10,100 (default 10); of all but the first only how reports grow
  --only LIST     the commands to measure, as materials,add (default all)
  --settle MS     how long files are left alone before they are learnt (default 3200)
  --alone         leave CSafeLoader and the questions out
  --program PATH  the program to measure (default bin/saggar.js)
  --json          print the figures as JSON`;

/** @type {(words: string) => void} */
const say = (words) => void process.stderr.write(`${words}\n`);

function options() {
  const { values } = parseArgs({
    options: {
      help: { type: 'boolean', default: false },
      quick: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
      alone: { type: 'boolean', default: false },
      runs: { type: 'string' },
      years: { type: 'string', default: '10' },
      only: { type: 'string' },
      settle: { type: 'string', default: '3200' },
      program: { type: 'string' },
    },
  });
  const { quick: isQuick, alone, json, help } = values;
  const runs = Number(values.runs ?? (isQuick ? 1 : 3));
  const years = values.years.split(',').map(Number);
  const program = values.program ?? fileURLToPath(new URL('../../bin/saggar.js', import.meta.url));
  if (!Number.isInteger(runs) || runs < 1) throw new Error('--runs wants a whole number from 1 on');
  if (!years.every((count) => Number.isInteger(count) && count >= 2 && count <= 100))
    throw new Error('--years wants whole numbers from 2 to 100');
  if (!help && !existsSync(program)) throw new Error(`there is no program at ${program}`);
  const only = values.only?.split(',');
  const isAsked = (/** @type {string} */ name) => only?.includes(name) ?? true;
  const plan = { program, runs, isQuick, isAsked, settleMs: Number(values.settle), say };
  return { help, json, alone, years, plan };
}

/** @type {() => string} */
function main() {
  const { help, json, alone, years, plan } = options();
  if (help) return HELP;
  begin();
  try {
    breakIn(plan.program);
    const studios = years.map((count) => grownStudio(count));
    const [first] = studios;
    const measured = studios.map((studio) => casesOf(studio, plan, studio === first));
    const loader = first && !alone ? loaderMs(first.folder, plan.runs) : undefined;
    const asked =
      first && !alone && plan.isAsked('add')
        ? questionTimes({ ...plan, work: workingCopy(first) })
        : [];
    const machine = `${process.platform} ${process.arch}, Node ${process.version}`;
    const all = { measured, loaderMs: loader, questions: asked, machine };
    if (!json) return page(all);
    const figures = measured.map((each) => ({
      ...each.studio,
      folder: undefined,
      floorMs: each.floorMs,
      lines: linesOf(each, loader),
    }));
    return JSON.stringify(
      { machine, loaderMs: loader, studios: figures, questions: asked },
      null,
      2,
    );
  } finally {
    end();
  }
}

try {
  process.stdout.write(`${main()}\n`);
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
