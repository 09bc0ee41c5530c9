import { renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const SPENT = `s1:
  date: 2026-04-10
  to: Bank
  for: bank
  amount: 5.00
`;

/** A studio with a branch `main`, from which nothing differs yet. */
function studio(): string {
  const settings = 'format: 1\nname: Test studio\ncurrency: USD\n';
  const folder = inGit(tempStudio({ 'studio.yaml': settings, 'spent.yaml': SPENT }));
  git(folder, 'branch', '-M', 'main');
  git(folder, 'checkout', '-qb', 'work');
  return folder;
}

function writeSpent(folder: string, text: string): void {
  writeFileSync(join(folder, 'spent.yaml'), text);
}

async function outOf(folder: string): Promise<string> {
  const told = { words: ['main'], options: { asOf: '2026-06-30' } };
  return (await run(review, folder, told)).out;
}

describe('the base of a branch', () => {
  it('has what was wrong in it before, however often it is asked for', async () => {
    const folder = studio();
    writeSpent(folder, SPENT.replace('bank\n', 'bnak\n'));
    commitAll(folder, 'A fault');
    expect(await outOf(folder)).toContain('1 new error');
    git(folder, 'branch', '-f', 'main');
    expect(await outOf(folder)).toMatch(/^Nothing changed/);
    expect(await outOf(folder)).toMatch(/^Nothing changed/);
    git(folder, 'branch', '-f', 'main', 'HEAD~1');
    expect(await outOf(folder)).toContain('1 new error');
  });

  it('is read again when the commit could not be read whole', async () => {
    const folder = studio();
    const blob = git(folder, 'rev-parse', 'main:spent.yaml').trim();
    const object = join(folder, '.git/objects', blob.slice(0, 2), blob.slice(2));
    writeSpent(folder, SPENT.replace('5.00', '5.50'));
    renameSync(object, `${object}-away`);
    expect(await outOf(folder)).not.toContain('amount 5.00 → 5.50');
    renameSync(`${object}-away`, object);
    expect(await outOf(folder)).toContain('amount 5.00 → 5.50');
  });
});
