/** Repositories that somebody else made, and a git that does not answer, with the built program. */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { gitState } from '../helpers/git-state.ts';
import { runSaggar, type Ran } from '../helpers/program.ts';
import { SMALL_STUDIO, TODAY } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const CLOSED = `${SMALL_STUDIO['studio.yaml'] ?? ''}closed-through: 2026-04-30\n`;
const SALES = 'sales/2026-04.yaml';

function studio(): string {
  const folder = inGit(
    tempStudio({ ...SMALL_STUDIO, 'studio.yaml': CLOSED, '.gitignore': '.saggar\n' }),
  );
  git(folder, 'branch', '-M', 'main');
  return folder;
}

function change(folder: string): void {
  const path = join(folder, SALES);
  writeFileSync(path, readFileSync(path, 'utf8').replace('price: 36', 'price: 37'));
}

/** The commands that look at git, and what they say. */
async function asked(folder: string, env: Record<string, string> = {}): Promise<Ran[]> {
  const lines = [['day'], ['review', 'main'], ['quarter', '2026-Q2'], ['income', '--at', 'main']];
  const ran: Ran[] = [];
  for (const words of lines)
    ran.push(await runSaggar([...words, '--as-of', TODAY], { folder, env }));
  return ran;
}

describe('a repository among the files of a studio', () => {
  /** Puts the files of a repository, whose filter leaves a mark, beside those of a studio. */
  function plant(books: string, mark: string): void {
    const own = studio();
    git(own, 'config', 'core.worktree', '.');
    git(own, 'config', 'filter.own.clean', `touch ${mark}; cat`);
    for (const name of ['HEAD', 'config', 'objects', 'refs', 'index'])
      cpSync(join(own, '.git', name), join(books, name), { recursive: true });
    writeFileSync(join(books, '.gitattributes'), '*.yaml filter=own\n');
  }

  it('is not taken for the one around it, nor where there is none around it', async () => {
    const mark = join(tempStudio({}), 'mark');
    const origin = tempStudio({ 'README.md': 'x\n' });
    renameSync(studio(), join(origin, 'books'));
    rmSync(join(origin, 'books/.git'), { recursive: true });
    plant(join(origin, 'books'), mark);
    git(origin, 'init', '-q', '-b', 'main');
    commitAll(origin, 'Begin');
    const clone = join(tempStudio({}), 'clone');
    git(origin, 'clone', '-q', '.', clone);
    const books = join(clone, 'books');
    expect((await asked(books)).map(({ out }) => out)).toEqual([
      expect.stringContaining('everything is committed'),
      expect.stringContaining('Nothing changed.'),
      expect.stringContaining('230.60'),
      expect.stringContaining('230.60'),
    ]);
    change(books);
    const [day, review] = await asked(books);
    expect(day?.out).toContain('1 file not committed');
    expect(review?.out).toContain('price 36.00 → 37.00');
    rmSync(join(clone, '.git'), { recursive: true });
    const [loose, none] = await asked(books);
    expect(loose?.out).not.toContain('committed');
    expect(none?.err).toMatch(/is not in a git repository/);
    expect(existsSync(mark)).toBe(false);
    // Git itself takes it, and runs its filter.
    git(books, 'add', SALES);
    expect(existsSync(mark)).toBe(true);
  });
});

describe('variables that name another repository', () => {
  it('change nothing of what is said', async () => {
    const [folder, other] = [studio(), inGit(tempStudio({ x: 'x\n' }))];
    change(folder);
    const env = {
      GIT_DIR: join(other, '.git'),
      GIT_WORK_TREE: other,
      GIT_INDEX_FILE: join(other, '.git/index'),
      GIT_OBJECT_DIRECTORY: join(other, '.git/objects'),
      GIT_NAMESPACE: 'x',
      GIT_CEILING_DIRECTORIES: folder,
      GIT_CONFIG_GLOBAL: '/nowhere',
    };
    const plain = await asked(folder);
    expect(plain[0]?.out).toContain('1 file not committed');
    expect(await asked(folder, env)).toEqual(plain);
    const amend = ['amend', 's260402cd', 'buyer=Corner', '--as-of', TODAY];
    const { out } = await runSaggar(amend, { folder, env });
    // The file is changed already, so git would take back too much.
    expect(out).toContain('Undo: saggar amend s260402cd');
  });
});

describe('a file that git passes through a program', () => {
  it('is named by day, review and quarter, and is not called the same', async () => {
    const mark = join(tempStudio({}), 'mark');
    const folder = studio();
    git(folder, 'config', 'filter.crypt.clean', `touch ${mark}; rev`);
    git(folder, 'config', 'filter.crypt.smudge', `touch ${mark}; rev`);
    writeFileSync(join(folder, '.gitattributes'), `${SALES} filter=crypt\n`);
    git(folder, 'add', '--renormalize', '.');
    commitAll(folder, 'Hidden from now on');
    rmSync(mark);
    change(folder);
    const state = gitState(folder);
    const [day, review, quarter] = await asked(folder);
    const sentence = `${SALES} can't be compared with what git has of it: git passes it through the filter "crypt", which is never run here`;
    const said = (ran: Ran | undefined): string => (ran?.out ?? '').replaceAll(/\s+/g, ' ');
    expect(said(day)).toContain('No problems; everything else is committed.');
    expect(said(day)).toMatch(
      /Not compared 1 file that git passes through what is never run here: sales\/2026-04.yaml \(the filter "crypt"\)/,
    );
    expect(said(review)).toContain(`${sentence}.`);
    expect(said(quarter)).toContain(sentence);
    expect(said(quarter)).not.toMatch(/s26040\d\w\w: added/);
    expect(gitState(folder)).toEqual(state);
    expect(existsSync(mark)).toBe(false);
  });
});

describe('a git that does not answer', () => {
  // What it has started holds its output open when it is stopped.
  const SLEEPS = '#!/bin/sh\nexec sleep 100000\n';

  it('holds a command up for a few seconds, and the record is written', async () => {
    // Two that write at once would wait for each other as well.
    const [folder, other] = [studio(), studio()];
    const home = tempStudio({ 'bin/git': SLEEPS });
    chmodSync(join(home, 'bin/git'), 0o755);
    const env = { PATH: [join(home, 'bin'), process.env['PATH'] ?? ''].join(delimiter) };
    const lines = [
      ['add', 'used', '--material', 'kaolin', '--quantity', '1 kg', '--no-input'],
      ['amend', 's260402cd', 'buyer=Corner'],
      ['day'],
      ['review', 'main'],
      ['check', '--at', 'main'],
    ];
    const ran = await Promise.all(
      lines.map((words) =>
        runSaggar([...words, '--as-of', TODAY], {
          folder: words[0] === 'amend' ? other : folder,
          env,
        }),
      ),
    );
    expect(ran.map(({ status }) => status)).toEqual([0, 0, 0, 2, 2]);
    const [add, amend, day, review, check] = ran;
    expect(add?.out).toMatch(/Undo: saggar remove u/);
    expect(amend?.out).toContain('Undo: saggar amend s260402cd "buyer=Puddle Coffee"');
    expect(day?.out).not.toContain('commit');
    for (const each of [review, check])
      expect(each?.err).toBe(
        `saggar: git does not answer for ${folder}: it gave no answer within 5 seconds and was stopped\n`,
      );
  });
});

describe('a push that is received', () => {
  it('is looked at before it is taken, in the place that git gives it', () => {
    const folder = studio();
    const bare = join(tempStudio({}), 'it.git');
    git(folder, 'clone', '-q', '--bare', '.', bare);
    const hook = join(bare, 'hooks/pre-receive');
    const program = join(import.meta.dirname, '../../bin/saggar.js');
    mkdirSync(join(bare, 'hooks'), { recursive: true });
    writeFileSync(
      hook,
      `#!/bin/sh\nread old new name\nnode "${program}" review "$old..$new" --as-of ${TODAY}\n`,
    );
    chmodSync(hook, 0o755);
    change(folder);
    commitAll(folder, 'Dearer');
    const pushed = spawnSync('git', ['push', bare, 'main'], { cwd: folder, encoding: 'utf8' });
    expect(pushed.stderr).toContain('price 36.00 → 37.00');
    expect(pushed.stderr).toContain(
      'Not fit to merge: profit of 2026-Q2, closed through 2026-04-30',
    );
    expect(pushed.status).toBe(1);
  });
});
