import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../src/book.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { git } from '../helpers/git.ts';
import { EXAMPLE_DAY, runCommand, type Ran } from '../helpers/studio-commands.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const SCHEMAS = resolve(import.meta.dirname, '../../schema');

type Options = Readonly<Record<string, string>>;

/** Runs `init` for a folder that isn't there yet, in an empty one. */
async function initIn(parent: string, options: Options = {}, name = 'studio'): Promise<Ran> {
  return runCommand('init', options, { argument: name, folder: parent });
}

async function newStudio(options: Options = {}): Promise<string> {
  const parent = tempStudio({});
  const { status } = await initIn(parent, options);
  expect(status).toBe(0);
  return join(parent, 'studio');
}

/** Everything that is wrong in a studio on a day, without the cache. */
async function findingsIn(folder: string): Promise<readonly string[]> {
  const { findings } = await checked(folder);
  return findings.map(({ rule, at, message }) => `${rule} in ${at.file}: ${message}`);
}

async function checked(folder: string): Promise<ReturnType<typeof checkStudio>> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return checkStudio(reading, EXAMPLE_DAY);
}

/** Takes the mark off every line that is a sample or a setting, and leaves the words. */
function uncommented(text: string): string {
  const [modeline, ...lines] = text.split('\n');
  return [modeline, ...lines.map((line) => line.replace(/^( *)# /, '$1'))].join('\n');
}

/** Writes every file again with all of its samples in force; returns how many lines that were. */
function putSamplesInForce(folder: string): number {
  let count = 0;
  for (const [file, text] of Object.entries(filesIn(folder))) {
    count += (text.match(/\n *# /g) ?? []).length;
    writeFileSync(join(folder, file), uncommented(text));
  }
  return count;
}

describe('a new studio', () => {
  it('has nothing that the check would report, not even a warning', async () => {
    expect(await findingsIn(await newStudio())).toEqual([]);
  });

  it('has live samples of what a studio has, and nothing that happened', async () => {
    const { book } = await checked(await newStudio());
    const counts = Object.fromEntries(KINDS.map((kind) => [kind, book[kind].size]));
    expect(counts).toEqual({
      ...{ materials: 8, recipes: 1, products: 1, classes: 0, kilns: 1, tariffs: 1, channels: 3 },
      ...{ bought: 0, reclaimed: 0, mixed: 0, pieces: 0, firings: 0, used: 0, counted: 0 },
      ...{ orders: 0, sales: 0, advances: 0, consigned: 0, fairs: 0, spent: 0, tests: 0, filed: 0 },
    });
  });

  it.each([{}, { currency: 'EUR' }, { currency: 'JPY', weightUnit: 'g' }, { currency: 'KWD' }])(
    'has samples that are as sound once they are in force, with %o',
    async (options) => {
      const folder = await newStudio(options);
      expect(putSamplesInForce(folder)).toBeGreaterThan(180);
      // A year that begins in April and a sheet of calendar years are samples that don't go together.
      const findings = await findingsIn(folder);
      expect(findings.filter((words) => !words.startsWith('sheet-year '))).toEqual([]);
      const { book } = await checked(folder);
      expect(KINDS.filter((kind) => book[kind].size === 0)).toEqual([]);
      // sales-tax: none would contradict the sample of taxes.
      const settings = Object.keys(schemaOf('studio').properties ?? {}).filter(
        (name) => name !== 'sales-tax',
      );
      expect(Object.keys(book.studio)).toHaveLength(settings.length + ['file'].length);
    },
  );

  it('names every field that a record may have in the file of its kind', async () => {
    const texts = filesIn(await newStudio());
    for (const kind of ['studio', ...KINDS]) {
      const text = texts[`${kind}.yaml`] ?? texts[`${kind}/README.yaml`] ?? '';
      const words = new Set(text.match(/[\w-]+/g));
      const missing = fieldsOf(kind).filter((field) => !words.has(field));
      expect({ kind, missing }).toEqual({ kind, missing: [] });
    }
  });

  it('explains each file in words at its head', async () => {
    for (const [file, text] of Object.entries(filesIn(await newStudio()))) {
      const [, first] = text.split('\n');
      expect({ file, says: /^## \w.{40}/.test(first ?? '') }).toEqual({ file, says: true });
    }
  });

  it('tells git to keep line ends and to leave the cache out, and names no merge driver', async () => {
    const folder = await newStudio();
    expect(readFileSync(join(folder, '.gitattributes'), 'utf8')).toBe('*.yaml text eol=lf\n');
    expect(readFileSync(join(folder, '.gitignore'), 'utf8')).toMatch(
      /^\.saggar\/\n\.saggar-lock\n\.schema\/$/m,
    );
    const ofExample = new URL('../../example-studio/.gitignore', import.meta.url);
    expect(readFileSync(ofExample, 'utf8')).toBe(readFileSync(join(folder, '.gitignore'), 'utf8'));
    git(folder, 'init', '-q');
    writeFileSync(join(folder, '.saggar-lock'), '');
    git(folder, 'add', '.');
    const staged = git(folder, 'diff', '--cached', '--name-only').trim().split('\n');
    expect(staged).toContain('sales/README.yaml');
    expect(staged.filter((file) => /^\.(?:saggar|schema)/.test(file))).toEqual([]);
    expect(git(folder, 'check-attr', 'eol', 'merge', '--', 'sales/README.yaml')).toBe(
      'sales/README.yaml: eol: lf\nsales/README.yaml: merge: unspecified\n',
    );
  });

  it('is of the same bytes whatever the day', async () => {
    const one = await newStudio({ asOf: '2025-06-01' });
    const other = await newStudio({ asOf: '2031-01-01' });
    expect(filesIn(one)).toEqual(filesIn(other));
  });
});

interface Schema {
  readonly properties?: Readonly<Record<string, unknown>>;
}

/** The names of all fields of a kind, at whatever depth; a note may stand anywhere and is told once. */
function fieldsOf(kind: string): string[] {
  const names = new Set<string>();
  const look = (part: unknown): void => {
    if (typeof part !== 'object' || part === null) return;
    for (const name of Object.keys((part as Schema).properties ?? {})) names.add(name);
    for (const [key, inner] of Object.entries(part)) if (key !== 'examples') look(inner);
  };
  look(schemaOf(kind));
  // What every record may have is told once, with the settings.
  if (kind !== 'studio') for (const name of ['note', 'checked']) names.delete(name);
  return [...names];
}

function schemaOf(kind: string): Schema {
  return JSON.parse(readFileSync(join(SCHEMAS, `${kind}.json`), 'utf8')) as Schema;
}

describe('the options of init', () => {
  it('name the studio after its folder when nothing else is said', async () => {
    const parent = tempStudio({});
    await initIn(parent, {}, 'hill-street_pottery');
    const text = readFileSync(join(parent, 'hill-street_pottery/studio.yaml'), 'utf8');
    expect(text).toContain('\nname: Hill street pottery\n');
  });

  it.each([
    ['Mud & Co: "the shed" #1', `'Mud & Co: "the shed" #1'`],
    ['0044', "'0044'"],
    ["Potter's <currency>", "Potter's <currency>"],
    ['true', "'true'"],
  ])('keep the name %s as it was typed', async (name, written) => {
    const folder = await newStudio({ name });
    expect(readFileSync(join(folder, 'studio.yaml'), 'utf8')).toContain(`\nname: ${written}\n`);
    expect(await findingsIn(folder)).toEqual([]);
    expect((await checked(folder)).book.studio.name).toBe(name);
  });

  it.each([
    [{}, { currency: 'USD', weightUnit: 'lb', volumeUnit: 'qt', temperatureUnit: '°F' }, '1 lb'],
    [
      { currency: 'GBP' },
      { currency: 'GBP', weightUnit: 'kg', volumeUnit: 'L', temperatureUnit: '°C' },
      '450 g',
    ],
    [
      { currency: 'CAD', weightUnit: 'lb' },
      { currency: 'CAD', weightUnit: 'lb', volumeUnit: 'qt', temperatureUnit: '°F' },
      '1 lb',
    ],
    [
      { weightUnit: 'g' },
      { currency: 'USD', weightUnit: 'g', volumeUnit: 'L', temperatureUnit: '°C' },
      '450 g',
    ],
  ])('%o choose units and samples that go together', async (options, settings, clay) => {
    const { book } = await checked(await newStudio(options));
    expect(book.studio).toMatchObject(settings);
    expect(book.products.get('mug')?.clay?.each.text).toBe(clay);
  });

  it.each([
    ['usd', 'did you mean USD?'],
    ['XYZ', '--currency takes three capital letters of ISO 4217'],
    ['$', '--currency takes three capital letters of ISO 4217'],
  ])('refuse the currency %s, and make nothing', async (currency, words) => {
    const parent = tempStudio({});
    const ran = await initIn(parent, { currency });
    expect(ran).toMatchObject({ status: 2, out: '' });
    expect(ran.complaints).toContain(words);
    expect(readdirSync(parent)).toEqual([]);
  });

  it('refuse a name of blanks', async () => {
    const ran = await initIn(tempStudio({}), { name: ' ' });
    expect(ran).toMatchObject({ status: 2, out: '' });
  });
});

describe('the folder of init', () => {
  it('may be there already, and empty, or with a repository in it', async () => {
    const parent = tempStudio({});
    mkdirSync(join(parent, 'studio'));
    git(join(parent, 'studio'), 'init', '-q');
    const ran = await initIn(parent);
    expect(ran.status).toBe(0);
    expect(ran.out).not.toContain('git init');
    expect(ran.out).toContain('git add . && git commit');
  });

  it('may be this folder', async () => {
    const folder = tempStudio({});
    const ran = await initIn(folder, {}, '.');
    expect(ran.status).toBe(0);
    expect(existsSync(join(folder, 'studio.yaml'))).toBe(true);
    expect(ran.out).not.toMatch(/^ *cd /m);
  });

  it('must not have anything in it', async () => {
    const parent = tempStudio({ 'studio/glaze notes.txt': 'x', 'studio/b': '', 'studio/c': '' });
    writeFileSync(join(parent, 'studio/d'), '');
    const ran = await initIn(parent);
    expect(ran).toMatchObject({ status: 2, out: '' });
    expect(ran.complaints).toBe(
      'saggar: studio is not empty: it has b, c, d and 1 more in it; give a folder that is empty or ' +
        "isn't there yet\n",
    );
    expect(readdirSync(join(parent, 'studio')).sort()).toEqual(['b', 'c', 'd', 'glaze notes.txt']);
  });

  it('must not be a file, nor inside another studio', async () => {
    const parent = tempStudio({ studio: 'a file' });
    expect(await initIn(parent)).toMatchObject({ status: 2 });
    const outer = await newStudio();
    const ran = await initIn(outer, {}, 'inner');
    expect(ran.status).toBe(2);
    expect(ran.complaints).toContain(`inner is inside the studio ${outer}`);
    expect(existsSync(join(outer, 'inner'))).toBe(false);
  });
});

it('says in one short list what it made, what the check says and what to do next', async () => {
  const ran = await initIn(tempStudio({}), { name: 'Mud\u001b[31m' }, 'my pots');
  expect(ran.complaints).toBe('');
  expect(ran.out).toBe(`Made the studio Mud\\u{1B}[31m in my pots; amounts are in USD.

  studio.yaml                  the settings, each with its meaning
  materials, recipes, products, kilns, tariffs, channels, classes (.yaml)
                               samples of what a studio has, to be made yours
  bought/ mixed/ pieces/ firings/ sales/ and eight more folders
                               a README.yaml in each shows how to record it
  .schema/                     lets an editor with YAML support help as you type
  .gitattributes, .gitignore   for git

No problems found.

What to do next:
  cd "my pots"
  open studio.yaml and the samples beside it, and make them yours
  git init && git add . && git commit -m "Begin the book"
  saggar add bought --help     to record what is on your shelves
  saggar day                   at the end of the day
`);
  const widths = ran.out.split('\n').map((line) => line.length);
  expect(Math.max(...widths)).toBeLessThanOrEqual(80);
});

it('finds its files in the built program, from wherever it is run', () => {
  const parent = tempStudio({});
  const program = resolve(import.meta.dirname, '../../bin/saggar.js');
  const out = execFileSync(process.execPath, [program, 'init', 'studio'], {
    cwd: parent,
    encoding: 'utf8',
  });
  expect(out).toContain('No problems found.');
  expect(existsSync(join(parent, 'studio/.schema/materials.json'))).toBe(true);
});
