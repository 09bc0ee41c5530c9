/** The grown studio is what the benchmark says it is, and the benchmark's arithmetic is right. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { parseDocument } from 'yaml';
import { checkFiles } from '../helpers/check-files.ts';
import { KINDS } from '../../src/book.ts';
import { COMMANDS as CATALOGUE, COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import type { CommandSpec } from '../../src/commands/spec.ts';
import { median, ratio } from './arithmetic.js';
import { branchOf } from './branch.js';
import { AS_OF, grow, writeGrown } from './grow.js';
import { OTHERS, reportRows } from './rows.js';
import { linesOf, page } from './summary.js';
import { deeds } from './writing.js';

const twoYears = [...grow({ years: 2 })];

interface Row {
  readonly path: string;
  readonly kind: string;
  readonly id: string;
  readonly record: Record<string, unknown>;
}

function rowsOf({ path, text }: { path: string; text: string }): Row[] {
  const document = parseDocument(text);
  expect([...document.errors, ...document.warnings], path).toEqual([]);
  const records = document.toJS() as Record<string, Record<string, unknown>>;
  const kind = path.replace(/[/.].*/, '');
  return Object.entries(records).map(([id, record]) => ({ path, kind, id, record }));
}

const rows = twoYears.filter(({ path }) => path !== 'studio.yaml').flatMap(rowsOf);

describe('a grown studio', () => {
  it('is the same for the same seed, and another for another', () => {
    expect([...grow({ years: 2 })]).toEqual(twoYears);
    expect([...grow({ years: 2, seed: 2 })]).not.toEqual(twoYears);
  });

  it('has as many records as it says, each with an id of its own', () => {
    const said = twoYears.reduce((sum, { records }) => sum + records, 0);
    expect(rows).toHaveLength(said);
    expect(new Set(rows.map(({ id }) => id.toLowerCase())).size).toBe(said);
    expect(rows.filter(({ id }) => !/^[a-z][a-z\d-]*$/.test(id))).toEqual([]);
  });

  it.each(['2024', '2025'])('has about 4,000 records in 300 files in %s, mostly sales', (year) => {
    const events = rows.filter(({ record }) => String(record['date']).startsWith(year));
    const count = (kind: string) => events.filter((row) => row.kind === kind).length;
    const within = (low: number, high: number) => (value: number) => low <= value && value <= high;
    expect(events.length).toSatisfy(within(3400, 4600));
    expect(count('sales')).toSatisfy(within(events.length / 2, events.length));
    expect(count('pieces')).toSatisfy(within(60, 115));
    expect(count('firings')).toSatisfy(within(45, 70));
    expect(count('mixed')).toSatisfy(within(18, 34));
    expect(new Set(events.map(({ path }) => path)).size).toSatisfy(within(200, 340));
  });

  it('has no date after its last day', () => {
    const dates = twoYears.flatMap(({ text }) => text.match(/\b\d{4}-\d\d-\d\d\b/g) ?? []);
    expect(dates.filter((date) => date > AS_OF)).toEqual([]);
    expect(dates.length).toBeGreaterThan(7000);
  });

  it('has the same definitions however old it is', () => {
    const definitions = (years: number) =>
      [...grow({ years })].filter(({ path }) => !path.includes('/'));
    expect(definitions(1)).toEqual(definitions(2));
    expect(definitions(1)).toHaveLength(8);
  });

  it('passes the check without any problem', () => {
    const files = Object.fromEntries(twoYears.map(({ path, text }) => [path, text]));
    const { book, findings } = checkFiles(files, AS_OF);
    expect(findings).toEqual([]);
    expect(book.sales.size).toBe(rows.filter(({ kind }) => kind === 'sales').length);
  });
});

describe('the arithmetic', () => {
  it('takes the middle of the runs', () => {
    expect(median([30, 10, 20])).toBe(20);
    expect(median([10, 9, 100, 11])).toBe(10.5);
    expect(median([100, 9])).toBe(54.5);
    expect(median([])).toBeNaN();
  });

  it('knows no ratio to nothing', () => {
    expect(ratio(3, 2)).toBe(1.5);
    expect(ratio(3, 0)).toBeUndefined();
    expect(ratio(undefined, 2)).toBeUndefined();
    expect(ratio(3, undefined)).toBeUndefined();
    expect(ratio(Number.NaN, 2)).toBeUndefined();
  });
});

describe('the questions', () => {
  const rows = reportRows({ firing: 'f1', fair: 'k1' });
  const asked = rows.map(({ words }) => words.join(' '));

  it('go to every command of the catalogue', () => {
    const writing = deeds().map(({ words: [name] }) => name ?? '');
    const others = Object.entries(OTHERS).filter(([, lines]) => lines.length > 0);
    const all = new Set([
      ...rows.map(({ name }) => name),
      ...writing,
      ...others.map(([name]) => name),
    ]);
    expect([...CATALOGUE, COMPLETE_WORDS].filter(({ name }) => !all.has(name))).toEqual([]);
  });

  it('have every option that changes figures, and every choice of it', () => {
    expect(asked).toEqual(expect.arrayContaining(['materials', 'losses --by month', 'day --long']));
    expect(asked).toContain('materials --where --from 2025-04-01');
    expect(asked).toContain('quarter --basis accrual');
    expect(asked).toContain('quarter 2019-Q2');
    expect(new Set(asked).size).toBe(asked.length);
  });

  const spec = { name: 'glazes', about: '', examples: [], load: vi.fn() };
  const as = { flags: '--as <format>', about: '' };

  it('end the benchmark where a new command or option has none', () => {
    const ids = { firing: '', fair: '' };
    const rowsOf = (more: Partial<CommandSpec>) => () =>
      reportRows(ids, [{ ...spec, options: [as], ...more }]);
    expect(rowsOf({ options: [] })).toThrow('glazes has no row in tests/bench/rows.js');
    const argument = { form: '[id]', about: '' };
    expect(rowsOf({ argument })).toThrow('glazes has no [id] in tests/bench/rows.js');
    const shade = { flags: '--shade <shade>', about: '' };
    expect(rowsOf({ options: [as, shade] })).toThrow('--shade of glazes has no value');
    expect(
      rowsOf({ options: [as, { ...shade, choices: ['dark'] }] })().map(({ words }) => words),
    ).toEqual([['glazes'], ['glazes', '--as', 'html'], ['glazes', '--shade', 'dark']]);
  });

  it('write a record of every kind', () => {
    const kinds = deeds().flatMap(({ words }) => (words[2] === '-' ? [words[1]] : []));
    expect([...new Set(kinds)].sort()).toEqual([...KINDS].sort());
  });
});

describe('the summary', () => {
  const studio = { folder: '', years: 10, files: 1, records: 1, bytes: 1000 };
  const cases = [
    { name: 'check', command: 'check', times: { never: [100], cold: [600] } },
    {
      name: 'pieces',
      command: 'pieces',
      times: { never: [90, 100, 500], cold: [650], all: [700] },
    },
    { name: 'quarter', command: 'quarter', times: { never: [500], cold: [900] } },
    { name: 'man', command: 'man', times: { never: [80] } },
  ];
  const measured = { studio, floorMs: 50, cases };

  it('has ratios to the floor, the worst beside its target first', () => {
    const lines = linesOf(measured, 2000);
    expect(lines.map(({ name }) => name)).toEqual(['quarter', 'check', 'pieces', 'man']);
    // 500 ÷ 50 = 10 of 2.5 at the most.
    expect(lines[0]).toMatchObject({ worst: 4, figures: { never: { ratio: 10, ofTarget: 4 } } });
    // 100 ÷ 50 = 2 of 2; 600 ÷ 50 = 12 of 0.35 × 2000 ÷ 50 = 14.
    expect(lines[1]?.figures.never).toEqual({ ratio: 2, ofTarget: 1 });
    expect(lines[1]?.figures.cold?.ofTarget).toBeCloseTo(12 / 14);
    // 13 of 1.3 × 12; 14 of 1.1 × 13.
    expect(lines[2]?.figures.cold?.ofTarget).toBeCloseTo(13 / 15.6);
    expect(lines[2]?.figures.all?.ofTarget).toBeCloseTo(14 / 14.3);
  });

  it('prints tables that can be kept', () => {
    const questions = [
      {
        kind: 'used',
        slowest: { prompt: 'Quantity', ms: 160 },
        asked: 4,
        end: 'Save, change or discard?',
      },
      {
        kind: 'bought',
        slowest: { prompt: 'Lines', ms: 170.4 },
        asked: 9,
        end: 'Save, change or discard?',
      },
    ];
    const larger = { ...measured, studio: { ...studio, years: 100 } };
    const text = page({
      measured: [measured, larger],
      loaderMs: 2000,
      questions,
      machine: 'a machine',
    });
    expect(text).toContain(
      'a machine: `node -e 0` takes 50.0 ms, CSafeLoader 2000 ms for all files.',
    );
    expect(text).toContain('Worst: `quarter`, never asked: 10.0 ×, 4.00 of its target.');
    expect(text).toMatch(/^\| command +\| never asked \| space changed \| cold +\|$/m);
    expect(text).toMatch(/^\| `quarter` +\| \*\*10\.0\*\* +\| +\| \*\*18\.0\*\* \|$/m);
    expect(text).toMatch(/bought +\| \*\*170\*\* .*\n\| used /);
    expect(text).toMatch(/^\| `check` +\| 1\.00 +\| 1\.00 +\| NaN/m);
  });
});

describe('the branch', () => {
  it('changes twenty files of the studio and leaves the studio as it is', () => {
    const home = mkdtempSync(join(tmpdir(), 'saggar-branch-'));
    const studio = join(home, 'studio');
    writeGrown(studio, { years: 1 });
    const copy = branchOf(studio);
    const git = (...words: string[]) => execFileSync('git', words, { cwd: copy, encoding: 'utf8' });
    expect(git('diff', '--name-only', 'main').trim().split('\n')).toHaveLength(20);
    expect(git('status', '--porcelain')).toBe('');
    expect(readdirSync(studio)).not.toContain('.git');
    expect(branchOf(studio)).toBe(copy);
    rmSync(home, { recursive: true });
  });
});

describe('the harness', () => {
  let home = '';
  const script = fileURLToPath(new URL('run.js', import.meta.url));
  /** Notes what it was asked of which studio, and what was remembered of that; then remembers that. */
  const program = `
    import { appendFileSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
    import { join } from 'node:path';
    const { SAGGAR_MEMORY: memory, CALLS } = process.env;
    const words = process.argv.slice(2);
    const at = words.indexOf('--studio');
    const line = at === -1 ? words : words.slice(0, at);
    const known = existsSync(join(memory, line[0])) ? 'again' : existsSync(memory) ? 'known' : 'cold';
    appendFileSync(CALLS, JSON.stringify([line.join(' '), known]) + '\\n');
    mkdirSync(memory, { recursive: true });
    writeFileSync(join(memory, line[0]), '');
    if (line[0] === 'amend') writeFileSync(join(words[at + 1], 'studio.yaml'), '');
  `;

  beforeAll(() => {
    home = mkdtempSync(join(tmpdir(), 'saggar-harness-'));
    writeFileSync(join(home, 'program.mjs'), program);
    writeFileSync(join(home, 'failing.mjs'), 'console.error("no such luck"); process.exit(3);');
  });
  afterAll(() => {
    rmSync(home, { recursive: true, force: true });
  });

  const env = () => ({ ...process.env, TMPDIR: home, CALLS: join(home, 'calls') });
  const args = (name: string) => [
    script,
    ...'--alone --quick --years 2 --settle 0 --only pieces,review,amend --program'.split(' '),
    join(home, name),
  ];

  it('asks everything in every state, and leaves the studio as it was grown', () => {
    const out = execFileSync(process.execPath, [...args('program.mjs'), '--json'], {
      env: env(),
      stdio: 'pipe',
    });
    const calls = readFileSync(join(home, 'calls'), 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as [string, string]);
    const known = (line: string) => calls.filter(([said]) => said === line).map(([, each]) => each);
    // The first three are those by which a program is broken in.
    expect(known('pieces').slice(3)).toEqual([
      ...['known', 'again', 'cold', 'known', 'known', 'known', 'known'],
    ]);
    expect(known('pieces --by place')).toEqual(['known', 'again', 'known']);
    const { studios } = JSON.parse(String(out)) as {
      studios: { lines: { name: string; figures: Record<string, unknown> }[] }[];
    };
    const lines = new Map(
      studios[0]?.lines.map(({ name, figures }) => [name, Object.keys(figures)]),
    );
    expect(lines.get('pieces')).toEqual(['never', 'again', 'end', 'back', 'still', 'all', 'cold']);
    expect(lines.get('amend lines.1.count=2')).toEqual(['today', 'year']);
    expect(lines.get('review main')).toEqual(['never', 'cold']);
    const cached = readdirSync(home).find((name) => name.startsWith('saggar-bench-')) ?? '';
    expect(existsSync(join(home, 'saggar-bench-scratch'))).toBe(false);
    for (const { path, text } of grow({ years: 2 })) {
      expect(readFileSync(join(home, cached, 'years-2', path), 'utf8'), path).toBe(text);
      expect(readFileSync(join(home, cached, 'years-2-work', path), 'utf8'), path).toBe(text);
    }
  });

  it('fails when the program does, and says why', () => {
    const done = spawnSync(process.execPath, args('failing.mjs'), { env: env(), encoding: 'utf8' });
    expect(done.status).toBe(1);
    expect(done.stderr).toContain('failed (exit 3)');
    expect(done.stderr).toContain('no such luck');
    expect(done.stdout).toBe('');
  });
});
