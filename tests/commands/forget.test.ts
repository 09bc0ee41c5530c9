import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { forget } from '../../src/commands/studio/forget.ts';
import { run } from '../helpers/command-world.ts';
import { folderOf, namesIn, storeIn } from '../helpers/memory.ts';
import { HILL_STREET } from '../helpers/hill-street.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { changes, filesIn, tempStudio } from '../helpers/temp-studio.ts';

const materials = await loadCommand('materials');

/** A studio of which something is remembered. */
async function known(): Promise<string> {
  const folder = tempStudio(HILL_STREET);
  await run(materials, folder);
  expect(namesIn(storeIn(folder))).toContain('list');
  return folder;
}

describe('saggar forget', () => {
  it('deletes what is remembered of the studio, and nothing of the studio', async () => {
    const [folder, other] = [await known(), await known()];
    const before = filesIn(folder);
    const { status, out, err } = await run(forget, folder);
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(new RegExp(`^Forgot what was remembered of ${folder}: \\d\\.\\d MB\\.\n$`));
    expect(existsSync(folderOf(storeIn(folder)))).toBe(false);
    expect(namesIn(storeIn(other))).toContain('list');
    expect(changes(folder, before)).toEqual({});
  });

  it('with --all deletes what is remembered of every studio, also outside of one', async () => {
    const studios = [await known(), await known()];
    const { status, out } = await run(forget, tempStudio({}), { options: { all: true } });
    expect([status, out]).toEqual([0, expect.stringContaining('every studio')]);
    for (const folder of studios) expect(existsSync(folderOf(storeIn(folder)))).toBe(false);
  });

  it('says so where there is no studio', async () => {
    const { status, err } = await run(forget, tempStudio({}));
    expect([status, err]).toEqual([2, expect.stringContaining('no studio.yaml')]);
  });
});

describe('--afresh', () => {
  it('forgets what is remembered and goes on', async () => {
    const folder = await known();
    storeIn(folder).write('odd', 'from before');
    const plain = await run(materials, folder);
    expect(await run(materials, folder, { options: { afresh: true } })).toEqual(plain);
    const names = namesIn(storeIn(folder));
    expect(names).toContain('list');
    expect(names).not.toContain('odd');
  });
});

describe('check', () => {
  it('names what an earlier version left, once, and counts it as no problem', async () => {
    const folder = tempStudio(HILL_STREET);
    const before = await run(check, folder, { options: { strict: true } });
    mkdirSync(join(folder, '.saggar'));
    const { err, ...said } = await run(check, folder, { options: { strict: true } });
    expect(said).toEqual({ status: before.status, out: before.out });
    expect(err).toContain(`${folder}/.saggar is left over from an earlier version`);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect((await run(materials, folder)).err).toBe('');
  });
});
