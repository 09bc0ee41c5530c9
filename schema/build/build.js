// Builds what is made from the sources: validators and field specs from the schemas, the tax sheets, the
// pages on fields and rules, and the program.
import { Buffer } from 'node:buffer';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { URL, fileURLToPath } from 'node:url';
import { bundle, bundledCode } from './bundle.js';
import { allDescriptions, allFields, numberKeys, patterns } from './fields.js';
import { allMoves } from './moves.js';
import { fieldsPage, rulesPage } from './pages.js';
import { leachLimits, taxSheets } from './tax-sheets.js';
import { coreValidators, textValidators } from './validators.js';

/**
 * @typedef {object} Said
 * @property {readonly import('../../src/entry/form.ts').Form[]} FORMS
 * @property {typeof import('../../src/commands/review/rule-list.ts').everyRule} everyRule
 */

const SCHEMAS = new URL('../', import.meta.url);
const SOURCE = '// Made from the schemas by `npm run build`.\n';

const FIELDS_TYPES = `import type { Kind } from '../../src/book.ts';
import type { RecordSpec } from '../build/spec.ts';
export type * from '../build/spec.ts';
/** What each kind's records hold, field by field, with the keys as in the files. */
export const FIELDS: Readonly<Record<Kind | 'studio', RecordSpec>>;
/** The keys under which a bare number may stand, in whatever kind. */
export const NUMBER_KEYS: ReadonlySet<string>;
/** The form of each shared value's text, by its name in values.json; a regular expression (flag u). */
export const PATTERNS: Readonly<Record<string, string>>;
`;

const DESCRIPTIONS_TYPES = `import type { Kind } from '../../src/book.ts';
/** What the schemas say of each field, by its place in a record of the kind: \`meter.before\`; of the kind itself by an empty one. */
export const DESCRIPTIONS: Readonly<Record<Kind | 'studio', Readonly<Record<string, string>>>>;
`;

const TEXT_TYPES = `import type { Kind } from '../../src/book.ts';
/** Whether a record is sound when every scalar is the text that stands in the file. */
export const textValidators: Readonly<Record<Kind | 'studio', (record: unknown) => boolean>>;
`;

const CORE_TYPES = `import type { ErrorObject } from 'ajv';
import type { Kind } from '../../src/book.ts';
/** Whether a record is sound as a YAML 1.2 core reader sees it; the faults are on \`errors\` until the next call. */
export type CoreValidator = ((record: unknown) => boolean) & { errors?: ErrorObject[] | null };
/** The validators of all kinds, made at the first call. */
export function coreValidators(): Readonly<Record<Kind | 'studio', CoreValidator>>;
`;

const MOVES_TYPES = `/** What each field moves, with the keys as in the files: its own word, else that of what it stands in. */
`;

const SHEET_TITLES_TYPES = `/** Titles of the tax sheets that come with the program, by id; alone, for who needs no more. */
export const TAX_SHEET_TITLES: Readonly<Record<string, string>>;
`;

const SHEETS_TYPES = `import type { RawMap } from '../../src/read/raw.ts';
/** The tax sheets that come with the program, by id: every scalar is the text that stands in the file. */
export const TAX_SHEETS: Readonly<Record<string, RawMap>>;
`;

const LIMITS_TYPES = `${SOURCE}import type { LeachLimits } from '../../src/book.ts';

/** The sheets of limits for lead and cadmium that come with the program, by the name of their file. */
export const LEACH_LIMITS: Readonly<Record<'eu-84-500' | 'us-fda', LeachLimits>>;
`;

/**
 * @param {string} path from the folder of the schemas
 * @returns {string}
 */
function at(path) {
  return fileURLToPath(new URL(path, SCHEMAS));
}

function writeGenerated() {
  const keys = numberKeys();
  mkdirSync(at('generated/'), { recursive: true });
  write('fields.js', fieldsCode(keys));
  write('fields.d.ts', FIELDS_TYPES);
  const descriptions = JSON.stringify(allDescriptions(), null, 1);
  write('descriptions.js', `export const DESCRIPTIONS = ${descriptions};\n`);
  write('descriptions.d.ts', DESCRIPTIONS_TYPES);
  write('text.js', `export const textValidators = ${wrapped(textValidators(keys))}();\n`);
  write('text.d.ts', TEXT_TYPES);
  write('core.js', lazily('coreValidators', wrapped(coreValidators())));
  write('core.d.ts', CORE_TYPES);
  const moves = JSON.stringify(allMoves(), null, 1);
  write('moves.js', `export const MOVES = ${moves};\n`);
  write('moves.d.ts', `${MOVES_TYPES}export const MOVES: ${moves};\n`);
  const sheets = taxSheets();
  write('tax-sheets.js', `export const TAX_SHEETS = ${JSON.stringify(sheets, null, 1)};\n`);
  const titles = Object.fromEntries(Object.entries(sheets).map(([id, { title }]) => [id, title]));
  write(
    'tax-sheet-titles.js',
    `export const TAX_SHEET_TITLES = ${JSON.stringify(titles, null, 1)};\n`,
  );
  write(
    'leach-limits.js',
    `export const LEACH_LIMITS = ${JSON.stringify(leachLimits(), null, 1)};\n`,
  );
  write('leach-limits.d.ts', LIMITS_TYPES);
  write('tax-sheet-titles.d.ts', SHEET_TITLES_TYPES);
  write('tax-sheets.d.ts', SHEETS_TYPES);
}

/**
 * @param {string} name
 * @param {string} code
 */
function write(name, code) {
  writeFileSync(at(`generated/${name}`), SOURCE + code);
}

/**
 * @param {Set<string>} keys
 * @returns {string}
 */
function fieldsCode(keys) {
  return (
    `export const FIELDS = ${JSON.stringify(allFields(), null, 1)};\n` +
    `export const NUMBER_KEYS = new Set(${JSON.stringify([...keys])});\n` +
    `export const PATTERNS = ${JSON.stringify(patterns(), null, 1)};\n`
  );
}

/**
 * A function that gives what the CommonJS code exports.
 * @param {string} code
 * @returns {string}
 */
function wrapped(code) {
  return `(function () { const exports = {}; const module = { exports };\n${code}\nreturn exports; })`;
}

/**
 * Code that runs only when it is first asked for: most runs meet no fault and never need it.
 * @param {string} name
 * @param {string} make
 * @returns {string}
 */
function lazily(name, make) {
  return `let made;\nconst make = ${make};\nexport function ${name}() { return (made ??= make()); }\n`;
}

/** Writes the pages for people, from the program's own sentences and rules. */
async function writePages() {
  const contents = `export { FORMS } from './src/entry/forms.ts';
export { everyRule } from './src/commands/review/rule-list.ts';`;
  const { text } = await bundledCode({ stdin: { contents, resolveDir: at('..') }, format: 'esm' });
  const code = `data:text/javascript;base64,${Buffer.from(text).toString('base64')}`;
  /** @type {unknown} */
  const said = await import(code);
  const { FORMS, everyRule } = /** @type {Said} */ (said);
  writeFileSync(at('rules.md'), rulesPage(everyRule()));
  writeFileSync(at('README.md'), fieldsPage(readFileSync(at('README.md'), 'utf8'), FORMS));
}

writeGenerated();
await writePages();
await bundle();
