/** Studios in a repository that has no files beside it. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { day } from '../../src/commands/reports/day.ts';
import { check } from '../../src/commands/review/check.ts';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

function bareOf(folder: string): string {
  git(folder, 'branch', '-M', 'main');
  const bare = join(tempStudio({}), 'book.git');
  git(folder, 'clone', '-q', '--bare', '.', bare);
  return bare;
}

/** Two studios in one repository, with a branch on which one of them spends. */
function twoStudios(): string {
  const root = tempStudio({ 'README.md': 'x\n' });
  for (const place of ['books/hill', 'books/vale'])
    for (const [file, text] of Object.entries(SMALL_STUDIO)) {
      const path = join(root, place, file);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, text.replace('Small studio', place));
    }
  git(root, 'init', '-q', '-b', 'main');
  commitAll(root, 'Begin');
  git(root, 'checkout', '-qb', 'work');
  const spent = 'e1:\n  date: 2026-04-01\n  to: Pit\n  for: tools\n  amount: 5\n';
  writeFileSync(join(root, 'books/vale/spent.yaml'), spent);
  commitAll(root, 'Spend');
  git(root, 'checkout', '-qb', 'wrong');
  writeFileSync(join(root, 'books/vale/spent.yaml'), spent.replace('5', 'five'));
  commitAll(root, 'Spend five');
  git(root, 'checkout', '-q', 'main');
  return bareOf(root);
}

describe('a studio in a bare repository', () => {
  it('is read by a commit', async () => {
    const bare = bareOf(inGit(small()));
    const { status, out, err } = await run(day, bare, { options: { at: 'main' } });
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(/^Small studio · Friday 2026-05-01 · USD · at main \([0-9a-f]{7}\)$/m);
    expect((await run(check, bare, { options: { at: 'main' } })).status).toBe(0);
  });

  it('wants to know which commit, and that it is there', async () => {
    const bare = bareOf(inGit(small()));
    expect(await run(day, bare, {})).toEqual({
      status: 2,
      out: '',
      err: 'saggar: a bare repository has no working tree; name a commit, such as --at main\n',
    });
    const { err } = await run(day, bare, { options: { at: 'nothing' } });
    expect(err).toContain('git knows no commit "nothing" here');
  });

  it('is chosen by its path where there are several', async () => {
    const bare = twoStudios();
    const at = { at: 'main' };
    const asked = await run(day, bare, { options: at });
    expect(asked.err).toBe(
      'saggar: main has more than one studio; name it: --studio books/hill or --studio books/vale\n',
    );
    for (const studio of ['books/vale', join(bare, 'books/vale'), 'books/vale/']) {
      const { out } = await run(day, bare, { options: { ...at, studio } });
      expect(out).toMatch(/^books\/vale · /);
    }
    const wrong = await run(day, bare, { options: { ...at, studio: 'books/none' } });
    expect(wrong.err).toContain('main has no studio.yaml in books/none; name it: --studio');
    const words = ['main', 'work'];
    const vale = await run(review, bare, { words, options: { studio: 'books/vale' } });
    expect(vale.out).toContain('1 record added');
    const hill = await run(review, bare, { words, options: { studio: 'books/hill' } });
    expect(hill.out).toMatch(/^Nothing changed/);
  });

  it('has its problems at paths of the repository', async () => {
    const bare = twoStudios();
    const options = { at: 'wrong', studio: 'books/vale', as: 'annotations' };
    const { out } = await run(check, bare, { options });
    expect(out).toContain('file=books/vale/spent.yaml,line=5,');
  });
});
