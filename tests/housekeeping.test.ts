/** What the tree is made of at the top, and how tests are written. */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

/** What is kept at the top, with the folder of continuous integration. */
const TOP_LEVEL = [
  '.ci .editorconfig .gitattributes .gitignore .npmrc .prettierignore .prettierrc.json',
  'CHANGELOG.md DEVELOPERS.md LICENSE README.md package.json package-lock.json tsconfig.json',
  'bin example-studio schema src tests',
].flatMap((line) => line.split(' '));

it('nothing lies at the top that has a place of its own', () => {
  const { stdout } = spawnSync('git', ['ls-files'], { cwd: ROOT, encoding: 'utf8' });
  const there = new Set(stdout.split('\n').flatMap((file) => file.split('/')[0] ?? []));
  expect([...there].filter((name) => name !== '' && !TOP_LEVEL.includes(name))).toEqual([]);
});

const TESTS = readdirSync(join(ROOT, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.test.ts') && file !== 'housekeeping.test.ts')
  .map((file) => ({ file, text: readFileSync(join(ROOT, 'tests', file), 'utf8') }));

it.each([
  ['puts a law to the test but by what counts its cases', /\bfc\.assert\(/],
  ['stops, or fails, when a time is over', /interruptAfterTimeLimit|\btimeout:|\}, [\d_]{4,}\);/],
])('no test %s', (_, forbidden) => {
  expect(TESTS.filter(({ text }) => forbidden.test(text)).map(({ file }) => file)).toEqual([]);
});
