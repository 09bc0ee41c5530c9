// Makes the pages on kinds and rules from what the program itself goes by: the schemas, and its sentences.
import { NAMES, load, meant, recordOf } from './shapes.js';

/** @import { Schema } from './shapes.js' */
/** @import { Form } from '../../src/entry/form.ts' */

const RULES_HEAD = `# Rules that check knows

Made by \`npm run build\` from the rules themselves; \`saggar check --rules\` lists them too. With an error
the record is left out of figures or they are wrong. A warning may be right as it is: then the record says why,
\`checked: { RULE: your reason }\`, and it is quiet. \`check --strict\` counts warnings as errors, but for figures
that are only asked about.`;

/** @typedef {{ own: Schema, values: Schema }} Within */

/** What is below this line of schema/README.md is made; what is above it is written by hand. */
export const MADE_BELOW =
  '<!-- Made from the schemas by `npm run build`: what is below this line. -->';

/** Words so many that the page has them once, at its end. */
const TOLD_ONCE = ['unit', 'stock-unit', 'cause'];

/**
 * The page on fields and sentences: what stands in it by hand, then the kinds.
 * @param {string} page as it is
 * @param {readonly Form[]} forms
 * @returns {string}
 */
export function fieldsPage(page, forms) {
  const byHand = page.slice(0, page.indexOf(MADE_BELOW) + MADE_BELOW.length);
  const values = load('values');
  const kinds = NAMES.map((name) => kindPart(name, { own: load(name), values }, forms));
  const words = TOLD_ONCE.map(
    (name) => `- ${name}: ${(values.$defs?.[name]?.enum ?? []).join(', ')}`,
  );
  return `${[byHand, ...kinds, '### Words', words.join('\n')].join('\n\n')}\n`;
}

/**
 * The page on rules.
 * @param {ReturnType<typeof import('../../src/commands/review/rule-list.ts').everyRule>} rules
 * @returns {string}
 */
export function rulesPage(rules) {
  const lines = rules.map(({ name, severity, about }) => `- **${name}**, ${severity}: ${about}`);
  return `${RULES_HEAD}\n\n${lines.join('\n')}\n`;
}

/**
 * @param {string} name
 * @param {Within} within
 * @param {readonly Form[]} forms
 * @returns {string}
 */
function kindPart(name, within, forms) {
  const { description = '' } = within.own;
  const [about = ''] = description.split(/ (?=Each key)/);
  const record = recordOf(within.own);
  const more = record === within.own ? '' : ` ${record.description ?? ''}`;
  const parts = [`### ${name === 'studio' ? 'studio.yaml' : name}`, about + more];
  const sentences = forms.filter(({ kind }) => kind === name).map(sentenceLine);
  parts.push(fieldLines(record, within).join('\n'));
  if (sentences.length > 0) parts.push(`Typed after \`saggar add ${name}\`:`, sentences.join('\n'));
  return parts.join('\n\n');
}

/** @type {(form: Form) => string} */
function sentenceLine({ option, shape, about, examples }) {
  return `- \`--${option} "${shape}"\`: ${about}; \`"${examples[0] ?? ''}"\``;
}

/**
 * A line for each field, and indented below it one for each field inside.
 * @param {Schema} record
 * @param {Within} within
 * @returns {string[]}
 */
function fieldLines({ properties = {}, required = [] }, within) {
  const fields = Object.entries(properties).filter(([key]) => key !== 'note');
  return fields.flatMap(([key, field]) => {
    const whole = meant(field, within);
    const name = required.includes(key) ? `**${key}**` : key;
    const inside = key === 'changes' ? [] : fieldLines(insideOf(whole, within), within);
    return [`- ${name}: ${said(whole, within)}`, ...inside.map((line) => `  ${line}`)];
  });
}

/**
 * The record that a field is, or that its list has.
 * @param {Schema} whole
 * @param {Within} within
 * @returns {Schema}
 */
function insideOf(whole, within) {
  const part = whole.items ?? whole.then;
  return part ? meant(part, within) : whole;
}

/**
 * @param {Schema & { valueType?: string }} whole
 * @param {Within} within
 * @returns {string}
 */
function said(whole, within) {
  const { description = '' } = whole;
  const words = wordsOf(whole, within);
  const isSaid = words.every((word) => new RegExp(`\\b${word}\\b`).test(description));
  return isSaid ? description : `${description} Words: ${words.join(', ')}.`;
}

/**
 * The words that may stand there, or as keys there.
 * @param {Schema & { valueType?: string }} whole
 * @param {Within} within
 * @returns {string[]}
 */
function wordsOf(whole, within) {
  const part = whole.items ?? whole.propertyNames;
  const one = part ? meant(part, within) : whole;
  if ([...TOLD_ONCE, 'yes-no'].includes(one.valueType ?? '')) return [];
  return [...(one.enum ?? []), ...(one['x-words'] ?? [])].map(String);
}
