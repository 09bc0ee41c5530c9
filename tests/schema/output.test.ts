import { existsSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { minorDigits } from '../../src/number/money.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { holds } from '../helpers/law.ts';
import { randomStudio } from '../helpers/random-studio.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy, tempStudio } from '../helpers/temp-studio.ts';
import { writeStudio } from '../helpers/write-studio.ts';

const ROOT = join(import.meta.dirname, '../..');
const FOLDER = join(ROOT, 'schema/output');
const NAMES = ['report', 'record', 'review', 'change'] as const;
type Name = (typeof NAMES)[number];

function schemaOf(name: Name): Record<string, unknown> {
  return JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8')) as Record<string, unknown>;
}

const AJV = new Ajv2020({ allErrors: true, allowUnionTypes: true });
const VALIDATORS = Object.fromEntries(
  NAMES.map((name) => [name, AJV.compile(schemaOf(name))]),
) as Record<Name, ValidateFunction>;

/** What a schema has against a document; its figures are of the types that its columns say. */
function faultsOf(name: Name, text: string): unknown[] {
  const validate = VALIDATORS[name];
  const document: unknown = JSON.parse(text);
  return validate(document) ? [] : (validate.errors ?? []);
}

interface ReportDocument {
  readonly currency: string;
  readonly columns: readonly { readonly key: string; readonly type: string }[];
  readonly rows: readonly Record<string, unknown>[];
  readonly totals?: Record<string, unknown>;
}

/** Amounts that have not the decimals of their currency. */
function oddAmounts(text: string, digits: number): unknown[] {
  const { columns, rows, totals = {} } = JSON.parse(text) as ReportDocument;
  const isAmount = new RegExp(digits === 0 ? '^-?\\d+$' : `^-?\\d+\\.\\d{${digits}}$`);
  const money = columns.filter(({ type }) => type === 'money').map(({ key }) => key);
  const amounts = [...rows, totals].flatMap((row) => money.map((key) => row[key] ?? null));
  return amounts.filter((cell) => cell !== null && !isAmount.test(cell as string));
}

const SALE = ['sales', '--channel', 'door', '--line', '1 mug oatmeal at 38'];

const UNSOUND_USE = 'u1:\n  date: 2026-06-01\n  material: kaolin\n  quantity: a lot\n';

interface ReviewDocument {
  readonly counts: Readonly<Record<string, number>>;
  readonly risks: readonly unknown[];
  readonly problems: { readonly new: readonly unknown[] };
}

// A list has to be matched with; its test gives one, and looks at what comes of it.
const REPORTS = COMMANDS.filter(({ options }) =>
  options.some(({ flags, choices = [] }) => flags.startsWith('--as') && choices.includes('csv')),
)
  .map(({ name }) => name)
  .filter((name) => name !== 'match');

/** Words after the argument of those that do nothing without. */
const MORE: Readonly<Record<string, readonly string[]>> = { weigh: ['5', 'kg'] };

/** Reports that are of something always. */
const NEEDS_ONE = new Set(
  COMMANDS.filter(
    (command) =>
      command.name === 'trace' || ('argument' in command && command.argument.form.startsWith('<')),
  ).map(({ name }): string => name),
);

describe('the published schemas of JSON output', () => {
  it('describe every property', () => {
    const undescribed = NAMES.flatMap((name) => withoutWords(schemaOf(name), name));
    expect(undescribed).toEqual([]);
    expect(readdirSync(FOLDER).sort()).toEqual(NAMES.map((name) => `${name}.json`).sort());
  });

  it('come with the package', () => {
    const { files } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
      files: readonly string[];
    };
    expect(files).toContain('schema/output');
  });

  // The reports of the example studio, each with its options.
  const kept = readdirSync(join(ROOT, 'tests/golden')).filter((file) => file.endsWith('.json'));
  it.each(kept)('fit %s', (file) => {
    const text = readFileSync(join(ROOT, 'tests/golden', file), 'utf8');
    const isRecord = file === 'show.json';
    expect(faultsOf(isRecord ? 'record' : 'report', text)).toEqual([]);
    const table = isRecord
      ? JSON.stringify((JSON.parse(text) as { figures: unknown }).figures)
      : text;
    expect(oddAmounts(table, 2)).toEqual([]);
  });

  it('fit a record of every kind, and one with errors', async () => {
    const folder = exampleCopy();
    writeFileSync(join(folder, 'used/bad.yaml'), UNSOUND_USE);
    const reading = await readStudio(folder, { memory: NO_MEMORY });
    const files = 'refused' in reading ? [] : reading.files;
    const ids = new Map(files.map(({ kind, root }) => [kind, Object.keys(root)[0] ?? '']));
    ids.delete('studio');
    expect(ids.size).toBeGreaterThan(18);
    for (const id of ['u1', ...ids.values()]) {
      const { out } = await runWords('show', [id], { folder, dryRun: false });
      expect(faultsOf('record', out), id).toEqual([]);
      const { figures } = JSON.parse(out) as { readonly figures: unknown };
      expect(figures === null, id).toBe(id === 'u1');
    }
  });

  it('fit a review of what was added, changed, taken out, moved and broken', async () => {
    const folder = inGit(exampleCopy());
    git(folder, 'branch', '-M', 'main');
    await runWords('add', SALE, { folder, dryRun: false });
    await runWords('amend', ['mug', 'price=44'], { folder, dryRun: false });
    await runWords('remove', ['s260627ah'], { folder, dryRun: false });
    renameSync(join(folder, 'sales/2026-05.yaml'), join(folder, 'sales/may.yaml'));
    writeFileSync(join(folder, 'used/bad.yaml'), UNSOUND_USE);
    const { out } = await runWords('review', ['main'], { folder, dryRun: false });
    expect(faultsOf('review', out)).toEqual([]);
    const { counts, problems, risks } = JSON.parse(out) as ReviewDocument;
    expect(counts).toMatchObject({ added: 1, changed: 1, removed: 1 });
    expect(problems.new.length).toBeGreaterThan(0);
    expect(counts['moved']).toBeGreaterThan(5);
    expect(risks.length).toBeGreaterThan(0);
    expect(faultsOf('review', out.replace('"verdict"', '"verdct"'))).not.toEqual([]);
  });

  it.each(REPORTS)('fit %s of random studios, with amounts of their currencies', async (name) => {
    const property = fc.asyncProperty(
      randomStudio({ days: 60 }),
      async ({ files, asOf, settings, records }) => {
        const { folder, remove } = writeStudio(files);
        try {
          const ofIt = name === 'weigh' ? records.recipes : records.products;
          const [argument = ''] = Object.keys(ofIt);
          const asked = NEEDS_ONE.has(name)
            ? { folder, argument, more: MORE[name] ?? [] }
            : { folder };
          const { out } = await runCommand(name, { asOf, as: 'json' }, asked);
          const digits = minorDigits(settings['currency'] as string) ?? NaN;
          expect(faultsOf('report', out)).toEqual([]);
          expect(oddAmounts(out, digits)).toEqual([]);
        } finally {
          remove();
        }
      },
    );
    await holds(property, 2);
  });

  it('refuse what is not of their shape', () => {
    const text = readFileSync(join(ROOT, 'tests/golden/fairs.json'), 'utf8');
    expect(faultsOf('report', text.replace('"version": 1', '"version": 2'))).not.toEqual([]);
    expect(faultsOf('report', text.replace('"columns"', '"colums"'))).not.toEqual([]);
    expect(faultsOf('change', text)).not.toEqual([]);
    expect(oddAmounts(text.replace('"2308.09"', '"2308.1"'), 2)).toEqual(['2308.1']);
  });
});

function withoutWords(schema: unknown, path: string): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, value]) => {
    if (key !== 'properties') return withoutWords(value, `${path}.${key}`);
    const properties = Object.entries(value as Record<string, Record<string, unknown>>);
    const bare = properties.filter(
      ([, each]) => !/\w.*\.$/.test((each['description'] ?? '') as string),
    );
    return [
      ...bare.map(([name]) => `${path}.${name}`),
      ...properties.flatMap(([name, each]) => withoutWords(each, `${path}.${name}`)),
    ];
  });
}

describe('a command that writes', () => {
  it.each([
    ['add', SALE, 'added'],
    ['amend', ['s260630db', 'paid=2026-07-01'], 'changed'],
    ['remove', ['s260627ah'], 'removed'],
  ] as const)('%s tells of its change as JSON, with --dry-run too', async (name, words, became) => {
    const folder = exampleCopy();
    for (const dryRun of [true, false]) {
      const { out, status } = await runWords(name, words, { folder, dryRun });
      expect(status).toBe(0);
      expect(faultsOf('change', out)).toEqual([]);
      const told = JSON.parse(out) as ToldChange;
      expect(told.written).toBe(!dryRun);
      expect(told.records.map((record) => record.became)).toEqual([became]);
      const [record] = told.records;
      const text = readFileSync(join(folder, record?.file ?? ''), 'utf8').split('\n');
      // Where it was written, the record begins at the line that is told; one that is gone does not.
      const begins = text[(record?.line ?? 0) - 1]?.startsWith(`${record?.id ?? ''}:`) ?? false;
      if (!dryRun) expect(begins).toBe(became !== 'removed');
    }
  });

  it.each([
    ['new', undefined],
    ['new', 'editor,hooks'],
  ])('init %s --with %s tells which files it wrote', async (name, parts) => {
    const parent = tempStudio({});
    const asked = { as: 'json', ...(parts === undefined ? {} : { with: parts }) };
    const { out, status } = await run(await loadCommand('init'), parent, {
      words: [name],
      options: asked,
      today: '2026-06-30',
    });
    expect(status).toBe(0);
    expect(faultsOf('change', out)).toEqual([]);
    const told = JSON.parse(out) as ToldChange & { readonly files: readonly string[] };
    expect(told.written).toBe(true);
    const settings = told.records.find(({ file }) => file === 'studio.yaml');
    expect(settings).toMatchObject({ id: '', became: 'added', line: 1 });
    expect(told.files.filter((file) => !existsSync(join(parent, name, file)))).toEqual([]);
    expect(told.files.length).toBeGreaterThan(20);
    expect(told.files.some((file) => file.startsWith('.githooks/'))).toBe(parts !== undefined);
  });

  it('init says on standard error alone what keeps it from making a studio', async () => {
    const parent = tempStudio({ 'notes.txt': 'mine' });
    const options = { as: 'json' };
    const said = await run(await loadCommand('init'), parent, { words: ['.'], options });
    expect(said).toMatchObject({ status: 2, out: '' });
    expect(said.err).toContain('give a folder that is empty');
  });

  it('tells old and new of what it amends', async () => {
    const folder = exampleCopy();
    const words = ['s260630db', 'paid=2026-07-01'];
    const { out } = await runWords('amend', words, { folder, dryRun: false });
    const [record] = (JSON.parse(out) as ToldChange).records;
    expect(record?.fields).toEqual([{ path: 'paid', before: 'no', after: '2026-07-01' }]);
  });
});

async function runWords(
  name: string,
  words: readonly string[],
  { folder, dryRun }: { readonly folder: string; readonly dryRun: boolean },
): Promise<Said> {
  const options = { as: 'json', asOf: '2026-06-30', dryRun };
  return run(await loadCommand(name), folder, { words, options, today: '2026-06-30' });
}

interface ToldChange {
  readonly written: boolean;
  readonly records: readonly {
    readonly id: string;
    readonly became: string;
    readonly file: string;
    readonly line: number;
    readonly fields: readonly unknown[];
  }[];
}
