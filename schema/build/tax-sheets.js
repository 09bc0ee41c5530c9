// Builds the tax sheets that come with the program: every scalar stays the text that stands in the file.
import { readFileSync, readdirSync } from 'node:fs';
import { URL } from 'node:url';
import { parse } from 'yaml';

/** @typedef {{ [key: string]: string | unknown[] | RawMapping }} RawMapping */
/** @typedef {RawMapping[string]} RawValue */
/** @typedef {RawMapping & { title: string }} RawSheet */

const FOLDER = new URL('../tax-sheets/', import.meta.url);
const OF_YEAR = /^(?<family>.+)-(?<year>\d{4})$/;

/**
 * The sheets by their ids: `plain.yaml` is one; of a form with years each `FORM-YEAR.yaml` is one, upon
 * what `FORM.yaml` has for all of them.
 * @returns {Record<string, RawSheet>}
 */
export function taxSheets() {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));
  const ids = names.map((name) => name.replace('.yaml', '')).sort();
  const families = new Set(ids.map((id) => OF_YEAR.exec(id)?.groups?.['family']));
  const sheets = ids.filter((id) => !families.has(id)).map((id) => [id, sheetOf(id)]);
  return /** @type {Record<string, RawSheet>} */ (Object.fromEntries(sheets));
}

/**
 * @param {string} id
 * @returns {RawValue}
 */
function sheetOf(id) {
  const { family, year } = OF_YEAR.exec(id)?.groups ?? {};
  if (family === undefined || year === undefined) return fileOf(id);
  const merged = upon(fileOf(family), { ...fileOf(id), years: [year] });
  return { ...merged, lines: byNumber(merged['lines'] ?? {}) };
}

/**
 * @param {string} id
 * @returns {RawMapping}
 */
function fileOf(id) {
  const text = readFileSync(new URL(`${id}.yaml`, FOLDER), 'utf8');
  return /** @type {RawMapping} */ (parse(text, { schema: 'failsafe' }));
}

/**
 * Mappings are laid upon each other field by field; all else takes the other's place.
 * @param {RawMapping} base
 * @param {RawMapping} more
 * @returns {RawMapping}
 */
function upon(base, more) {
  const fields = Object.entries(more).map(([key, value]) => {
    const under = base[key];
    return [key, isMapping(under) && isMapping(value) ? upon(under, value) : value];
  });
  return { ...base, .../** @type {RawMapping} */ (Object.fromEntries(fields)) };
}

/**
 * @param {RawValue | undefined} value
 * @returns {value is RawMapping}
 */
function isMapping(value) {
  return typeof value === 'object' && !Array.isArray(value);
}

const { compare } = new Intl.Collator('en', { numeric: true });

/**
 * Lines in the order of their numbers, which a year may have changed: 9, 10, 10.1, 27a, 27b.
 * @param {RawValue} lines
 * @returns {RawValue}
 */
function byNumber(lines) {
  const numbered = Object.entries(/** @type {{ [key: string]: { number: string } }} */ (lines));
  return Object.fromEntries(numbered.sort(([, a], [, b]) => compare(a.number, b.number)));
}
