import { cpSync, readdirSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import {
  EXAMPLE_DAY,
  builtProgram,
  demoCopy,
  emptyFolder,
  runShell,
  type Ran,
} from '../helpers/program.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** A copy of the built program, of which parts can be taken away. */
async function programCopy(): Promise<string> {
  await builtProgram();
  const copy = emptyFolder();
  for (const part of ['bin', 'dist', 'package.json'])
    cpSync(join(ROOT, part), join(copy, part), { recursive: true });
  symlinkSync(join(ROOT, 'schema'), join(copy, 'schema'));
  return copy;
}

test('help and a mistake need only the small first file', async () => {
  const program = await programCopy();
  const studio = demoCopy();
  const run = (words: string): Promise<Ran> =>
    runShell(['sh', '-c'], `node ${program}/bin/saggar.js ${words}`, { folder: studio });
  rmSync(join(program, 'dist/rest.cjs'));
  expect((await run('--version')).status).toBe(0);
  expect(await run('materails')).toMatchObject({ status: 2, out: '' });
  // A report needs all of the program, so that something was really missing.
  expect((await run(`pieces --as-of ${EXAMPLE_DAY}`)).err).toContain('rest.cjs');
});

test('compiled code is kept for each command, and without it, or with what is none, all is the same', async () => {
  const program = await programCopy();
  const studio = demoCopy();
  const compiled = join(program, 'dist/compiled');
  rmSync(compiled, { recursive: true, force: true });
  const run = (words: string): Promise<Ran> =>
    runShell(['sh', '-c'], `node ${program}/bin/saggar.js ${words} --as-of ${EXAMPLE_DAY}`, {
      folder: studio,
      env: { SAGGAR_MEMORY: 'none' },
    });
  const first = await run('firings');
  expect(first).toMatchObject({ status: 0, err: '' });
  const [place = ''] = readdirSync(compiled);
  const kept = (): string[] => readdirSync(join(compiled, place)).sort();
  expect(kept()).toEqual(['cli', 'rest', 'with-firings-1']);
  const sizes = [statSync(join(compiled, place, 'rest')).size];
  expect(await run('firings')).toEqual(first);
  await run('pieces');
  await run('no-such-command');
  sizes.push(statSync(join(compiled, place, 'rest')).size);
  expect(kept()).toEqual(['cli', 'rest', 'with-firings-1', 'with-firings-2', 'with-pieces-1']);
  // What only the second command needs came to what the first one needs.
  expect(sizes[1]).toBeGreaterThan(sizes[0] ?? 0);
  // What V8 doesn't take is made anew.
  writeFileSync(join(compiled, place, 'rest'), 'no code');
  expect(await run('firings')).toEqual(first);
  expect(statSync(join(compiled, place, 'rest')).size).toBeGreaterThan(100_000);
  rmSync(compiled, { recursive: true, force: true });
  writeFileSync(compiled, 'a folder that nothing can be kept in');
  expect(await run('firings')).toEqual(first);
});
