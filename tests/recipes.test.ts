/** The recipes of DEVELOPERS.md for a rule, a report and a kind, followed in a copy of the program. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tempStudio } from './helpers/temp-studio.ts';
import { IS_LONG } from './helpers/tier.ts';

const ROOT = resolve(import.meta.dirname, '..');
const PARTS = 'bin src schema example-studio tests/bench tests/helpers package.json tsconfig.json';

let copy: string;

function write(file: string, text: string): void {
  writeFileSync(join(copy, file), text);
}

/** Puts lines in front of the first one that begins so. */
function insert(file: string, before: string, lines: string): void {
  const text = readFileSync(join(copy, file), 'utf8');
  const at = text.indexOf(`\n${before}`);
  if (at < 0) throw new Error(`${file} has no line that begins with ${before}`);
  write(file, `${text.slice(0, at + 1)}${lines}\n${text.slice(at + 1)}`);
}

function saggar(words: readonly string[], folder = join(copy, 'example-studio')): string {
  const { stdout, stderr } = spawnSync(process.execPath, [join(copy, 'bin/saggar.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
  });
  return stdout + stderr;
}

function node(...words: string[]): string {
  const { stdout, stderr } = spawnSync(process.execPath, words, { cwd: copy, encoding: 'utf8' });
  return stdout + stderr;
}

function addRule(): void {
  write(
    'src/check/rules/lots-of-one.ts',
    `/** A lot of one piece tells little of what a piece costs. */
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const LOT_OF_ONE: Rule = {
  name: 'lot-of-one',
  severity: 'warning',
  about: 'A lot has a single piece.',
  looks: [
    each('pieces', (lot, { say }) => {
      if (lot.made === 1)
        say({ at: spot(lot, 'made'), message: 'it is a single piece', hint: 'make more' });
    }),
  ],
};
`,
  );
  insert(
    'src/check/rules.ts',
    'import { LOAD_RULES }',
    "import { LOT_OF_ONE } from './rules/lots-of-one.ts';",
  );
  insert('src/check/rules.ts', '  ...LOAD_RULES', '  LOT_OF_ONE,');
}

function addReport(): void {
  write(
    'src/report/kiln-use.ts',
    `/** Use of kilns: how often each was fired. */
import type { Book, Day } from '../book.ts';
import { tableHead, withRows } from './head.ts';
import type { Table } from './table.ts';

export function kilnUseTable(book: Book, asOf: Day): Table {
  const firings = [...book.firings.values()];
  const rows = [...book.kilns.values()].map(({ id, name }) => ({
    kiln: id,
    name,
    firings: firings.filter(({ kiln }) => kiln === id).length,
  }));
  return {
    report: 'kiln-use',
    title: 'Use of kilns',
    ...tableHead(book, asOf),
    ...withRows(
      [
        { key: 'kiln', title: 'Kiln', type: 'id' },
        { key: 'name', title: 'Name', type: 'text' },
        { key: 'firings', title: 'Firings', type: 'count' },
      ],
      rows,
    ),
    notes: [],
  };
}
`,
  );
  write(
    'src/commands/reports/kiln-use.ts',
    `/** \`saggar kiln-use\`: how often each was fired. */
import { kilnUseTable } from '../../report/kiln-use.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';

export const kilnUse: Report<OptionsOf<'kiln-use'>> = {
  table: ({ book, asOf }) => kilnUseTable(book, asOf),
};
`,
  );
  insert(
    'src/commands/report-commands.ts',
    "  {\n    name: 'costs'",
    "  {\n    name: 'kiln-use',\n    about: 'say how often each kiln was fired',\n    examples: ['saggar kiln-use'],\n    options: [...OF_ANY_TIME],\n  },",
  );
  insert(
    'src/commands/load.ts',
    '  costs: ',
    "  'kiln-use': showing(async () => (await import('./reports/kiln-use.ts')).kilnUse),",
  );
}

/** Shelves: a definition that has a name, and moves nothing. */
function addKind(): void {
  const tariffs = readFileSync(join(copy, 'schema/reclaimed.json'), 'utf8');
  const schema = JSON.parse(tariffs) as {
    $defs: { record: { properties: Record<string, object> } };
  };
  const { checked, note } = schema.$defs.record.properties;
  const name = { ...note, title: 'Name', description: 'What it is called.', examples: ['Window'] };
  const shelf = { name: 'Window' };
  const record = {
    ...schema.$defs.record,
    title: 'Shelf',
    description: 'A shelf in the studio.',
    examples: [shelf],
    required: ['name'],
    properties: { name, checked, note },
  };
  const whole = {
    ...schema,
    $id: 'shelves.json',
    title: 'Shelves',
    description: "Shelves in the studio. Each key at the margin is a record's id.",
    'x-moves': 'nothing',
    examples: [{ window: shelf }],
    $defs: { record },
  };
  write('schema/shelves.json', JSON.stringify(whole, undefined, 2));
  insert('schema/build/shapes.js', "  'channels',", "  'shelves',");
  insert('src/book.ts', "  'channels',\n] as const", "  'shelves',");
  insert('src/book.ts', '  readonly channels: ', '  readonly shelves: Shelf;');
  insert(
    'src/book.ts',
    'export const DEFINITION_KINDS',
    "import type { Shelf } from './definitions.ts';",
  );
  insert(
    'src/definitions.ts',
    'export interface Tariff ',
    'export interface Shelf extends Entry {\n  readonly name: string;\n}\n',
  );
  insert('src/check/finding.ts', '  channels: ', "  shelves: 'shelf',");
  insert('src/entry/examples.ts', '  channels: ', "  shelves: ['--name', 'Window'],");
  insert('src/entry/questions/usual.ts', '  channels: ', "  shelves: ['name'],");
  insert('src/commands/completing/id-answers.ts', '  channels: ', "  shelves: ['name'],");
  insert('tests/bench/writing.js', '  channels: ', "  shelves: 'name: Window\\n',");
}

describe.runIf(IS_LONG)('what the recipes make (in the long tier)', () => {
  beforeAll(() => {
    copy = mkdtempSync(join(tmpdir(), 'saggar-recipes-'));
    for (const part of PARTS.split(' '))
      cpSync(join(ROOT, part), join(copy, part), { recursive: true });
    symlinkSync(join(ROOT, 'node_modules'), join(copy, 'node_modules'));
    addRule();
    addReport();
    addKind();
    expect(node('schema/build/build.js')).toBe('');
  });
  afterAll(() => {
    rmSync(copy, { recursive: true, force: true });
  });

  it('is sound to the compiler', () => {
    const include = ['src', 'bin', 'schema/build', 'tests/bench/*.js'];
    write('tsconfig.recipes.json', JSON.stringify({ extends: './tsconfig.json', include }));
    expect(node('node_modules/typescript/bin/tsc', '--noEmit', '-p', 'tsconfig.recipes.json')).toBe(
      '',
    );
  });

  it('is a rule that finds, is listed and is on its page', () => {
    const studio = tempStudio({
      'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: USD\n',
      'products.yaml': 'mug: { name: Mug, price: 20 }\n',
      'pieces.yaml': 'p1: { date: 2026-01-02, product: mug, made: 1 }\n',
    });
    expect(saggar(['check', '--as-of', '2026-02-01'], studio)).toContain('[lot-of-one]');
    expect(saggar(['check', '--rules'])).toContain('A lot has a single piece.');
    expect(readFileSync(join(copy, 'schema/rules.md'), 'utf8')).toContain('**lot-of-one**');
  });

  it('is a report that is shown, and is in help, completion, manual and bench', () => {
    expect(saggar(['kiln-use', '--as-of', '2026-06-30'])).toMatch(/^big-kiln +.* +\d+$/m);
    expect(saggar(['kiln-use', '--as', 'json', '--as-of', '2026-06-30'])).toContain(
      '"report": "kiln-use"',
    );
    expect(saggar(['--help'])).toContain('say how often each kiln was fired');
    expect(saggar(['complete-words', '--', 'kil'])).toMatch(/^kiln-use\t/m);
    expect(saggar(['man'])).toContain('how often each kiln was fired');
    const rows = `import { reportRows } from './tests/bench/rows.js';
      console.log(JSON.stringify(reportRows({ firing: 'f', fair: 'k' })));`;
    expect(node('--input-type=module', '-e', rows)).toContain('"kiln-use"');
  });

  it('is a kind that is added, checked, completed, on the page of fields and measured', () => {
    const studio = tempStudio({ 'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: USD\n' });
    expect(
      saggar(['add', 'shelves', '--name', 'Window', '--as-of', '2026-02-01'], studio),
    ).toContain('to shelves.yaml');
    writeFileSync(join(studio, 'shelves.yaml'), 'door: { nam: Door }\n');
    expect(saggar(['check', '--as-of', '2026-02-01'], studio)).toMatch(
      /a shelf has no field "nam"/,
    );
    expect(saggar(['add', 'shelves', '--help'])).toContain('--name');
    expect(saggar(['complete-words', '--', 'add', 'shel'])).toMatch(/^shelves/m);
    expect(readFileSync(join(copy, 'schema/README.md'), 'utf8')).toMatch(/shelves/);
  });
});
