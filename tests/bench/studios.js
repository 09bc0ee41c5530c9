/** Keeps grown studios in the system's temporary folder, so that they are grown only once. */
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { URL } from 'node:url';
import { writeGrown } from './grow.js';

/** @typedef {{ files: number, records: number, bytes: number }} Size */
/** @typedef {{ folder: string, years: number } & Size} GrownStudio */

const GENERATOR = [
  './grow.js',
  './grow-definitions.js',
  './grow-definition-files.js',
  './grow-keep.js',
  './grow-make.js',
  './grow-sell.js',
  './grow-state.js',
  '../helpers/random-source.js',
  '../helpers/yaml-text.js',
];

/**
 * Changes whenever the generator's source does.
 * @returns {string}
 */
function generatorVersion() {
  const hash = createHash('sha256');
  for (const name of GENERATOR) hash.update(readFileSync(new URL(name, import.meta.url)));
  return hash.digest('hex').slice(0, 12);
}

/**
 * The studio of so many years, grown now unless this version of the generator has grown it before.
 * A studio whose growing was cut short is grown anew.
 * @param {number} years
 * @returns {GrownStudio}
 */
export function grownStudio(years) {
  const home = join(tmpdir(), `saggar-bench-${generatorVersion()}`);
  const folder = join(home, `years-${years}`);
  const marker = `${folder}.json`;
  if (!existsSync(marker)) {
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
    writeFileSync(marker, JSON.stringify(writeGrown(folder, { years })));
  }
  /** @type {unknown} */
  const size = JSON.parse(readFileSync(marker, 'utf8'));
  return { folder, years, .../** @type {Size} */ (size) };
}

/**
 * The benchmark's own copy of a grown studio, to write in: made once, and brought back to what was grown.
 * @param {GrownStudio} studio
 * @returns {string}
 */
export function workingCopy({ folder }) {
  const copy = `${folder}-work`;
  if (!existsSync(copy)) cpSync(folder, copy, { recursive: true });
  restore(copy, folder);
  return copy;
}

/**
 * Takes out of the copy whatever was written into it; files that are as they were grown stay untouched.
 * @param {string} copy
 * @param {string} folder
 */
export function restore(copy, folder) {
  const grown = new Set(filesIn(folder));
  for (const path of filesIn(copy)) if (!grown.has(path)) rmSync(join(copy, path));
  for (const path of grown) {
    const [text, there] = [readFileSync(join(folder, path)), join(copy, path)];
    if (!existsSync(there) || !readFileSync(there).equals(text)) writeFileSync(there, text);
  }
}

/** @type {(folder: string) => string[]} */
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)));
}
