import { existsSync, rmSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { review } from '../../src/commands/review/review.ts';
import type { Command } from '../../src/commands/world.ts';
import { openMemory } from '../../src/read/kept/memory.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { storeIn } from '../helpers/memory.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { exampleCopy, tempStudio } from '../helpers/temp-studio.ts';

const income = await loadCommand('income');

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

/** A state of which something is kept. */
interface Kept {
  readonly content: string;
  /** Those that it came through, where it is a chain of them. */
  readonly months?: readonly { readonly key: string }[];
}

/** What is kept of that name, of the state of the studio first. */
function keptIn(folder: string, name: 'found' | 'months'): readonly Kept[] {
  return (openMemory(folder, storeIn(folder)).recallMore(name) ?? []) as readonly Kept[];
}

/** The states of which findings are kept, and those of which months are. */
function statesIn(folder: string): readonly (readonly string[])[] {
  return [keptIn(folder, 'found'), keptIn(folder, 'months')].map((kept) =>
    kept.map(({ content }) => content),
  );
}

/** What the head of a report says of the commit. */
const AT = / · at \S+ \([0-9a-f]{7}\)| {2}"at": \{[^}]*\},\n/;

const REPORTS = [
  ['income', { as: 'json' }],
  ['materials', {}],
  ['quarter', {}],
  ['firings', { as: 'csv' }],
] as const;

describe('--at', () => {
  it('gives what the book at that commit gave', async () => {
    const [folder, then] = [changedStudio(), inGit(exampleCopy())];
    commitAll(folder, 'Dearer');
    rmSync(join(folder, 'sales'), { recursive: true });
    for (const [name, options] of REPORTS) {
      const past = await runCommand(name, { ...options, at: 'filed' }, { folder });
      if (name !== 'firings') expect(past.out).toMatch(AT);
      const now = await runCommand(name, options, { folder: then });
      expect({ ...past, out: past.out.replace(AT, '') }).toEqual(now);
      expect(past.out).not.toBe('');
    }
  });

  it('is told apart from the present book and from other commits, also when asked again', async () => {
    const folder = changedStudio();
    const ask = async (at?: string): Promise<string> =>
      (await runCommand('income', at === undefined ? {} : { at }, { folder })).out.replace(AT, '');
    // Files that are new may change again within the tick of a clock, and are not remembered.
    await new Promise((done) => setTimeout(done, 50));
    const [now, past] = [await ask(), await ask('HEAD')];
    expect(past).not.toBe(now);
    expect([await ask(), await ask('HEAD'), await ask('filed')]).toEqual([now, past, past]);
    commitAll(folder, 'Dearer');
    expect([await ask('HEAD'), await ask('HEAD~1')]).toEqual([now, past]);
  });

  it('is known the next time, beside the studio, which stays the first', async () => {
    const folder = changedStudio();
    commitAll(folder, 'Dearer');
    const ask = (command: Command<never>, at: string) =>
      run(command, folder, { options: { at, asOf: '2026-06-30' } });
    await run(income, folder, { options: { asOf: '2026-06-30' } });
    const [own = ''] = statesIn(folder)[0] ?? [];
    const first = await ask(income, 'filed');
    const [, past = ''] = statesIn(folder)[0] ?? [];
    expect(statesIn(folder)).toEqual([
      [own, past],
      [own, past],
    ]);
    expect(past).not.toBe(own);
    await ask(check, 'HEAD');
    expect(await ask(income, 'filed')).toEqual(first);
    expect(statesIn(folder)[0]).toEqual([own, past]);
  });

  it('shares the months that are the same, and of what differs for long keeps none', async () => {
    const folder = inGit(exampleCopy());
    const file = join(folder, 'sales/2026-06.yaml');
    git(folder, 'tag', 'filed');
    writeFileSync(file, readFileSync(file, 'utf8').replace(/count: 1,/, 'count: 2,'));
    const keys = () => keptIn(folder, 'months').map(({ months = [] }) => months.map((m) => m.key));
    await run(review, folder, { words: ['filed'], options: { asOf: '2026-06-30' } });
    const [own = [], past = []] = keys();
    expect([own.length, past.length, keys().length]).toEqual([past.length, own.length, 2]);
    expect(own.filter((key) => !past.includes(key)).map((key) => key.slice(0, 7))).toEqual([
      '2026-06',
    ]);
    // All months come to something else, and 18 are more than the 12 that are kept beside.
    const kilns = join(folder, 'kilns.yaml');
    writeFileSync(kilns, readFileSync(kilns, 'utf8').replaceAll(/power: \d/g, 'power: 9'));
    await run(review, folder, { words: ['filed'], options: { asOf: '2026-06-30' } });
    expect([keptIn(folder, 'found').length, keys().length]).toEqual([3, 1]);
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
    expect(staged.out).toContain(`spent/2026-06.yaml:${String(there)}:11: error: amount is "five"`);
    expect(staged.out).toMatch(/\[schema\]$/m);
    expect(await check(tree)).toEqual(staged);
    expect((await check('HEAD')).status).toBe(0);
  });

  it('of the day says nothing of what is to be committed or done, and of records nothing of git', async () => {
    const folder = changedStudio();
    const { out } = await runCommand('day', { at: 'filed' }, { folder });
    expect(out).toMatch(/^Sallow Ferry Pottery · .* · at filed \([0-9a-f]{7}\)$/m);
    expect(out).not.toMatch(/committed|^Next {2}/m);
    const records = await runCommand('day', { at: 'filed', date: '2026-06-30' }, { folder });
    expect(records.out).toMatch(AT);
    expect(records.out).not.toMatch(/committed|saggar /);
  });

  it('of an export has the files of the book as they were, and says so', async () => {
    const folder = changedStudio();
    const out = join(tempStudio({}), 'out');
    await runCommand('export', { at: 'filed' }, { folder, argument: out });
    const month = 'sales/2026-06.yaml';
    expect(readFileSync(join(out, 'book', month), 'utf8')).toBe(
      git(folder, 'show', `filed:${month}`),
    );
    expect(readFileSync(join(out, 'index.html'), 'utf8')).toMatch(/ · at filed \([0-9a-f]{7}\) · /);
    const page = readFileSync(join(out, 'pages/income.html'), 'utf8');
    expect(page).toMatch(/ · at filed \([0-9a-f]{7}\) · /);
    const links = [...page.matchAll(/href="([^"#]+)#L\d+"/g)].map(([, href = '']) => href);
    expect(links.length).toBeGreaterThan(0);
    expect(links.filter((href) => !existsSync(join(out, 'pages', href)))).toEqual([]);
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
