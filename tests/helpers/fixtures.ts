/** The fixture studios of the rules: each rule has one that triggers it and one that does not. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that has a folder for each rule. */
export const FIXTURES = fileURLToPath(new URL('../fixtures', import.meta.url));

/** Names of the rules that have fixtures. */
export function fixtureRules(): string[] {
  return readdirSync(FIXTURES).sort();
}

/** The YAML files of one fixture studio: path from its root → text. */
export function fixtureTexts(rule: string, side: 'bad' | 'good'): Map<string, string> {
  const root = join(FIXTURES, rule, side);
  const names = readdirSync(root, { recursive: true, encoding: 'utf8' });
  const files = names.filter((name) => name.endsWith('.yaml')).sort();
  return new Map(files.map((name) => [name, readFileSync(join(root, name), 'utf8')]));
}
