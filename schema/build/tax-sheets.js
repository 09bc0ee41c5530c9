// Builds the tax sheets that come with the program: every scalar stays the text that stands in the file.
import { readFileSync, readdirSync } from 'node:fs';
import { URL } from 'node:url';
import { parse } from 'yaml';

const FOLDER = new URL('../tax-sheets/', import.meta.url);

/**
 * The sheets by their ids, which are the names of their files.
 * @returns {Record<string, { title: string }>}
 */
export function taxSheets() {
  const files = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));
  const sheets = files.sort().map((name) => {
    const text = readFileSync(new URL(name, FOLDER), 'utf8');
    return /** @type {const} */ ([
      name.replace('.yaml', ''),
      /** @type {{ title: string }} */ (parse(text, { schema: 'failsafe' })),
    ]);
  });
  return Object.fromEntries(sheets);
}
