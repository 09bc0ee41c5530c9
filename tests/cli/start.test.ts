import { cpSync, rmSync, symlinkSync } from 'node:fs';
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

test('compiled code is of use only to what it was made of: without it all is the same', async () => {
  const program = await programCopy();
  const studio = demoCopy();
  const run = (): Promise<Ran> =>
    runShell(['sh', '-c'], `node ${program}/bin/saggar.js firings --as-of ${EXAMPLE_DAY}`, {
      folder: studio,
    });
  const before = await run();
  expect(before).toMatchObject({ status: 0, err: '' });
  for (const name of ['cli', 'rest']) rmSync(join(program, `dist/${name}.compiled`));
  await runShell(['sh', '-c'], 'saggar forget', { folder: studio });
  expect(await run()).toEqual(before);
});
