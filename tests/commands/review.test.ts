import { cpSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = {
  'studio.yaml': 'format: 1\nname: Test studio\ncurrency: USD\nclosed-through: 2026-01-31\n',
  'channels.yaml': 'door: { name: Door, kind: direct }\n',
  'spent.yaml': `s1:
  date: 2026-01-10
  to: Bank
  for: bank
  amount: 5.00

s2:
  date: 2026-04-10
  to: Bank
  for: bank
  amount: 6.00
`,
};

function studio(): string {
  const folder = inGit(tempStudio(STUDIO));
  git(folder, 'branch', '-M', 'main');
  git(folder, 'checkout', '-qb', 'work');
  return folder;
}

function write(folder: string, file: string, text: string): void {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), text);
}

function read(folder: string, file: string): string {
  return readFileSync(join(folder, file), 'utf8');
}

async function reviewed(
  folder: string,
  words: readonly string[] = ['main'],
  options: Record<string, string | boolean> = {},
): Promise<Said> {
  return run(review, folder, { words, options: { asOf: '2026-06-30', ...options } });
}

async function verdict(folder: string, ...words: string[]): Promise<string> {
  const { out, err, status } = await reviewed(folder, words.length === 0 ? ['main'] : words);
  const [first = ''] = out.split('\n\n');
  return `${String(status)} ${(first + err).replaceAll('\n', ' ').trim()}`;
}

describe('what is only written otherwise', () => {
  it.each<[string, (folder: string) => void, string]>([
    [
      'comments and empty lines',
      (folder) => {
        write(folder, 'spent.yaml', `# Bank\n\n${STUDIO['spent.yaml']}`);
      },
      '0 No concerns; only the layout of 1 file changed.',
    ],
    [
      'line ends of Windows',
      (folder) => {
        write(folder, 'spent.yaml', STUDIO['spent.yaml'].replaceAll('\n', '\r\n'));
      },
      '0 No concerns; only the layout of 1 file changed.',
    ],
    [
      'records in another order',
      (folder) => {
        const [one = '', two = ''] = STUDIO['spent.yaml'].split('\n\n');
        write(folder, 'spent.yaml', `${two}\n${one}\n`);
      },
      '0 No concerns; only the layout of 1 file changed.',
    ],
    [
      'a file that was moved',
      (folder) => {
        mkdirSync(join(folder, 'spent'));
        renameSync(join(folder, 'spent.yaml'), join(folder, 'spent/2026 März.yaml'));
      },
      '0 No concerns: 2 records in another file.',
    ],
    [
      'a file that was split',
      (folder) => {
        const [one = '', two = ''] = STUDIO['spent.yaml'].split('\n\n');
        write(folder, 'spent/01.yaml', `${one}\n`);
        write(folder, 'spent/04.yaml', two);
        rmSync(join(folder, 'spent.yaml'));
      },
      '0 No concerns: 2 records in another file.',
    ],
    ['nothing at all', () => undefined, '0 Nothing changed.'],
  ])('%s', async (_, work, said) => {
    const folder = studio();
    work(folder);
    expect(await verdict(folder)).toBe(said);
    git(folder, 'add', '-A');
    git(folder, 'commit', '-q', '--allow-empty', '-m', 'Work');
    expect(await verdict(folder, 'main', 'HEAD')).toBe(said);
    expect(git(folder, 'status', '--porcelain')).toBe('');
  });
});

describe('a closed period', () => {
  const change = async (from: string, to: string, file = 'spent.yaml'): Promise<string> => {
    const folder = studio();
    const text = read(folder, file);
    expect(text).toContain(from);
    write(folder, file, text.replace(from, to));
    return verdict(folder);
  };

  it.each([
    ['a record of it that is changed', 'amount: 5.00', 'amount: 5.50'],
    ['one that is dated into it', 'date: 2026-04-10', 'date: 2026-01-31'],
    ['one that is dated out of it', 'date: 2026-01-10', 'date: 2026-02-01'],
  ])('%s is an error', async (_, from, to) => {
    expect(await change(from, to)).toMatch(
      /^1 Not fit to merge: profit of 2026-Q1, closed through 2026-01-31, would change by /,
    );
  });

  it('what is after it may change', async () => {
    expect(await change('amount: 6.00', 'amount: 6.50')).toMatch(/^0 /);
  });

  it('is open again', async () => {
    expect(
      await change('closed-through: 2026-01-31', 'closed-through: 2025-12-31', 'studio.yaml'),
    ).toBe(
      '1 Not fit to merge: the settings: the period closed through 2026-01-31 is closed only through 2025-12-31.',
    );
    expect(await change('closed-through: 2026-01-31\n', '', 'studio.yaml')).toMatch(
      /is closed no more\.$/,
    );
  });

  it('that is closed further is in order, and the old one counts', async () => {
    expect(
      await change('closed-through: 2026-01-31', 'closed-through: 2026-04-30', 'studio.yaml'),
    ).toMatch(/^0 /);
  });

  it('a bill of it that is paid since is later business', async () => {
    const folder = studio();
    const owed = STUDIO['spent.yaml'].replace('amount: 5.00', 'amount: 5.00\n  paid: no');
    write(folder, 'spent.yaml', owed);
    commitAll(folder, 'Owed');
    write(folder, 'spent.yaml', owed.replace('paid: no', 'paid: 2026-05-02'));
    expect(await verdict(folder, 'HEAD')).toMatch(/^0 /);
    write(folder, 'spent.yaml', owed.replace('paid: no', 'paid: 2026-01-20'));
    expect(await verdict(folder, 'HEAD')).toMatch(/^1 /);
  });
});

describe('problems', () => {
  it('that are new decide, with --strict warnings too; those of before do not', async () => {
    const folder = studio();
    write(
      folder,
      'spent.yaml',
      `${STUDIO['spent.yaml']}\ns3: { date: 2027-01-01, to: A, for: bank, amount: 1 }\n`,
    );
    const said = await reviewed(folder);
    expect([said.status, said.out.split('\n')[0]]).toEqual([
      0,
      'Look closely: 2027-01-01 is after 2026-06-30 (spent.yaml:13).',
    ]);
    expect((await reviewed(folder, ['main'], { strict: true })).status).toBe(1);
    commitAll(folder, 'Early');
    expect((await reviewed(folder, ['HEAD'], { strict: true })).status).toBe(0);
  });

  it('of a record keep it from being called gone', async () => {
    const folder = studio();
    write(folder, 'spent.yaml', STUDIO['spent.yaml'].replace('amount: 6.00', 'amount: 6.0.0'));
    const { status, out } = await reviewed(folder);
    expect(status).toBe(1);
    expect(out).toMatch(/expense s2.*: now has errors, so it no longer\s+counts/);
    expect(out).not.toMatch(/removed/);
    expect(out).toContain('spent.yaml:11 schema error:');
  });

  it('that are mended are told', async () => {
    const folder = studio();
    write(folder, 'spent.yaml', STUDIO['spent.yaml'].replace('amount: 6.00', 'amount: six'));
    commitAll(folder, 'Wrong');
    write(folder, 'spent.yaml', STUDIO['spent.yaml']);
    const { status, out } = await reviewed(folder, ['HEAD']);
    expect(status).toBe(0);
    expect(out).toMatch(/Problems: 0 new errors, 0 new warnings, 1 gone/);
    expect(out).toMatch(/expense s2.*: had errors before, and counts now/);
  });
});

describe('which states', () => {
  it('the start of the branch counts, not what the base did since; a range counts as it is', async () => {
    const folder = studio();
    write(folder, 'used.yaml', '# nothing yet\n');
    commitAll(folder, 'Ours');
    git(folder, 'checkout', '-q', 'main');
    write(
      folder,
      'spent.yaml',
      `${STUDIO['spent.yaml']}\ns3: { date: 2026-05-01, to: A, for: bank, amount: 1 }\n`,
    );
    commitAll(folder, 'Theirs');
    git(folder, 'checkout', '-q', 'work');
    expect(await verdict(folder)).toBe('0 No concerns; only the layout of 1 file changed.');
    expect(await verdict(folder, 'main...work')).toMatch(/^0 No concerns; only the layout/);
    expect(await verdict(folder, 'main..work')).toMatch(/^0 Look closely: expense s3: it is gone/);
    git(folder, 'merge', '-q', '--no-edit', 'main');
    expect(await verdict(folder, 'HEAD^1', 'HEAD')).toBe('0 No concerns: 1 record added.');
  });

  it('a studio in a folder of the repository, with odd names', async () => {
    const outer = tempStudio({});
    cpSync(tempStudio(STUDIO), join(outer, 'my pöts'), { recursive: true });
    const folder = join(inGit(outer), 'my pöts');
    write(folder, 'spent/a b\nc ü.yaml', STUDIO['spent.yaml'].replaceAll(/^s/gm, 'x'));
    const tree = await reviewed(folder, ['HEAD']);
    expect(tree.out).toContain('expense x2');
    expect(tree.out).toContain('spent/a b\\u{A}c');
    commitAll(outer, 'Odd');
    const commits = await reviewed(folder, ['HEAD~1', 'HEAD']);
    expect(commits.out).toBe(tree.out.replace('HEAD → the working tree', 'HEAD~1 → HEAD'));
  });

  it('a bare repository', async () => {
    const folder = studio();
    write(folder, 'spent.yaml', STUDIO['spent.yaml'].replace('6.00', '7.00'));
    commitAll(folder, 'Work');
    const bare = join(tempStudio({}), 'it.git');
    git(folder, 'clone', '-q', '--bare', '.', bare);
    expect((await reviewed(bare, ['main', 'work'])).out).toContain('amount 6.00 → 7.00');
    expect(await verdict(bare, 'main')).toMatch(/^2 saggar: a bare repository has no working tree/);
  });

  it.each([
    [['--output=x'], 'git knows no commit "--output=x" here'],
    [['nowhere'], 'git knows no commit "nowhere" here'],
    [['main', 'nowhere'], 'git knows no commit "nowhere" here'],
    [['main', 'work', 'x'], 'one or two revisions'],
    [['main..work', 'x'], 'names two commits already'],
  ])('%j is refused', async (words, said) => {
    const { status, out, err } = await reviewed(studio(), words);
    expect([status, out, err]).toEqual([2, '', expect.stringContaining(said)]);
  });

  it('before the first commit, and outside git', async () => {
    const folder = tempStudio(STUDIO);
    expect(await verdict(folder)).toMatch(/^2 saggar: .* is not in a git repository/);
    git(folder, 'init', '-q');
    expect(await verdict(folder)).toMatch(/^2 saggar: nothing is committed on this branch yet/);
  });
});

describe('a large change', () => {
  it('of a thousand records that are alike shows the largest, as a comment too', async () => {
    const folder = studio();
    const records = Array.from(
      { length: 1000 },
      (_, index) =>
        `x${String(index)}: { date: 2026-05-01, to: Shop ${String(index)} @all, for: tools, amount: ${String(index + 1)} }\n`,
    );
    write(folder, 'spent/many.yaml', records.join(''));
    const { out } = await reviewed(folder);
    const added = out
      .replace(/\n +/g, ' ')
      .match(/expense x\d+(?=, .*: added \(spent\/many\.yaml:)/g);
    expect(added).toEqual(
      Array.from({ length: 12 }, (_, index) => `expense x${String(index + 988)}`),
    );
    expect(out).toContain('and 988 more like these; --as json has them all');
    const { out: comment } = await reviewed(folder, ['main'], { as: 'markdown' });
    expect(comment.match(/: added \(spent/g)).toHaveLength(12);
    expect(comment).toContain('- and 988 more like these; ');
    expect(comment.match(/<details>/g)).toHaveLength(comment.match(/<\/details>/g)?.length ?? 0);
    expect(comment.split('\n')[0]).toBe('<!-- saggar-review -->');
    expect(comment).not.toMatch(/@all/);
  });
});
