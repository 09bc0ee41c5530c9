/** Grows a studio of any number of years from a seed: always the same files for the same seed. */
import { Buffer } from 'node:buffer';
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { definitionFiles } from './grow-definition-files.js';
import { RECIPES } from './grow-definitions.js';
import { countMaterials, countPieces, leach, spend, test, useUp } from './grow-keep.js';
import { buy, fire, makeLot, mix, reclaim } from './grow-make.js';
import {
  consign,
  openFair,
  putOnShelf,
  reportGallery,
  sell,
  sellOther,
  takeBack,
  writeRest,
} from './grow-sell.js';
import { dayOf, newGrowth } from './grow-state.js';
import { oneLineYaml, yamlText } from '../helpers/yaml-text.js';

/** @import { Growth } from './grow-state.js' */
/** @import { TreeMap } from '../helpers/yaml-tree.ts' */

/** @typedef {{ readonly path: string, readonly text: string, readonly records: number }} GrownFile */

/** The last day of every grown studio, and so the day to ask for reports of. */
export const AS_OF = '2025-12-31';

const LAST_YEAR = 2025;
const ONE_FILE_EACH = new Set(['pieces', 'mixed', 'firings']);

/** @type {(date: string) => number} */
const numberOf = (date) => Date.parse(date) / 86_400_000;

/**
 * The files of a studio that runs for whole years up to the end of 2025; definitions come first
 * and do not grow with the years.
 * @param {{ years: number, seed?: number }} plan from 1 to 100 years
 * @returns {Generator<GrownFile, void>}
 */
export function* grow({ years, seed = 1 }) {
  const first = numberOf(`${LAST_YEAR - years + 1}-01-01`);
  const last = numberOf(AS_OF);
  const shelf = fileShelf();
  yield* definitionFiles();
  const growth = newGrowth(seed, { first: dayOf(first), last, write: shelf.write });
  for (let number = first; number <= last; number += 1) {
    growth.day = dayOf(number);
    live(growth, number - first);
    if (growth.day.monthEnds) yield* shelf.take(growth.day.date.slice(0, 7));
  }
  writeRest(growth);
  yield* shelf.take(AS_OF.slice(0, 7));
}

/**
 * Gathers the records of a month into its files.
 */
function fileShelf() {
  /** @type {GrownFile[]} */
  let done = [];
  /** @type {Map<string, { text: string, records: number }>} */
  let month = new Map();
  /** @type {Growth['write']} */
  const write = (kind, id, record) => {
    const text = recordText(kind, id, record);
    if (ONE_FILE_EACH.has(kind))
      return void done.push({ path: `${kind}/${id}.yaml`, text, records: 1 });
    const file = month.get(kind);
    if (file === undefined) return void month.set(kind, { text, records: 1 });
    file.text += text;
    file.records += 1;
  };
  /** @type {(name: string) => GrownFile[]} */
  const take = (name) => {
    const monthly = [...month].map(([kind, file]) => ({ path: `${kind}/${name}.yaml`, ...file }));
    const files = [...done, ...monthly];
    done = [];
    month = new Map();
    return files;
  };
  return { write, take };
}

/**
 * Every seventh sale has its lines on one line, as people write them.
 * @type {(kind: string, id: string, record: TreeMap) => string}
 */
function recordText(kind, id, record) {
  const text = yamlText({ [id]: record });
  if (kind !== 'sales' || id.charCodeAt(7) % 7 !== 0 || record['lines'] === undefined) return text;
  const { lines, ...rest } = record;
  return `${yamlText({ [id]: rest })}  lines: ${oneLineYaml(lines)}\n`;
}

/** @type {(growth: Growth, age: number) => void} */
function live(growth, age) {
  const { random } = growth;
  buy(growth);
  if (random.chance(0.066)) reclaim(growth);
  mix(growth);
  if (random.chance(0.27)) makeLot(growth);
  fire(growth);
  if (random.chance(0.68)) useUp(growth);
  if (random.chance(0.1)) consign(growth);
  trade(growth, age);
  putOnShelf(growth);
  keep(growth, age);
}

/** @type {(growth: Growth, age: number) => void} */
function trade(growth, age) {
  const { random, day } = growth;
  const fair = day.weekday === 6 && random.chance(0.9);
  const market = fair ? openFair(growth) : undefined;
  const buyers = fair ? random.int(20, 38) : random.int(2, 10);
  for (let buyer = 0; buyer < buyers; buyer += 1) {
    if (random.chance(0.1)) sellOther(growth);
    else sell(growth, random.chance(0.9) ? market : undefined);
  }
  if (day.weekday === 5) reportGallery(growth);
  if (age > 150 && random.chance(0.03)) takeBack(growth);
}

/** @type {(growth: Growth, age: number) => void} */
function keep(growth, age) {
  const { random, day } = growth;
  if (random.chance(0.55)) spend(growth);
  if (random.chance(0.11)) test(growth);
  if (age === 90) for (const { id } of RECIPES) leach(growth, id);
  if (day.monthEnds) countMaterials(growth);
  if (day.monthEnds && /-(?:03|06|09|12)-/.test(day.date)) countPieces(growth);
}

/**
 * Writes a grown studio into a folder.
 * @param {string} folder
 * @param {{ years: number, seed?: number }} plan
 * @returns {{ files: number, records: number, bytes: number }} how much there is
 */
export function writeGrown(folder, plan) {
  const size = { files: 0, records: 0, bytes: 0 };
  /** @type {Set<string>} */
  const folders = new Set();
  for (const { path, text, records } of grow(plan)) {
    const target = join(folder, path);
    const parent = dirname(target);
    if (!folders.has(parent)) mkdirSync(parent, { recursive: true });
    folders.add(parent);
    writeFileSync(target, text);
    size.files += 1;
    size.records += records;
    size.bytes += Buffer.byteLength(text);
  }
  return size;
}
