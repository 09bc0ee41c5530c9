/** The pages for people: short where they are to be, made of what the program goes by, and whole. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { READER_RULES, RULES } from '../src/check/rules.ts';
import { COMMANDS } from '../src/commands/catalogue.ts';
import { everyRule } from '../src/commands/review/rule-list.ts';
import { FORMS } from '../src/entry/forms.ts';
import { fieldsPage, rulesPage } from '../schema/build/pages.js';
import { codeLines } from './size.js';

const ROOT = resolve(import.meta.dirname, '..');
const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  'example-studio/README.md',
  'schema/README.md',
  'schema/rules.md',
  'schema/for-git/README.md',
  'schema/tax-sheets/README.md',
  'src/reckon/README.md',
  'src/reckon/MONEY.md',
];

function textOf(page: string): string {
  return readFileSync(join(ROOT, page), 'utf8');
}

function cellsOf(line: string): number {
  return Array.from(line).length;
}

describe('README.md', () => {
  const lines = textOf('README.md').split('\n');

  it('is short, and so are its lines', () => {
    expect(lines.length).toBeLessThanOrEqual(200);
    expect(lines.filter((line) => cellsOf(line) > 100)).toEqual([]);
    const tables = lines.filter((line) => line.startsWith('|'));
    expect(tables.filter((line) => cellsOf(line) > 100)).toEqual([]);
  });

  it('comes to a studio of one’s own, and its first record, on the first screen', () => {
    const first = lines.slice(0, 30).join('\n');
    expect(first).toMatch(/saggar init [^]*saggar add /);
  });
});

describe('pages that are made', () => {
  it('are of the schemas, sentences and rules as they are', () => {
    const fields = textOf('schema/README.md');
    expect(fields).toBe(fieldsPage(fields, FORMS));
    expect(textOf('schema/rules.md')).toBe(rulesPage(everyRule()));
  });

  it('have every field and every sentence', () => {
    const fields = textOf('schema/README.md');
    for (const { option, shape } of FORMS) expect(fields).toContain(`\`--${option} "${shape}"\``);
    for (const field of ['share-freight-by', 'tops-up', 'lost-to', 'closed-through'])
      expect(fields).toMatch(new RegExp(`^ *- (\\*\\*)?${field}(\\*\\*)?: `, 'm'));
  });

  // The build makes them anew, so that elsewhere a forgotten one would pass.
  it.runIf(process.env['CI'])('are committed as they are', () => {
    const words = ['status', '--porcelain', 'schema/README.md', 'schema/rules.md'];
    expect(execFileSync('git', words, { cwd: ROOT, encoding: 'utf8' })).toBe('');
  });
});

describe.each(PAGES)('%s', (page) => {
  it('leads to what is there', () => {
    const links = [...textOf(page).matchAll(/\]\(([^)#:]+)\)/g)].map(([, link = '']) => link);
    const missing = links.filter((link) => !existsSync(join(ROOT, dirname(page), link)));
    expect(missing).toEqual([]);
  });

  it('names files that are there', () => {
    const named = [...textOf(page).matchAll(/`((?:src|tests|schema)\/[\w./-]+)`/g)];
    const missing = named
      .map(([, file = '']) => file)
      .filter((file) => !/NAME|RULE/.test(file) && !existsSync(join(ROOT, file)));
    expect(missing).toEqual([]);
  });

  it('has a fence for the end of each code', () => {
    expect((textOf(page).match(/^```/gm) ?? []).length % 2).toBe(0);
  });
});

/** All that is at the top, beside dot-files. */
const TOP_LEVEL: readonly string[] = [
  'README.md',
  'DEVELOPERS.md',
  'CHANGELOG.md',
  'LICENSE',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'src',
  'bin',
  'schema',
  'tests',
  'example-studio',
];

describe('documents', () => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');

  it.each(COMMANDS.map(({ name }) => name))('README.md names the command %s', (name) => {
    expect(readme).toMatch(new RegExp(`\\| \`${name}[ \`]`));
  });

  const rules = readFileSync(join(ROOT, 'schema/rules.md'), 'utf8');

  it.each([...RULES, ...READER_RULES])(
    'the rule $name is on the page of rules, and has fixtures',
    ({ name, severity, about }) => {
      expect(rules).toContain(`- **${name}**, ${severity}: ${about}\n`);
      const fixtures = readdirSync(join(ROOT, 'tests/fixtures', name));
      expect(fixtures).toEqual(expect.arrayContaining(['bad', 'good']));
    },
  );

  it('stand at a top level that holds nothing else than it should', () => {
    const tracked = execFileSync('git', ['ls-files', '-z'], { cwd: ROOT, encoding: 'utf8' });
    const top = new Set(tracked.split('\0').map((file) => file.split('/')[0] ?? ''));
    const visible = [...top].filter((name) => name !== '' && !name.startsWith('.'));
    expect(visible.filter((name) => !TOP_LEVEL.includes(name))).toEqual([]);
    expect(TOP_LEVEL.filter((name) => !visible.includes(name))).toEqual([]);
  });
});

describe('npm run size', () => {
  it('counts lines of code, and neither blank lines nor comments', () => {
    const text = '/** One. */\nconst a = 1; // Two.\n\n// Three.\nconst b = `\n\n4`;\n/*\n */\n';
    expect(codeLines(text)).toBe(3);
  });
});
