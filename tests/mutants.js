/**
 * Changes small things in the sources, one at a time, and tells which changes no test notices:
 * `npm run mutants`, a night's work, or `npm run mutants -- --sample 100` for that many lines of code,
 * chosen by a seed. Each folder is held against the tests of the same name, and so takes minutes; what
 * only tests elsewhere notice is told as unnoticed. `--only read,write` takes some folders.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { randomSource } from './helpers/random-source.js';

/** @import { LogLevel } from '@stryker-mutator/api/core' */

const ROOT = resolve(import.meta.dirname, '..');
const FOLDERS = ['reckon', 'check', 'entry', 'write', 'read', 'memory'];
/** The least share that has to be noticed. */
const ENOUGH = 0.85;

const { values: asked } = parseArgs({
  options: {
    sample: { type: 'string' },
    seed: { type: 'string', default: '20260308' },
    only: { type: 'string', default: FOLDERS.join(',') },
  },
});

const folders = asked.only.split(',');

/** A line of code that something in it can be changed of: `src/reckon/stock/pool.ts:12-12`. */
const LINES = folders.flatMap((folder) =>
  readdirSync(join(ROOT, 'src', folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .flatMap((name) => linesOf(`src/${folder}/${name}`)),
);

/** @param {string} file */
function linesOf(file) {
  return readFileSync(join(ROOT, file), 'utf8')
    .split('\n')
    .flatMap((line, at) =>
      /[<>=!&|?+*/'"]|\breturn\b/.test(line) &&
      !/^\s*(?:\/?\*|\/\/|import |export (?:type|interface)|\} from)/.test(line)
        ? [`${file}:${at + 1}-${at + 1}`]
        : [],
    );
}

/** @returns {readonly string[]} */
function chosen() {
  if (asked.sample === undefined) return folders.map((folder) => `src/${folder}/**/*.ts`);
  const random = randomSource(Number(asked.seed), 'mutants');
  const left = [...LINES];
  return Array.from({ length: Math.min(Number(asked.sample), left.length) }, () =>
    left.splice(random.int(0, left.length - 1), 1).join(),
  );
}

/**
 * @param {string} folder
 * @param {readonly string[]} mutate
 */
function changesIn(folder, mutate) {
  return new Stryker({
    mutate: [...mutate],
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/vitest.config.js', dir: `tests/${folder}`, related: false },
    coverageAnalysis: 'perTest',
    concurrency: 2,
    // A change that makes a loop endless is noticed so; a busy machine must not look like one.
    timeoutMS: 120_000,
    tempDirName: 'dist/mutants',
    ignorePatterns: ['/dist', '/coverage', '/tests/old-studios', '/tests/bench'],
    reporters: [],
    logLevel: /** @type {LogLevel} */ (/** @type {unknown} */ ('error')),
    allowConsoleColors: false,
  }).runMutationTest();
}

const all = chosen();
const found = [];
for (const folder of folders) {
  const mutate = all.filter((each) => each.startsWith(`src/${folder}/`));
  if (mutate.length > 0) found.push(...(await changesIn(folder, mutate)));
}
const counted = found.filter(
  ({ status }) => !['Ignored', 'CompileError', 'RuntimeError'].includes(status),
);
const unnoticed = counted.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
for (const { fileName, location, replacement, status } of unnoticed) {
  const place = `${fileName.slice(ROOT.length + 1)}:${location.start.line + 1}:${location.start.column + 1}`;
  process.stdout.write(
    `${place} ${status === 'NoCoverage' ? 'not run' : 'not noticed'}: ${replacement.replaceAll(/\s+/g, ' ')}\n`,
  );
}
const share = (counted.length - unnoticed.length) / Math.max(1, counted.length);
process.stdout.write(
  `${counted.length - unnoticed.length} of ${counted.length} changes were noticed (${(share * 100).toFixed(1)} %), seed ${asked.seed}\n`,
);
if (share < ENOUGH) process.exitCode = 1;
