/** A review of what merging gives: in real git, with a base that has moved since the branch left it. */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  writeFileSync,
} from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { gitState } from '../helpers/git-state.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const SALE = (id: string, count: number): string =>
  `${id}:\n  date: 2026-04-28\n  channel: market\n  lines:\n    - { product: mug, count: ${count}, price: 38 }\n`;

const SALES = 'sales/2026-04.yaml';

/** Files by their paths, with a text or, where they are to go, without. */
type Files = Readonly<Record<string, string | undefined>>;

function put(folder: string, files: Files): void {
  for (const [file, text] of Object.entries(files)) {
    if (text === undefined) git(folder, 'rm', '-q', file);
    else {
      mkdirSync(join(folder, file, '..'), { recursive: true });
      writeFileSync(join(folder, file), text);
    }
  }
}

/** A small studio with `main` and `fair`, which left it before its last commit and is checked out. */
function twoBranches(onMain: Files, onFair: Files, more: Record<string, string> = {}): string {
  const folder = inGit(small(more));
  git(folder, 'branch', '-M', 'main');
  git(folder, 'checkout', '-qb', 'fair');
  put(folder, onFair);
  commitAll(folder, 'Fair');
  git(folder, 'checkout', '-q', 'main');
  put(folder, onMain);
  commitAll(folder, 'Main');
  git(folder, 'checkout', '-q', 'fair');
  return folder;
}

function reviewed(folder: string, ...words: string[]): Promise<Said> {
  return run(review, folder, { words });
}

interface Told {
  readonly counts: Readonly<Record<string, number>>;
  readonly from: string;
  readonly to: string;
  readonly notes: readonly string[];
  readonly problems: {
    readonly new: readonly {
      readonly rule: string;
      readonly at: string;
      readonly message: string;
      readonly hint: string;
    }[];
  };
}

async function told(folder: string, ...words: string[]): Promise<Told> {
  const { out } = await run(review, folder, { words, options: { as: 'json' } });
  return JSON.parse(out) as Told;
}

/** Eleven mugs are left; each branch sells eight of them. */
const LAST_MUGS = [
  { 'sales/main.yaml': SALE('s260428ma', 8) },
  { 'sales/fair.yaml': SALE('s260428fa', 8) },
] as const;

describe('two branches that both sell the last mugs', () => {
  it('are each right, and wrong together', async () => {
    const folder = twoBranches(...LAST_MUGS);
    expect((await reviewed(folder, 'main~1..main')).out).not.toContain('error:');
    expect((await reviewed(folder, 'main~1..fair')).out).not.toContain('error:');
    const { status, out } = await reviewed(folder, 'main', 'fair');
    expect(status).toBe(1);
    expect(out).toMatch(/^Not fit to merge: /);
    expect(out).toContain('sold-more-than-finished error');
    expect(out).toContain('main → fair merged into main');
    expect(await reviewed(folder, 'main...fair')).toEqual({ status, out, err: '' });
  });

  it('are so before anything of it is committed', async () => {
    const folder = twoBranches(LAST_MUGS[0], { 'README.md': 'x\n' });
    put(folder, LAST_MUGS[1]);
    const { status, out } = await reviewed(folder, 'main');
    expect(status).toBe(1);
    expect(out).toContain('main → the working tree merged into main');
    expect(out).toContain('sold-more-than-finished error');
    put(folder, { 'sales/fair.yaml': SALE('s260428fa', 2) });
    expect((await reviewed(folder, 'main')).status).toBe(0);
  });
});

describe('a base that has moved', () => {
  it('is not blamed on the branch', async () => {
    const folder = twoBranches(
      { 'sales/main.yaml': SALE('s260428ma', 1), 'used.yaml': 'u1: wrong\n' },
      { 'sales/fair.yaml': SALE('s260428fa', 1) },
    );
    const { counts, problems } = await told(folder, 'main');
    expect(counts).toMatchObject({ added: 1, changed: 0, removed: 0 });
    expect(problems.new).toEqual([]);
  });

  it('says what is closed now', async () => {
    const closed = `${SMALL_STUDIO['studio.yaml'] ?? ''}closed-through: 2026-04-30\n`;
    const folder = twoBranches({ 'studio.yaml': closed }, LAST_MUGS[1]);
    const { problems } = await told(folder, 'main', 'fair');
    expect(problems.new.map(({ rule }) => rule)).toEqual(['closed-period-changed']);
    expect((await told(folder, 'main~1', 'fair')).problems.new).toEqual([]);
  });

  it('that has all of the branch leaves nothing to review', async () => {
    const folder = twoBranches(...LAST_MUGS);
    git(folder, 'checkout', '-q', 'main');
    git(folder, 'merge', '-q', '--no-edit', 'fair');
    expect((await reviewed(folder, 'main', 'fair')).out).toMatch(/^Nothing changed/);
  });
});

describe('what can not be merged', () => {
  const price = (amount: string): Files => ({
    [SALES]: (SMALL_STUDIO[SALES] ?? '').replace('price: 36', `price: ${amount}`),
  });

  it('is told in words, with what to do', async () => {
    const folder = twoBranches(price('35'), price('37'));
    const { status, out } = await reviewed(folder, 'main', 'fair');
    expect(status).toBe(1);
    const { problems } = await told(folder, 'main', 'fair');
    expect(problems.new).toEqual([
      expect.objectContaining({
        rule: 'merge-conflict',
        message: 'two versions of s260402cd meet here and differ in lines.1.price',
        hint: 'run git merge main on the branch, and settle it there',
      }),
    ]);
    expect(out).not.toContain('removed');
  });

  it('is told of a file that one side deleted, and of one that is not of the book', async () => {
    const deleted = { 'classes.yaml': undefined, 'README.md': 'one\n', 'notes.txt': 'a\n' };
    const kept = SMALL_STUDIO['classes.yaml'] ?? '';
    const changed = { 'classes.yaml': kept.replace('180', '190'), 'README.md': 'two\n' };
    const folder = twoBranches(deleted, changed, { 'firings/f260430ef.yaml': '' });
    const { problems, notes } = await told(folder, 'main', 'fair');
    expect(problems.new).toContainEqual(
      expect.objectContaining({
        at: 'classes.yaml:1',
        message: 'the branch has changed this file, and main has deleted or renamed it',
      }),
    );
    expect(notes).toEqual([
      "README.md: the branch and main have changed this file in ways that git can't bring together.",
    ]);
    const other = await told(folder, 'fair', 'main');
    expect(other.problems.new[0]?.message).toBe(
      'fair has changed this file, and the branch has deleted or renamed it',
    );
  });
});

describe('merging', () => {
  it('runs no driver, writes nothing in .git, and leaves nothing behind', async () => {
    const mark = join(tempStudio({}), 'mark');
    const temporary = tempStudio({});
    const folder = twoBranches(
      { [SALES]: `${SMALL_STUDIO[SALES] ?? ''}\n${SALE('s260428ma', 1)}` },
      { [SALES]: `${SALE('s260428fa', 1)}\n${SMALL_STUDIO[SALES] ?? ''}` },
      { '.gitattributes': '*.yaml merge=own\n' },
    );
    git(folder, 'config', 'merge.own.driver', `touch ${mark}; false`);
    git(folder, 'config', 'merge.default', 'own');
    put(folder, { 'used.yaml': 'u1:\n  date: 2026-04-02\n  material: kaolin\n  quantity: 1 kg\n' });
    git(folder, 'status');
    const before = gitState(folder);
    const environment = { ...process.env, TMPDIR: temporary };
    for (const words of [['main', 'fair'], ['main']]) {
      const { status, err } = await run(review, folder, { words, environment });
      expect([status, err]).toEqual([0, '']);
    }
    expect(gitState(folder)).toEqual(before);
    expect(existsSync(mark)).toBe(false);
    expect(readdirSync(temporary)).toEqual([]);
    expect(() => git(folder, 'merge', 'main')).toThrow();
    expect(existsSync(mark)).toBe(true);
  });

  it('needs a git that can do it in memory; an older one says what the review lacks', async () => {
    const folder = twoBranches(...LAST_MUGS);
    const bin = tempStudio({});
    const old =
      '#!/bin/sh\ncase "$*" in *merge-tree*) echo "usage: git merge-tree <base-tree> <branch1> <branch2>" >&2; exit 129 ;; esac\n';
    const [real = ''] = (process.env['PATH'] ?? '')
      .split(delimiter)
      .filter((place) => existsSync(join(place, 'git')));
    writeFileSync(join(bin, 'git'), `${old}exec ${join(real, 'git')} "$@"\n`);
    chmodSync(join(bin, 'git'), 0o755);
    const environment = { ...process.env, PATH: bin };
    const { status, out } = await run(review, folder, { words: ['main', 'fair'], environment });
    expect(status).toBe(0);
    expect(out).toContain('the start of the branch from main → fair');
    expect(out).toContain('This git is older than 2.38');
  });

  it('takes names that git would read otherwise for what they are', async () => {
    const folder = twoBranches(...LAST_MUGS);
    for (const name of ['config', 'objects', 'a/b', '-x', 'ü'])
      git(folder, 'update-ref', `refs/heads/${name}`, 'main');
    const plain = await told(folder, 'main', 'fair');
    for (const name of ['config', 'objects', 'a/b', 'ü', 'main^{}', 'main~0'])
      expect((await told(folder, name, 'fair')).problems).toEqual(plain.problems);
    expect((await told(folder, 'main', 'HEAD')).problems).toEqual(plain.problems);
  });

  it('looks at a working tree of another one, with long ids, in a part of the repository', async () => {
    const root = tempStudio({});
    git(root, 'init', '-q', '--object-format=sha256', '-b', 'main');
    const books = 'books/hill "st" é';
    put(
      root,
      Object.fromEntries(Object.entries(SMALL_STUDIO).map(([f, t]) => [join(books, f), t])),
    );
    commitAll(root, 'Begin');
    const beside = join(tempStudio({}), 'beside');
    git(root, 'worktree', 'add', '-qb', 'fair', beside);
    put(join(root, books), LAST_MUGS[0]);
    commitAll(root, 'Main');
    put(join(beside, books), LAST_MUGS[1]);
    const { problems, notes } = await told(join(beside, books), 'main');
    expect(problems.new.map(({ rule }) => rule)).toContain('sold-more-than-finished');
    expect(notes).toEqual([]);
  });
});

describe('a working tree that is not the whole of what git has', () => {
  it('has what a sparse checkout leaves out read from git', async () => {
    const folder = twoBranches({ 'README.md': 'x\n' }, LAST_MUGS[1]);
    git(folder, 'sparse-checkout', 'set', '--no-cone', '/*', '!/sales/', '!/bought/');
    expect(existsSync(join(folder, 'sales'))).toBe(false);
    const { counts, notes } = await told(folder, 'main');
    expect(counts).toMatchObject({ added: 1, removed: 0, changed: 0 });
    expect(notes).toEqual([
      '3 files (bought/2026-01.yaml …) are left out of this checkout, which is sparse, and read from git.',
    ]);
    git(folder, 'branch', '-f', 'main', 'fair');
    expect((await reviewed(folder, 'main')).out).toMatch(/^Nothing changed/);
  });

  it('is told without what git ignores', async () => {
    const folder = twoBranches({ 'README.md': 'x\n' }, LAST_MUGS[1], {
      '.gitignore': 'own.yaml\n',
    });
    put(folder, { 'sales/own.yaml': SALE('s260429pr', 1) });
    const { counts, notes } = await told(folder, 'main');
    expect(counts).toMatchObject({ added: 1 });
    expect(notes).toEqual(['sales/own.yaml is ignored by git, so not part of this review.']);
  });

  it('with line ends of another system, and with changes of its own, is read as git takes it', async () => {
    const attributes = { '.gitattributes': '*.yaml text eol=lf\n' };
    const folder = twoBranches(LAST_MUGS[0], { 'README.md': 'x\n' }, attributes);
    const text = readFileSync(join(folder, SALES), 'utf8');
    put(folder, { [SALES]: text.replace('price: 36', 'price: 37').replaceAll('\n', '\r\n') });
    const { counts, problems } = await told(folder, 'main');
    expect(counts).toMatchObject({ added: 0, changed: 1, removed: 0 });
    expect(problems.new).toEqual([]);
  });
});
