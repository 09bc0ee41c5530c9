/** The diff of a dry run is one that git would make, and leads from the old text to the new. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { unifiedDiff } from '../../src/write/diff.ts';
import { holds } from '../helpers/law.ts';

const folder = mkdtempSync(join(tmpdir(), 'diff-'));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** What git makes of the two texts, from the first hunk on. */
function gitHunks(before: string, after: string): string {
  writeFileSync(join(folder, 'old'), before);
  writeFileSync(join(folder, 'new'), after);
  const options = [
    '--no-index',
    '--no-color',
    '--minimal',
    '--no-indent-heuristic',
    '--no-ext-diff',
  ];
  const { stdout } = spawnSync('git', ['diff', ...options, 'old', 'new'], {
    cwd: folder,
    encoding: 'utf8',
    env: {
      PATH: process.env['PATH'],
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_SYSTEM: '/dev/null',
    },
  });
  return hunks(stdout);
}

function hunks(diff: string): string {
  const at = diff.search(/^@@/m);
  return at < 0 ? '' : diff.slice(at);
}

function ours(before: string, after: string): string {
  return unifiedDiff({ file: 'sales/2026-03.yaml', before, after });
}

const records = (from: number, to: number) =>
  Array.from(
    { length: to - from },
    (_, i) => `s${from + i}:\n  date: 2026-03-0${i}\n  price: 1${i}\n`,
  );

describe('the same as git, byte for byte, for', () => {
  const ten = records(0, 10).join('');
  test.each([
    ['an added record', ten, `${ten}s10:\n  date: x\n`],
    ['a changed scalar', ten, ten.replace('price: 15', 'price: 99')],
    ['two changes far apart', ten, ten.replace('price: 11', 'a: 1').replace('price: 18', 'b: 2')],
    ['two changes close by', ten, ten.replace('price: 11', 'a: 1').replace('price: 13', 'b: 2')],
    ...[5, 6, 7, 8].map((gap): [string, string, string] => [
      `two changes ${gap} lines apart`,
      `a\n${'x\n'.repeat(gap)}b\n`,
      `A\n${'x\n'.repeat(gap)}B\n`,
    ]),
    ['a removed record', ten, ten.replace(records(0, 5).at(-1)!, '')],
    ['an added field', ten, ten.replace('price: 14\n', 'price: 14\n  paid: no\n')],
    ['a new final newline', ten.trimEnd(), ten],
    ['a lost final newline', ten, ten.trimEnd()],
    ['a record after a missing newline', ten.trimEnd(), `${ten}s10: {}\n`],
    ['a new file', '', ten],
    ['an emptied file', ten, ''],
    ['one line for another', 'a\n', 'b\n'],
    ['CRLF', 'a: 1\r\nb: 2\r\n', 'a: 1\r\nb: 3\r\n'],
  ])('%s', (_, before, after) => {
    expect(hunks(ours(before, after))).toBe(gitHunks(before, after));
  });
});

test('names the file, and no file for one that is new or goes', () => {
  const head = (before: string | undefined, after: string | undefined) =>
    unifiedDiff({ file: 'a/b.yaml', before, after }).split('\n').slice(0, 2);
  expect(head('x\n', 'y\n')).toEqual(['--- a/a/b.yaml', '+++ b/a/b.yaml']);
  expect(head(undefined, 'y\n')).toEqual(['--- /dev/null', '+++ b/a/b.yaml']);
  expect(head('x\n', undefined)).toEqual(['--- a/a/b.yaml', '+++ /dev/null']);
});

test('is empty where nothing changed', () => {
  expect(ours('a\nb\n', 'a\nb\n')).toBe('');
});

const text = fc
  .tuple(fc.array(fc.constantFrom('a', 'b', 'c', '', ' d'), { maxLength: 40 }), fc.boolean())
  .map(([lines, ends]) => lines.join('\n') + (ends && lines.length > 0 ? '\n' : ''));

/** How many lines a diff takes out and puts in. */
function size(diff: string): number {
  return hunks(diff)
    .split('\n')
    .filter((line) => /^[-+]/.test(line)).length;
}

test('git applies it to the old text and gets the new', () => {
  holds(
    fc.property(text, text, (before, after) => {
      if (before === after || before === '' || after === '') return;
      const target = join(folder, 'applied');
      writeFileSync(target, before);
      writeFileSync(join(folder, 'patch'), unifiedDiff({ file: 'applied', before, after }));
      execFileSync('git', ['apply', '--whitespace=nowarn', 'patch'], { cwd: folder });
      expect(readFileSync(target, 'utf8')).toBe(after);
    }),
    60,
  );
});

test("is never longer than git's shortest", () => {
  holds(
    fc.property(text, text, (before, after) => {
      expect(size(ours(before, after))).toBeLessThanOrEqual(size(gitHunks(before, after)));
    }),
    100,
  );
});

test('gives up the search, not the truth, where nearly everything changed', () => {
  const before = Array.from({ length: 1500 }, (_, i) => `a${i}\n`).join('');
  const after = before.replaceAll('a', 'b').replace('b700\n', 'a700\n');
  const diff = ours(before, after);
  expect(size(diff)).toBe(3000);
  expect(diff).toContain('\n@@ -1,1500 +1,1500 @@\n');
});
