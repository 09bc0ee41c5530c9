import { rmSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';

/** A copy of the demo whose first state bears a tag, and which has changed since: mugs cost double. */
function changedStudio(): string {
  const folder = inGit(exampleCopy());
  git(folder, 'tag', 'filed');
  for (const month of ['2026-04', '2026-05', '2026-06']) {
    const file = join(folder, `sales/${month}.yaml`);
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replaceAll(/(product: mug,.*price: )40\.00/g, '$180.00'));
  }
  return folder;
}

const REPORTS = [
  ['income', { as: 'json' }],
  ['materials', {}],
  ['quarter', {}],
  ['firings', { as: 'csv' }],
] as const;

describe('--at', () => {
  it.each(REPORTS)('%s gives what the book at that commit gave', async (name, options) => {
    const folder = changedStudio();
    const asItWas = await runCommand(name, options, { folder: inGit(exampleCopy()) });
    commitAll(folder, 'Dearer');
    rmSync(join(folder, 'sales'), { recursive: true });
    const past = await runCommand(name, { ...options, at: 'filed' }, { folder });
    expect(past).toEqual(asItWas);
    expect(past.out).not.toBe('');
  });

  it('is told apart from the present book and from other commits, also when asked again', async () => {
    const folder = changedStudio();
    const ask = async (at?: string): Promise<string> =>
      (await runCommand('income', at === undefined ? {} : { at }, { folder })).out;
    // Files that are new may change again within the tick of a clock, and are not remembered.
    await new Promise((done) => setTimeout(done, 50));
    const [now, past] = [await ask(), await ask('HEAD')];
    expect(past).not.toBe(now);
    expect([await ask(), await ask('HEAD'), await ask('filed')]).toEqual([now, past, past]);
    commitAll(folder, 'Dearer');
    expect([await ask('HEAD'), await ask('HEAD~1')]).toEqual([now, past]);
  });

  it('of check places problems in the files as the commit has them, and takes what is staged', async () => {
    const folder = inGit(exampleCopy());
    const file = join(folder, 'spent/2026-06.yaml');
    const sound = readFileSync(file, 'utf8');
    const faulty = sound.replace(/amount: .*/, 'amount: five');
    writeFileSync(file, faulty);
    git(folder, 'add', '-A');
    const tree = git(folder, 'write-tree').trim();
    const [there] = faulty
      .split('\n')
      .flatMap((line, at) => (line.includes('five') ? [at + 1] : []));
    writeFileSync(file, `# Moved down\n${sound}`);
    const check = (at: string) => runCommand('check', { at, asOf: '2026-06-30' }, { folder });
    const staged = await check(tree);
    expect(staged.status).toBe(1);
    expect(staged.out).toContain(`spent/2026-06.yaml:${String(there)}:11 schema error`);
    expect(staged.out).toContain('amount: five');
    expect(await check(tree)).toEqual(staged);
    expect((await check('HEAD')).status).toBe(0);
  });

  it('refuses what is no commit, and a commit without a studio', async () => {
    const folder = changedStudio();
    const { status, complaints } = await runCommand('income', { at: '--output=x' }, { folder });
    expect([status, complaints]).toEqual([
      2,
      expect.stringMatching(/^saggar: git knows no commit "--output=x" here/),
    ]);
    git(folder, 'checkout', '-q', '--orphan', 'empty');
    git(folder, 'rm', '-rqf', '--cached', '.');
    git(folder, 'commit', '-q', '--allow-empty', '-m', 'Nothing');
    const none = await runCommand('income', { at: 'empty' }, { folder });
    expect([none.status, none.complaints]).toEqual([2, 'saggar: empty has no studio.yaml there\n']);
  });
});
