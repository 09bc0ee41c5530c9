/** The grown studio is what the benchmark says it is, and the benchmark's arithmetic is right. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseDocument } from 'yaml';
import { checkFiles } from '../helpers/check-files.ts';
import { growth, median, ratio, verdict } from './arithmetic.js';
import { branchOf } from './branch.js';
import { AS_OF, grow, writeGrown } from './grow.js';
import { summarise } from './summary.js';

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

  it.each(['2024', '2025'])('has about 4,000 records in 280 files in %s, mostly sales', (year) => {
    const events = rows.filter(({ record }) => String(record['date']).startsWith(year));
    const count = (kind: string) => events.filter((row) => row.kind === kind).length;
    const within = (low: number, high: number) => (value: number) => low <= value && value <= high;
    expect(events.length).toSatisfy(within(3400, 4600));
    expect(count('sales')).toSatisfy(within(events.length / 2, events.length));
    expect(count('pieces')).toSatisfy(within(60, 115));
    expect(count('firings')).toSatisfy(within(45, 70));
    expect(count('mixed')).toSatisfy(within(18, 34));
    expect(new Set(events.map(({ path }) => path)).size).toSatisfy(within(200, 320));
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

  it('tells growth in time from growth for each megabyte', () => {
    const small = { ms: 200, bytes: 5_000_000 };
    expect(growth(small, { ms: 2400, bytes: 60_000_000 })).toEqual({ times: 12, perMegabyte: 1 });
    expect(growth(small, { ms: undefined, bytes: 1 })).toEqual({
      times: undefined,
      perMegabyte: undefined,
    });
  });

  it('says whether a target is met', () => {
    expect(verdict(2, { limit: 2 })).toBe('met');
    expect(verdict(2.01, { limit: 2 })).toBe('missed');
    expect(verdict(2, { limit: 2, below: true })).toBe('missed');
    expect(verdict(undefined, { limit: 2 })).toBe('not measured');
  });

  it('compares each job with the floor, and with the loader on the same files', () => {
    const result = (
      name: string,
      [years, kind, ms]: [number | undefined, 'cold' | 'warm' | undefined, number],
    ) => ({
      job: { name, years, kind, argv: [], runs: 1, prepare: () => undefined },
      times: [ms],
      ms,
      cpuMs: ms,
      peakMb: years === 100 ? 2000 : 100,
    });
    const studio = (years: number, bytes: number) => ({
      folder: '',
      years,
      bytes,
      files: 1,
      records: 1,
    });
    const {
      lines,
      growth: growths,
      targets,
    } = summarise(
      [
        result('node -e 0', [undefined, undefined, 50]),
        result('check', [10, 'cold', 400]),
        result('materials', [10, 'warm', 90]),
        result('check', [10, 'warm', 300]),
        result('review', [10, 'cold', 900]),
        result('review', [10, 'warm', 480]),
        result('PyYAML CSafeLoader', [1, undefined, 100]),
        result('PyYAML CSafeLoader', [10, undefined, 1600]),
        result('check', [100, 'cold', 4800]),
      ],
      [studio(10, 1000), studio(100, 10_000)],
    );
    expect(lines[1]).toMatchObject({ toFloor: 8, toLoader: 0.25, runs: 1 });
    expect(growths[0]).toEqual({ name: 'check', kind: 'cold', times: 12, perMegabyte: 1.2 });
    const states = Object.fromEntries(
      targets.map(({ name, value, state }) => [name, [value, state]]),
    );
    expect(states).toMatchObject({
      'warm materials, 10 years, to node -e 0': [1.8, 'met'],
      'cold check, 10 years, to CSafeLoader': [0.25, 'met'],
      'warm review of 20 files, 10 years, to warm check': [1.6, 'missed'],
      'cold check, from 10 to 100 years': [12, 'missed'],
      'warm check, from 10 to 100 years': [undefined, 'not measured'],
      'peak memory, 100 years': [2000, 'missed'],
    });
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
  }, 60_000);
});

describe('the harness', () => {
  let home = '';
  const script = fileURLToPath(new URL('run.js', import.meta.url));
  /** Notes how it was called and whether the studio had a cache, then leaves one behind. */
  const program = `
    import { appendFileSync, existsSync, mkdirSync } from 'node:fs';
    const at = process.argv.indexOf('--studio') + 1;
    const cache = process.env.SAGGAR_MEMORY + process.argv[at];
    appendFileSync(process.env.CALLS, process.argv[2] + (existsSync(cache) ? ' warm' : ' cold') + '\\n');
    mkdirSync(cache, { recursive: true });
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
    ...'--alone --years 1 --runs 2 --program'.split(' '),
    join(home, name),
  ];

  it('runs each command cold and warm, turn about, and leaves the studio as it was grown', () => {
    const out = execFileSync(process.execPath, [...args('program.mjs'), '--json'], {
      env: env(),
      stdio: 'pipe',
    });
    const calls = readFileSync(join(home, 'calls'), 'utf8').trim().split('\n');
    const touched = 'materials warm';
    const reports = ['check cold', 'check warm', 'materials cold', 'materials warm', touched];
    const adding = ['add cold', 'add warm', 'add warm'];
    const round = [...reports, 'day cold', 'day warm', ...adding];
    expect(calls).toEqual([...round, ...round, ...round, ...round]);
    const { lines } = JSON.parse(String(out)) as {
      lines: { name: string; runs: number; peakMb: number }[];
    };
    expect(lines.filter(({ name }) => name === 'check').map(({ runs }) => runs)).toEqual([2, 2]);
    expect(lines.every(({ peakMb }) => peakMb > 1)).toBe(true);
    const cached = readdirSync(home).find((name) => name.startsWith('saggar-bench-')) ?? '';
    const studio = join(home, cached, 'years-1');
    expect(existsSync(join(home, 'saggar-bench-memory'))).toBe(false);
    for (const { path, text } of grow({ years: 1 }))
      expect(readFileSync(join(studio, path), 'utf8'), path).toBe(text);
  }, 90_000);

  it('fails when the program does, and says why', () => {
    const done = spawnSync(process.execPath, args('failing.mjs'), { env: env(), encoding: 'utf8' });
    expect(done.status).toBe(1);
    expect(done.stderr).toContain('check failed (exit 3)');
    expect(done.stderr).toContain('no such luck');
    expect(done.stdout).toBe('');
  });
});
