/** The hooks in real git, with the built program. */
import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { git, inGit, mergesCleanly } from '../helpers/git.ts';
import { builtProgram, runSaggar } from '../helpers/program.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const PROGRAM = join(import.meta.dirname, '../../bin/saggar.js');

/** A repository with the small studio, hooks turned on, in a folder of it or at its root. */
async function hooked(place = ''): Promise<{ root: string; studio: string }> {
  await builtProgram();
  const root = tempStudio({ 'README.md': 'x\n' });
  const studio = join(root, place);
  for (const [file, text] of Object.entries(SMALL_STUDIO)) {
    mkdirSync(join(studio, file, '..'), { recursive: true });
    writeFileSync(join(studio, file), text);
  }
  inGit(root);
  const { status, err } = await runSaggar(['init', '.', '--with', 'hooks'], {
    folder: studio,
  });
  expect([status, err]).toEqual([0, '']);
  git(root, 'add', '-A');
  git(root, 'commit', '-qm', 'Hooks');
  git(root, 'config', 'core.hooksPath', '.githooks');
  git(root, 'config', 'saggar.program', PROGRAM);
  git(root, 'config', 'user.name', 'Test');
  git(root, 'config', 'user.email', 'test@example.org');
  return { root, studio };
}

interface Done {
  readonly status: number | null;
  readonly said: string;
}

function tryGit(folder: string, words: readonly string[], env: Record<string, string> = {}): Done {
  const run = spawnSync('git', words, {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  return { status: run.status, said: run.stdout + run.stderr };
}

const GOOD = 'e1:\n  date: 2026-05-01\n  to: Pit\n  for: tools\n  amount: 5\n';
const BAD = GOOD.replace('amount: 5', 'amount: five');

function write(studio: string, file: string, text: string): void {
  writeFileSync(join(studio, file), text);
}

describe.each(['', 'books/hill street'])(
  'the hook before a commit, with the studio in "%s"',
  (place) => {
    it('lets a right book pass, and stops a wrong one', async () => {
      const { root, studio } = await hooked(place);
      write(studio, 'spent.yaml', BAD);
      git(root, 'add', '-A');
      const stopped = tryGit(root, ['commit', '-m', 'Bad']);
      expect(stopped.status).toBe(1);
      expect(stopped.said).toContain('spent.yaml:5:11: error: amount is "five", ');
      expect(stopped.said).toContain('Nothing was committed. Fix the errors');
      expect(stopped.said).toContain('git commit --no-verify');
      write(studio, 'spent.yaml', GOOD);
      git(root, 'add', '-A');
      expect(tryGit(root, ['commit', '-qm', 'Good'])).toEqual({ status: 0, said: '' });
    });

    it('looks at what is staged, not at what stands beside it', async () => {
      const { root, studio } = await hooked(place);
      write(studio, 'spent.yaml', GOOD);
      git(root, 'add', '-A');
      write(studio, 'spent.yaml', BAD);
      expect(tryGit(root, ['commit', '-qm', 'Good'])).toEqual({ status: 0, said: '' });
      git(root, 'add', '-A');
      write(studio, 'spent.yaml', GOOD);
      expect(tryGit(root, ['commit', '-qm', 'Bad']).status).toBe(1);
      git(root, 'add', '-A');
      write(studio, 'sales/2026-04 (new).yaml', 'x');
      write(studio, 'materials.yaml', `${SMALL_STUDIO['materials.yaml'] ?? ''}\n# more\n`);
      git(root, 'add', join(studio, 'materials.yaml'));
      expect(tryGit(root, ['commit', '-qm', 'Without the new file'])).toEqual({
        status: 0,
        said: '',
      });
    });

    it('leaves other commits alone', async () => {
      const { root, studio } = await hooked(place);
      if (place === '') return;
      write(studio, 'spent.yaml', BAD);
      write(root, 'README.md', 'y\n');
      git(root, 'add', 'README.md');
      expect(tryGit(root, ['commit', '-qm', 'Words'])).toEqual({ status: 0, said: '' });
    });

    it('works in a worktree', async () => {
      const { root } = await hooked(place);
      const beside = join(tempStudio({}), 'beside');
      git(root, 'worktree', 'add', '-q', beside);
      write(join(beside, place), 'spent.yaml', BAD);
      git(beside, 'add', '-A');
      expect(tryGit(beside, ['commit', '-qm', 'Bad']).status).toBe(1);
      expect(tryGit(beside, ['commit', '-qnm', 'Bad']).status).toBe(0);
      expect(readFileSync(join(root, 'README.md'), 'utf8')).toBe('x\n');
    });
  },
);

describe('the program that starts git', () => {
  const POOR = { PATH: ['/usr/bin', '/bin'].join(delimiter), HOME: '/nowhere' };

  it('is told what to do where it does not find saggar', async () => {
    const { root, studio } = await hooked();
    git(root, 'config', '--unset', 'saggar.program');
    write(studio, 'spent.yaml', GOOD);
    git(root, 'add', '-A');
    const { status, said } = tryGit(root, ['commit', '-qm', 'x'], POOR);
    expect(status).toBe(1);
    expect(said).toContain('git config saggar.program "$(command -v saggar)"');
  });

  it('needs no PATH once git knows where saggar is', async () => {
    const { root, studio } = await hooked();
    const bin = join(tempStudio({}), 'bin dir');
    mkdirSync(bin);
    // As where a version manager puts Node.js and what is installed with it into one folder.
    writeFileSync(join(bin, 'saggar'), `#!/bin/sh\nexec node "${PROGRAM}" "$@"\n`);
    writeFileSync(join(bin, 'node'), `#!/bin/sh\nexec "${process.execPath}" "$@"\n`);
    for (const name of ['saggar', 'node']) chmodSync(join(bin, name), 0o755);
    git(root, 'config', 'saggar.program', join(bin, 'saggar'));
    write(studio, 'spent.yaml', GOOD);
    git(root, 'add', '-A');
    expect(tryGit(root, ['commit', '-qm', 'x'], POOR)).toEqual({ status: 0, said: '' });
  });

  it('is told where saggar can not be run', async () => {
    const { root, studio } = await hooked();
    git(root, 'config', 'saggar.program', '/nowhere/saggar');
    write(studio, 'spent.yaml', GOOD);
    git(root, 'add', '-A');
    const { status, said } = tryGit(root, ['commit', '-qm', 'x']);
    expect(status).toBe(1);
    expect(said).toContain('Nothing was committed, for saggar could not check the book.');
    expect(said).not.toContain('Fix the errors');
  });
});

describe('the hook before a merge is committed', () => {
  it('stops a clean merge that breaks the book', async () => {
    const { root, studio } = await hooked();
    git(root, 'checkout', '-qb', 'other');
    write(studio, 'spent.yaml', GOOD);
    git(root, 'add', '-A');
    git(root, 'commit', '-qm', 'Theirs');
    git(root, 'checkout', '-q', '-');
    write(studio, 'used.yaml', 'E1:\n  date: 2026-05-01\n  material: kaolin\n  quantity: 1 kg\n');
    git(root, 'add', '-A');
    git(root, 'commit', '-qm', 'Ours');
    const { status, said } = tryGit(root, ['merge', '-q', '--no-edit', 'other']);
    expect(status).toBe(1);
    expect(said).toContain('duplicate-id');
    git(root, 'merge', '--abort');
    git(root, 'config', '--unset', 'core.hooksPath');
    expect(mergesCleanly(root, 'other')).toBe(true);
  });
});

describe('the hook before a push', () => {
  it('looks at the commits that are pushed, whatever stands in the folder', async () => {
    const { root, studio } = await hooked('books/hill street');
    const there = tempStudio({});
    git(there, 'init', '-q', '--bare');
    git(root, 'remote', 'add', 'origin', there);
    git(root, 'branch', '-M', 'main');
    expect(tryGit(root, ['push', '-q', 'origin', 'main'])).toEqual({ status: 0, said: '' });
    write(studio, 'spent.yaml', BAD);
    git(root, 'add', '-A');
    git(root, 'commit', '-qnm', 'Bad');
    write(studio, 'spent.yaml', GOOD);
    const { status, said } = tryGit(root, ['push', 'origin', 'main']);
    expect(status).toBe(1);
    expect(said).toContain('spent.yaml:5:11: error: amount is "five", ');
    expect(said).toContain('So it is with the book in refs/heads/main.');
    expect(said).toContain('git push --no-verify');
    git(root, 'add', '-A');
    git(root, 'commit', '-qm', 'Good');
    expect(tryGit(root, ['push', '-q', 'origin', 'main'])).toEqual({ status: 0, said: '' });
    expect(tryGit(root, ['push', '-q', 'origin', ':main', 'main:other']).status).toBe(0);
  });
});

describe('two studios in one repository', () => {
  /** The small studio in two folders, each with hooks of its own. */
  async function both(): Promise<string> {
    const { root } = await hooked('hill');
    for (const [file, text] of Object.entries(SMALL_STUDIO)) {
      mkdirSync(join(root, 'dale', file, '..'), { recursive: true });
      writeFileSync(join(root, 'dale', file), text);
    }
    const { status } = await runSaggar(['init', '.', '--with', 'hooks'], {
      folder: join(root, 'dale'),
    });
    expect(status).toBe(0);
    git(root, 'add', '-A');
    expect(tryGit(root, ['commit', '-qm', 'Two'])).toEqual({ status: 0, said: '' });
    return root;
  }

  /** Whether a commit and a push of a wrong book in the folder are stopped. */
  function stops(root: string, studio: string): readonly boolean[] {
    const before = git(root, 'rev-parse', 'HEAD').trim();
    write(join(root, studio), 'spent.yaml', BAD);
    git(root, 'add', '-A');
    const commit = tryGit(root, ['commit', '-qm', 'Bad']).status === 1;
    git(root, 'commit', '-qn', '--allow-empty', '-m', 'Bad');
    const push = tryGit(root, ['push', '-q', 'origin', 'HEAD:main']).status === 1;
    git(root, 'reset', '-q', '--hard', before);
    return [commit, push];
  }

  it('are each checked, and either goes without the other', async () => {
    const root = await both();
    const there = tempStudio({});
    git(there, 'init', '-q', '--bare');
    git(root, 'remote', 'add', 'origin', there);
    for (const studio of ['hill', 'dale']) expect(stops(root, studio)).toEqual([true, true]);
    git(root, 'rm', '-q', '.githooks/pre-commit.d/hill', '.githooks/pre-push.d/hill');
    git(root, 'commit', '-qm', 'Without');
    expect(stops(root, 'hill')).toEqual([false, false]);
    git(root, 'push', '-qf', 'origin', 'HEAD:main');
    expect(stops(root, 'dale')).toEqual([true, true]);
  });
});

describe('what is wrong already', () => {
  it('is told in short below what the commit brings', async () => {
    const { root, studio } = await hooked();
    const wrong = Array.from({ length: 7 }, (_, index) => BAD.replace('e1', `a${String(index)}`));
    write(studio, 'spent.yaml', wrong.join(''));
    git(root, 'add', '-A');
    git(root, 'commit', '-qnm', 'Wrong');
    write(studio, 'used.yaml', 'u9:\n  date: 2026-05-01\n  material: koalin\n  quantity: 1 kg\n');
    git(root, 'add', '-A');
    const { status, said } = tryGit(root, ['commit', '-qm', 'More']);
    expect(status).toBe(1);
    expect(said).toMatch(
      /^used\.yaml:3:13: error: .*did you mean "kaolin"\?.*\n1 error\.\nHEAD has /,
    );
    expect(said).toContain('\nHEAD has as well: 7 errors.\n');
    expect(said.match(/^ {2}spent\.yaml:\d+: amount is "five"/gm)).toHaveLength(5);
    expect(said).toContain('\n  and 2 more of the errors; saggar check shows them all\n');
    expect(said).toContain('Nothing was committed. Fix the errors');
  });
});
