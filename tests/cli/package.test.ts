/** What `npm pack` makes: that it carries what runs and nothing else, and that it installs and runs. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_DAY, builtProgram } from '../helpers/program.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  version: string;
};

/** A folder of its own for all: the archive, what it is installed to, a home. */
let folder = '';
let installed = '';

interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

function run(program: string, words: readonly string[], cwd = folder): Ran {
  const env = {
    PATH: process.env['PATH'],
    HOME: folder,
    npm_config_cache: join(folder, 'npm'),
    npm_config_update_notifier: 'false',
    NO_COLOR: '1',
  };
  return spawnSync(program, words, { cwd, env, encoding: 'utf8' });
}

const saggar = (...words: string[]): Ran => run(join(folder, 'prefix/bin/saggar'), words);

beforeAll(async () => {
  await builtProgram();
  folder = mkdtempSync(join(tmpdir(), 'saggar-package-'));
  // Built just now: packing does it by itself, beside other tests that use what is built.
  const words = ['pack', '--ignore-scripts', '--silent', '--pack-destination', folder];
  const packed = run('npm', words, ROOT);
  expect(packed).toMatchObject({ status: 0, stderr: '' });
  const archive = join(folder, packed.stdout.trim());
  const prefix = join(folder, 'prefix');
  const ran = run('npm', ['install', '--global', '--offline', '--prefix', prefix, archive]);
  expect(ran).toMatchObject({ status: 0, stderr: '' });
  installed = join(prefix, 'lib/node_modules/saggar');
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** All files below a folder. */
function filesIn(place: string): string[] {
  return readdirSync(place, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(place.length + 1))
    .sort();
}

/** What may be in it, each with what it is for. */
const CARRIED: readonly RegExp[] = [
  /^(package\.json|README\.md|LICENSE|CHANGELOG\.md)$/,
  // What runs, its manual page, and the licences of what is in it.
  /^bin\/(saggar\.js|package\.json)$/,
  /^dist\/(cli\.cjs|rest\.cjs|saggar\.1|LICENCES)$/,
  // What editors go by, what a new studio is made of, and the pages that the README leads to.
  /^schema\/([a-z]+\.json|README\.md|rules\.md)$/,
  /^schema\/(tax-sheets|leach-limits|lists|for-git|new-studio|output)\//,
  /^src\/reckon\/README\.md$/,
  /^example-studio\/(.+\.yaml|README\.md|\.gitattributes)$/,
];

describe('the package', () => {
  it('carries what runs and nothing else', () => {
    const files = filesIn(installed);
    expect(files.filter((file) => !CARRIED.some((part) => part.test(file)))).toEqual([]);
    const idle = CARRIED.filter((part) => !files.some((file) => part.test(file)));
    expect(idle).toEqual([]);
    expect(files.filter((file) => file.startsWith('dist/'))).toEqual([
      ...['dist/LICENCES', 'dist/cli.cjs', 'dist/rest.cjs', 'dist/saggar.1'],
    ]);
  });

  it('needs no other package, and has the licence of each that is in it', () => {
    expect(existsSync(join(installed, 'node_modules'))).toBe(false);
    const about = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8')) as object;
    expect(about).not.toHaveProperty('dependencies');
    const licences = readFileSync(join(installed, 'dist/LICENCES'), 'utf8');
    for (const name of ['commander', 'yaml', 'decimal.js', 'cli-table3', 'csv-parse', 'fflate'])
      expect(licences).toMatch(new RegExp(`^${name}\\n\\n`, 'm'));
  });

  it('has the pages that its README leads to', () => {
    const readme = readFileSync(join(installed, 'README.md'), 'utf8');
    const links = [...readme.matchAll(/\]\(([^)#:]+)\)/g)].map(([, link = '']) => link);
    const missing = links.filter((link) => !existsSync(join(installed, link)));
    // Of use in a clone alone.
    expect(missing).toEqual(['DEVELOPERS.md']);
  });

  it('puts the manual page where man looks for it', () => {
    const page = readFileSync(join(folder, 'prefix/share/man/man1/saggar.1'), 'utf8');
    expect(page).toBe(saggar('man').stdout);
  });

  it('says its version, checks the example and begins a studio', () => {
    expect(saggar('--version')).toMatchObject({ status: 0, stdout: `${version}\n`, stderr: '' });
    const example = join(installed, 'example-studio');
    const checked = saggar('check', '--studio', example, '--as-of', EXAMPLE_DAY);
    expect(checked).toMatchObject({ status: 0, stderr: '' });
    expect(checked.stdout).toMatch(/\n5 warnings\.\n$/);
    expect(saggar('init', 'mine', '--with', 'hooks')).toMatchObject({ status: 0, stderr: '' });
    expect(existsSync(join(folder, 'mine/.schema/studio.json'))).toBe(true);
    expect(existsSync(join(folder, 'mine/.githooks/pre-commit'))).toBe(true);
  });

  it('keeps what was compiled beside the program, for the next run', () => {
    const example = join(installed, 'example-studio');
    const words = ['pieces', '--studio', example, '--as-of', EXAMPLE_DAY];
    const first = saggar(...words);
    const [mark = ''] = filesIn(join(installed, 'dist')).filter((file) => file.includes('with-p'));
    expect(mark).toMatch(new RegExp(`^compiled/${version}-\\w+-v[\\d.]+-\\w+/with-pieces-1$`));
    expect(saggar(...words)).toMatchObject({ status: 0, stderr: '', stdout: first.stdout });
  });
});
