/** Clones that do not have all: on the disk, where a checkout is sparse, or in git, where a clone is partial. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords } from '../../src/commands/records/add.ts';
import { day } from '../../src/commands/reports/day.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { check } from '../../src/commands/review/check.ts';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const income = await loadCommand('income');

/** A clone without the contents that only an earlier commit has, which sold at another price. */
function partialClone(): string {
  const from = inGit(small());
  const sales = SMALL_STUDIO['sales/2026-04.yaml'] ?? '';
  writeFileSync(join(from, 'sales/2026-04.yaml'), sales.replace('price: 36', 'price: 37'));
  commitAll(from, 'Dearer');
  git(from, 'config', 'uploadpack.allowFilter', 'true');
  const folder = join(tempStudio({}), 'clone');
  git(from, 'clone', '-q', '--filter=blob:none', `file://${from}`, folder);
  return folder;
}

const PARTIAL =
  'saggar: this is a partial clone, which does not have all that was committed; fetch the rest first: git fetch --refetch --no-filter\n';

describe('a partial clone', () => {
  it.each([
    ['check', (folder: string) => run(check, folder, { options: { at: 'HEAD~1' } })],
    ['income', (folder: string) => run(income, folder, { options: { at: 'HEAD~1' } })],
    ['day', (folder: string) => run(day, folder, { options: { at: 'HEAD~1' } })],
    ['review', (folder: string) => run(review, folder, { words: ['HEAD~1'] })],
    ['review of two', (folder: string) => run(review, folder, { words: ['HEAD~1..HEAD'] })],
  ])('is told by %s what is not here, and how to get it', async (_, ask) => {
    const folder = partialClone();
    expect(await ask(folder)).toEqual({ status: 2, out: '', err: PARTIAL });
    git(folder, 'fetch', '-q', '--refetch', '--no-filter');
    const { status, err } = await ask(folder);
    expect([status, err]).toEqual([0, '']);
  });

  it('has what is here', async () => {
    const folder = partialClone();
    expect((await run(check, folder, { options: { at: 'HEAD' } })).err).toBe('');
    expect((await run(review, folder, { words: ['HEAD'] })).out).toMatch(/^Nothing changed\./);
  });
});

const SPARSE =
  'so no record there is counted; to have all: git sparse-checkout disable, or the book as it was committed: --at HEAD\n';

const HIDDEN =
  'is committed, and this checkout, which is sparse, leaves it out; have it here first: git sparse-checkout disable\n';

describe('a sparse checkout', () => {
  it.each([
    [['--no-cone', '/*', '!/sales/', '!/pieces/'], 'pieces/p260301ab.yaml and 2 more'],
    [['--cone', '--sparse-index', 'pieces', 'sales'], 'advances/ and 5 more'],
  ])('with %j is told by check and reports which files it leaves out', async (words, files) => {
    const folder = inGit(small());
    git(folder, 'sparse-checkout', 'set', ...words);
    const said = `saggar: this checkout is sparse and leaves out ${files}, ${SPARSE}`;
    for (const command of [check, income, day]) {
      expect((await run(command, folder)).err).toContain(said);
      expect((await run(command, folder, { options: { at: 'HEAD' } })).err).toBe('');
    }
    git(folder, 'sparse-checkout', 'disable');
    for (const command of [check, income, day]) expect((await run(command, folder)).err).toBe('');
  });

  it.each([
    [['--no-cone', '/*', '!/sales/'], 'sales/2026-04.yaml'],
    [['--cone', '--sparse-index', 'advances', 'pieces', 'firings', 'fairs'], 'sales/'],
  ])('with %j is given no new file in the place of one that it leaves out', async (left) => {
    const folder = inGit(small());
    git(folder, 'sparse-checkout', 'set', ...left);
    const words = ['sales', '--channel', 'market', '--date', '2026-04-20', '--line', '1 mug at 24'];
    const added = (dryRun: boolean) => run(addRecords, folder, { words, options: { dryRun } });
    for (const dryRun of [true, false]) {
      const { status, err } = await added(dryRun);
      expect(err).toContain(`saggar: nothing was written: sales/2026-04.yaml ${HIDDEN}`);
      expect(status).toBe(1);
    }
    expect(git(folder, 'status', '--porcelain')).toBe('');
    git(folder, 'sparse-checkout', 'disable');
    expect((await added(false)).err).not.toContain(HIDDEN);
  });

  it('of what is no part of the book is not spoken of', async () => {
    const folder = small();
    writeFileSync(join(folder, 'notes.txt'), 'x\n');
    git(inGit(folder), 'sparse-checkout', 'set', '--no-cone', '/*', '!/notes.txt');
    expect((await run(check, folder)).err).toBe('');
  });
});
