import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../../src/book.ts';
import { readCommit, type CommitReading } from '../../../src/read/git/commit.ts';
import {
  commitOf,
  openBareRepository,
  openRepository,
  startOf,
  type Commit,
  type NoAnswer,
  type Repository,
} from '../../../src/read/git/repository.ts';
import { studiosIn } from '../../../src/read/git/tree.ts';
import { NO_MEMORY, openMemory } from '../../../src/read/kept/memory.ts';
import { readStudio } from '../../../src/read/read.ts';
import { checkStudio } from '../../helpers/check-studio.ts';
import { commitAll, git, inGit } from '../../helpers/git.ts';
import { exampleCopy, tempStudio } from '../../helpers/temp-studio.ts';
import { storeIn } from '../../helpers/memory.ts';
import { type ReadingToCheck, takeIn } from '../../../src/check/taken.ts';

const ENVIRONMENT = { PATH: process.env['PATH'], HOME: process.env['HOME'] };
const SETTINGS = 'format: 1\nname: Test studio\ncurrency: USD\n';
const MATERIALS = 'kaolin:\n  name: Kaolin\n  kind: dry\n  unit: kg\n';

function sure<T extends object>(value: T | NoAnswer): T {
  if ('refused' in value) throw new Error(value.refused);
  return value;
}

function refusal(value: object): string {
  return 'refused' in value ? String(value.refused) : 'not refused';
}

function repositoryOf(folder: string, environment = {}): Repository {
  return sure(openRepository(folder, { ...ENVIRONMENT, ...environment }));
}

function commit(repository: Repository, name: string): Commit {
  return sure(commitOf(repository, name));
}

async function read(repository: Repository, name = 'HEAD'): Promise<CommitReading> {
  const reading = await readCommit(repository, commit(repository, name));
  return sure(reading);
}

function filesOf(reading: CommitReading): string[] {
  return reading.files.map(({ file }) => file);
}

function write(folder: string, file: string, text: string): void {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), text);
}

/** All that a check of what was read comes to, record by record. */
function plainly(reading: ReadingToCheck): unknown {
  const { book, findings } = checkStudio(reading, '2026-06-30');
  return [book.studio, KINDS.map((kind) => [...book[kind]]), findings];
}

describe('a studio in a commit', () => {
  it('reads as on the disk, file by file and finding by finding', async () => {
    const folder = inGit(exampleCopy());
    const fromGit = await read(repositoryOf(folder));
    const fromDisk = await readStudio(folder, { memory: NO_MEMORY });
    if ('refused' in fromDisk) throw new Error(fromDisk.refused);
    expect(fromGit.files).toEqual(fromDisk.files);
    expect(fromGit.files.length).toBeGreaterThan(100);
    expect(fromGit.findings).toEqual(fromDisk.findings);
    const [one, other] = [fromGit, fromDisk].map((reading) => plainly(reading));
    expect(one).toEqual(other);
  });

  it('is what was committed, whatever stands on the disk and in the index', async () => {
    const folder = inGit(tempStudio({ 'studio.yaml': SETTINGS, 'materials.yaml': MATERIALS }));
    writeFileSync(join(folder, 'materials.yaml'), MATERIALS.replaceAll('aolin', 'AOLIN'));
    git(folder, 'add', '-A');
    rmSync(join(folder, 'studio.yaml'));
    const before = git(folder, 'status', '--porcelain');
    const reading = await read(repositoryOf(folder));
    expect(filesOf(reading)).toEqual(['materials.yaml', 'studio.yaml']);
    expect(Object.keys(reading.files[0]?.root ?? {})).toEqual(['kaolin']);
    expect(reading.textOf('materials.yaml')).toBe(MATERIALS);
    expect(git(folder, 'status', '--porcelain')).toBe(before);
  });

  it('is found in a folder of the repository, and only there', async () => {
    const folder = inGit(
      tempStudio({
        'a b/stüdio/studio.yaml': SETTINGS,
        'a b/stüdio/materials/nord\nwärts.yaml': MATERIALS,
        'a b/stüdio/x.yaml': 'a: 1\n',
        'materials.yaml': MATERIALS,
      }),
    );
    const reading = await read(repositoryOf(join(folder, 'a b/stüdio')));
    expect(filesOf(reading)).toEqual(['materials/nord\nwärts.yaml', 'studio.yaml']);
    expect(reading.strays).toEqual([{ file: 'x.yaml' }]);
  });

  it('is guarded: what is too large, no UTF-8 or too deep is said and hides nothing else', async () => {
    const folder = tempStudio({
      'studio.yaml': SETTINGS,
      'materials.yaml': MATERIALS,
      'recipes.yaml': `a: ${'['.repeat(70)}${']'.repeat(70)}\n`,
    });
    writeFileSync(join(folder, 'sales.yaml'), `# ${'x'.repeat(5 * 1024 * 1024)}`);
    writeFileSync(join(folder, 'spent.yaml'), Buffer.from([0x61, 0x3a, 0x20, 0xff, 0x0a]));
    const reading = await read(repositoryOf(inGit(folder)));
    const said = reading.findings.map(({ at, rule, message }) => [at.file, rule, message]);
    expect(said).toContainEqual([
      'sales.yaml',
      'unreadable-file',
      expect.stringContaining('too large, 5.0 MiB'),
    ]);
    expect(said.map(([file]) => file).sort()).toEqual(['recipes.yaml', 'sales.yaml', 'spent.yaml']);
    expect(filesOf(reading)).toContain('materials.yaml');
  });

  it('passes over links, dot-folders and other repositories, and says so of links and repositories', async () => {
    const folder = inGit(
      tempStudio({ 'studio.yaml': SETTINGS, '.hidden/sales.yaml': 'x: 1\n', 'm.txt': MATERIALS }),
    );
    const other = inGit(tempStudio({ 'sales.yaml': 'x: 1\n' }));
    git(folder, '-c', 'protocol.file.allow=always', 'submodule', '--quiet', 'add', other, 'sales');
    symlinkSync('m.txt', join(folder, 'materials.yaml'));
    commitAll(folder, 'More');
    const reading = await read(repositoryOf(folder));
    expect(filesOf(reading)).toEqual(['studio.yaml']);
    expect(reading.passedOver).toEqual([
      { path: 'materials.yaml', what: 'link' },
      { path: 'sales', what: 'submodule' },
    ]);
  });

  it('takes what the disk has alike from the cache, but never what git was told not to look at', async () => {
    const folder = inGit(
      tempStudio({ 'studio.yaml': SETTINGS, 'materials.yaml': MATERIALS, 'spent.yaml': '' }),
    );
    const repository = repositoryOf(folder);
    execFileSync('touch', ['-d', '2020-01-01', join(folder, 'materials.yaml')]);
    git(folder, 'update-index', '--assume-unchanged', 'spent.yaml');
    const onDisk = await readStudio(folder, { memory: openMemory(folder, storeIn(folder)) });
    if ('refused' in onDisk) throw new Error(onDisk.refused);
    onDisk.remember(takeIn(onDisk).clean.filter(({ file }) => file !== 'spent.yaml'));
    onDisk.memory.save();
    writeFileSync(
      join(folder, 'spent.yaml'),
      's1: {date: 2026-01-01, to: A, for: bank, amount: 1}\n',
    );
    const disk = { studioDir: folder, memory: openMemory(folder, storeIn(folder)) };
    const reading = sure(await readCommit(repository, commit(repository, 'HEAD'), { disk }));
    expect(reading.files.map(({ file, root }) => [file, Object.keys(root)])).toEqual([
      ['materials.yaml', ['kaolin']],
      ['spent.yaml', []],
      ['studio.yaml', ['format', 'name', 'currency']],
    ]);
  });
});

describe('kinds of repository', () => {
  const STUDIO = { 'studio.yaml': SETTINGS, 'materials.yaml': MATERIALS };

  it('a bare one', async () => {
    const folder = inGit(tempStudio({ 'pots/studio.yaml': SETTINGS, 'pots/sales.yaml': '' }));
    const bare = tempStudio({});
    git(folder, 'clone', '-q', '--bare', '.', join(bare, 'it.git'));
    const place = join(bare, 'it.git');
    expect(refusal(openRepository(place, ENVIRONMENT))).toMatch(/not in a git repository/);
    const repository = sure(openBareRepository(place, ENVIRONMENT) ?? { refused: 'none' });
    expect(repository.isBare).toBe(true);
    const [prefix = '', ...others] = studiosIn(repository, commit(repository, 'HEAD'));
    expect([prefix, others]).toEqual(['pots/', []]);
    expect(filesOf(await read({ ...repository, prefix }))).toEqual(['sales.yaml', 'studio.yaml']);
  });

  it('one with ids of 64 digits', async () => {
    const folder = tempStudio(STUDIO);
    git(folder, 'init', '-q', '--object-format=sha256');
    commitAll(folder, 'Begin');
    const repository = repositoryOf(folder);
    expect(commit(repository, 'HEAD').id).toMatch(/^[0-9a-f]{64}$/);
    expect(filesOf(await read(repository))).toEqual(['materials.yaml', 'studio.yaml']);
  });

  it('a second working tree, with the variables of a hook of another repository', async () => {
    const folder = inGit(tempStudio(STUDIO));
    const beside = join(tempStudio({}), 'beside');
    git(folder, 'worktree', 'add', '-q', beside);
    const other = inGit(tempStudio({ 'sales.yaml': '' }));
    const hook = { GIT_DIR: join(other, '.git'), GIT_INDEX_FILE: '.git/index', GIT_PREFIX: 'x/' };
    const reading = await read(repositoryOf(beside, hook));
    expect(filesOf(reading)).toEqual(['materials.yaml', 'studio.yaml']);
  });

  it('a shallow clone', () => {
    const folder = inGit(tempStudio(STUDIO));
    git(folder, 'branch', 'old');
    write(folder, 'sales.yaml', '');
    commitAll(folder, 'More');
    const clone = join(tempStudio({}), 'clone');
    git(folder, 'clone', '-q', '--depth', '1', '--no-single-branch', `file://${folder}`, clone);
    const repository = repositoryOf(clone);
    const base = commit(repository, 'origin/old');
    const head = commit(repository, 'HEAD');
    expect(refusal(startOf(repository, base, head))).toMatch(
      /shallow clone.*git fetch --unshallow$/,
    );
    expect(refusal(commitOf(repository, 'HEAD~1'))).toMatch(/shallow clone/);
  });
});

describe('revisions', () => {
  it('are commits, by any name', () => {
    const folder = inGit(tempStudio({ 'studio.yaml': SETTINGS }));
    git(folder, 'tag', '-a', 'filed-q1', '-m', 'Filed');
    const repository = repositoryOf(folder);
    const id = git(folder, 'rev-parse', 'HEAD').trim();
    for (const name of ['HEAD', 'filed-q1', id, id.slice(0, 8)])
      expect(commit(repository, name)).toEqual({ name, id });
  });

  it.each(['--output=x', '--all', '-h', '', 'no-such', 'HEAD:studio.yaml', 'a\nb', '--'])(
    '%j is refused, and leaves nothing behind',
    (name) => {
      const folder = inGit(tempStudio({ 'studio.yaml': SETTINGS }));
      expect(refusal(commitOf(repositoryOf(folder), name))).toContain('git knows no commit');
      expect(git(folder, 'status', '--porcelain')).toBe('');
    },
  );

  it('a branch that is named like an option is a branch', () => {
    const folder = inGit(tempStudio({ 'studio.yaml': SETTINGS }));
    const id = git(folder, 'rev-parse', 'HEAD').trim();
    writeFileSync(join(folder, '.git/refs/heads/--output=x'), `${id}\n`);
    expect(commit(repositoryOf(folder), '--output=x').id).toBe(id);
  });

  it('without any commit there is nothing to compare with', () => {
    const folder = tempStudio({ 'studio.yaml': SETTINGS });
    git(folder, 'init', '-q');
    expect(refusal(commitOf(repositoryOf(folder), 'HEAD'))).toMatch(/nothing is committed/);
  });

  it('histories that never met have no start', () => {
    const folder = inGit(tempStudio({ 'studio.yaml': SETTINGS }));
    git(folder, 'branch', 'first');
    git(folder, 'checkout', '-q', '--orphan', 'apart');
    git(folder, 'commit', '-qm', 'Again');
    const repository = repositoryOf(folder);
    const [base, head] = [commit(repository, 'HEAD'), commit(repository, 'first')];
    expect(refusal(startOf(repository, base, head))).toMatch(/no commit in common/);
  });

  it('outside a repository nothing can be compared', () => {
    expect(refusal(openRepository(tempStudio({}), ENVIRONMENT))).toMatch(/not in a git repository/);
  });
});
