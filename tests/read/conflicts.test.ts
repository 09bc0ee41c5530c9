import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sideOf, unsettledIn } from '../../src/read/yaml/conflicts.ts';
import { holds } from '../helpers/law.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { full, plainly } from './support/readers.ts';
import { cases } from '../helpers/tier.ts';

type Records = ReadonlyMap<string, string>;

const someRecords: fc.Arbitrary<Records> = fc
  .uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 8 })
  .chain((ids) =>
    fc
      .array(fc.constantFrom('door', 'fair', 'shop'), {
        minLength: ids.length,
        maxLength: ids.length,
      })
      .map((words) => new Map(ids.sort().map((id, at) => [`s${id}`, words[at] ?? '']))),
  );

function written(records: Records): string {
  return [...records]
    .map(([id, word]) => `${id}:\n  date: 2026-03-01\n  channel: ${word}\n  paid: no\n`)
    .join('');
}

/** What git makes of two versions of a file and the one that both come from. */
function merged(folder: string, texts: readonly string[], ...how: readonly string[]): string {
  const names = ['ours', 'base', 'theirs'];
  names.forEach((name, at) => {
    writeFileSync(join(folder, name), texts[at] ?? '');
  });
  const run = spawnSync('git', ['merge-file', '-p', ...how, ...names], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(run.stderr).toBe('');
  return run.stdout;
}

test('the two sides are what git makes of them when told to take one', () => {
  const folder = tempStudio({});
  let conflicts = 0;
  holds(
    fc.property(someRecords, someRecords, someRecords, (...versions) => {
      const texts = versions.map(written);
      const text = merged(folder, texts);
      const unsettled = unsettledIn(text);
      if (!unsettled) return;
      conflicts += 1;
      expect(unsettled.strays).toEqual([]);
      for (const which of ['ours', 'theirs'] as const)
        expect(sideOf(text, unsettled.conflicts, which).text).toBe(
          merged(folder, texts, `--${which}`),
        );
      const base = unsettledIn(merged(folder, texts, '--diff3'));
      expect(base?.conflicts.every(({ hasBase }) => hasBase)).toBe(true);
    }),
    15,
  );
  expect(conflicts).toBeGreaterThan(cases(5));
});

test('what is given of a file is what both sides have, and never of one side alone', () => {
  const folder = tempStudio({});
  let given = 0;
  holds(
    fc.property(someRecords, someRecords, someRecords, (...versions) => {
      const texts = versions.map(written);
      const text = merged(folder, texts);
      const unsettled = unsettledIn(text);
      if (!unsettled) return;
      const sides = (['ours', 'theirs'] as const).map(
        (which) => full(sideOf(text, unsettled.conflicts, which).text).root,
      );
      const { root, findings } = full(text);
      for (const [id, record] of Object.entries(root)) {
        given += 1;
        for (const side of sides) expect(plainly(side[id] ?? '')).toEqual(plainly(record));
      }
      const conflicts = findings.filter(({ rule }) => rule === 'merge-conflict');
      expect(conflicts).toHaveLength(unsettled.conflicts.length);
    }),
    15,
  );
  expect(given).toBeGreaterThan(cases(5));
});
