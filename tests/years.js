/**
 * `npm run years`: fails where a tax sheet of a year is missing, or not verified. A year wants one from its
 * first day on, the next one from September on; `npm run years -- --on 2027-09-01` asks of another day.
 */
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { taxSheets } from '../schema/build/tax-sheets.js';

/** @import { Raw, RawMap } from '../src/read/raw.ts' */

const OF_YEAR = /^(?<family>.+)-(?<year>\d{4})$/;
const AUTUMN = '09-01';

/**
 * What is to be done on a day for the sheets of all years, a line each.
 * @param {RawMap} sheets
 * @param {string} day
 * @returns {string[]}
 */
export function yearsWanting(sheets, day) {
  const known = Object.keys(sheets).flatMap((id) => {
    const { groups } = OF_YEAR.exec(id) ?? {};
    return groups ? [groups] : [];
  });
  const last = Number(day.slice(0, 4)) + (day.slice(5) >= AUTUMN ? 1 : 0);
  return [...new Set(known.map(({ family }) => family))].flatMap((family) => {
    const years = known.filter((each) => each['family'] === family).map(({ year }) => Number(year));
    const first = Math.min(...years);
    const wanted = Array.from({ length: last - first + 1 }, (_, at) => `${family}-${first + at}`);
    return wanted.flatMap((id) => wantingOf(id, sheets[id]));
  });
}

/**
 * @param {string} id
 * @param {Raw | undefined} sheet
 * @returns {string[]}
 */
function wantingOf(id, sheet) {
  if (sheet === undefined) return [`${id} is missing: write schema/tax-sheets/${id}.yaml`];
  return unverifiedIn(sheet, id);
}

/**
 * Each place of a sheet that says it is not verified.
 * @param {Raw} value
 * @param {string} path
 * @returns {string[]}
 */
function unverifiedIn(value, path) {
  if (typeof value === 'string' || Array.isArray(value)) return [];
  return Object.entries(value).flatMap(([key, field]) => {
    if (key !== 'unverified') return unverifiedIn(field, `${path} ${key}`);
    const why = typeof field !== 'string' || field === 'yes' ? '' : `: ${field}`;
    return field === 'no' ? [] : [`${path} is not verified${why}`];
  });
}

if (process.argv[1] === fileURLToPath(new URL(import.meta.url))) {
  const today = new Date().toISOString().slice(0, 10);
  const { values } = parseArgs({ options: { on: { type: 'string', default: today } } });
  const wanting = yearsWanting(taxSheets(), values.on);
  for (const line of wanting) process.stderr.write(`${line}\n`);
  if (wanting.length > 0) process.exitCode = 1;
  else process.stdout.write('Every year has its tax sheets, and they are verified.\n');
}
