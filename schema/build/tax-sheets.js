// Builds the tax sheets and the limits that come with the program: every scalar stays the text that stands in the file.
import { readFileSync, readdirSync } from 'node:fs';
import { URL } from 'node:url';
import { parse } from 'yaml';

/** @import { Raw, RawMap } from '../../src/read/raw.ts' */

const FOLDER = new URL('../tax-sheets/', import.meta.url);
const OF_YEAR = /^(?<family>.+)-(?<year>\d{4})$/;

/**
 * The sheets by their ids: `plain.yaml` is one; of a form with years each `FORM-YEAR.yaml` is one, upon
 * what `FORM.yaml` has for all of them.
 * @returns {Record<string, RawMap>}
 */
export function taxSheets() {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));
  const ids = names.map((name) => name.replace('.yaml', '')).sort();
  const families = new Set(ids.map((id) => OF_YEAR.exec(id)?.groups?.['family']));
  /** @type {{ [id: string]: RawMap }} */
  const sheets = {};
  for (const id of ids.filter((each) => !families.has(each))) sheets[id] = sheetOf(id);
  return sheets;
}

/**
 * @param {string} id
 * @returns {RawMap}
 */
function sheetOf(id) {
  const { family, year } = OF_YEAR.exec(id)?.groups ?? {};
  if (family === undefined || year === undefined) return fileOf(id);
  const merged = upon(fileOf(family), { ...fileOf(id), years: [year] });
  return { ...merged, lines: byNumber(merged['lines'] ?? {}) };
}

/**
 * @param {string} id
 * @returns {RawMap}
 */
function fileOf(id) {
  const text = readFileSync(new URL(`${id}.yaml`, FOLDER), 'utf8');
  /** @type {unknown} */
  const content = parse(text, { schema: 'failsafe' });
  return /** @type {RawMap} */ (content);
}

/**
 * Mappings are laid upon each other field by field; all else takes the other's place.
 * @param {RawMap} base
 * @param {RawMap} more
 * @returns {RawMap}
 */
function upon(base, more) {
  const merged = { ...base };
  for (const [key, value] of Object.entries(more)) {
    const under = base[key];
    merged[key] = isMapping(under) && isMapping(value) ? upon(under, value) : value;
  }
  return merged;
}

/**
 * @param {Raw | undefined} value
 * @returns {value is RawMap}
 */
function isMapping(value) {
  return typeof value === 'object' && !Array.isArray(value);
}

const { compare } = new Intl.Collator('en', { numeric: true });

/**
 * Lines in the order of their numbers, which a year may have changed: F, 9, 10, 10.1, 27a, 27b.
 * @param {Raw} lines
 * @returns {Raw}
 */
function byNumber(lines) {
  const numbered = Object.entries(/** @type {{ [key: string]: { number: string } }} */ (lines));
  /** @type {{ [key: string]: { number: string } }} */
  const inOrder = {};
  for (const [key, line] of numbered.sort(([, a], [, b]) => compare(sortedBy(a), sortedBy(b))))
    inOrder[key] = line;
  return inOrder;
}

const LIMITS = new URL('../leach-limits/', import.meta.url);

/**
 * The sheets of limits for lead and cadmium by their ids, which are the names of their files.
 * @returns {Record<string, unknown>}
 */
export function leachLimits() {
  const files = readdirSync(LIMITS).filter((name) => name.endsWith('.json'));
  const sheets = files.sort().map((name) => {
    const text = readFileSync(new URL(name, LIMITS), 'utf8');
    return /** @type {const} */ ([
      name.replace('.json', ''),
      /** @type {unknown} */ (JSON.parse(text)),
    ]);
  });
  return Object.fromEntries(sheets);
}

/**
 * @param {{ number: string }} line
 * @returns {string}
 */
function sortedBy({ number }) {
  return /^\d/.test(number) ? number : `0${number}`;
}
