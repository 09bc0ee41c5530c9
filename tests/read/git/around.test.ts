import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, realpathSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { repositoryAround } from '../../../src/read/git/around.ts';
import { openBareRepository, openRepository } from '../../../src/read/git/repository.ts';
import { git, inGit } from '../../helpers/git.ts';
import { tempStudio } from '../../helpers/temp-studio.ts';

const FILES = { 'books/studio.yaml': 'format: 1\n' };

function studio(): string {
  return realpathSync(inGit(tempStudio(FILES)));
}

/** Where git keeps what it knows, or why it is not asked. */
function opened(folder: string): string {
  const repository = openRepository(folder, process.env);
  return 'refused' in repository ? repository.refused : repository.gitDir;
}

describe('the repository around a studio', () => {
  it('is the nearest above it, with the way from its root', () => {
    const root = studio();
    const expected = { root, prefix: 'books/', gitDir: join(root, '.git') };
    expect(repositoryAround(join(root, 'books'))).toEqual(expected);
    expect(opened(join(root, 'books'))).toBe(join(root, '.git'));
  });

  it('is that of a second working tree, a submodule, or a folder that lies elsewhere', () => {
    const root = studio();
    const beside = join(realpathSync(tempStudio({})), 'beside');
    git(root, 'worktree', 'add', '-q', beside);
    expect(opened(join(beside, 'books'))).toBe(join(root, '.git/worktrees/beside'));
    git(root, '-c', 'protocol.file.allow=always', 'submodule', '--quiet', 'add', studio(), 'sub');
    expect(opened(join(root, 'sub/books'))).toBe(join(root, '.git/modules/sub'));
    const apart = studio();
    const elsewhere = join(realpathSync(tempStudio({})), 'kept');
    git(apart, 'init', '-q', '--separate-git-dir', elsewhere);
    expect(opened(join(apart, 'books'))).toBe(elsewhere);
  });

  it('is found above a folder that is only called like one', () => {
    const root = studio();
    mkdirSync(join(root, 'books/.git'));
    expect(opened(join(root, 'books'))).toBe(join(root, '.git'));
  });

  /** The repository of another studio among the files of this one. */
  function withContent(root: string): void {
    cpSync(join(studio(), '.git'), join(root, 'books/kept'), { recursive: true });
  }

  it.each<[string, (folder: string) => void]>([
    [
      'a file that leads to files beside it',
      (at) => {
        writeFileSync(join(at, '.git'), 'gitdir: kept\n');
      },
    ],
    [
      'a file that leads there by a detour',
      (at) => {
        writeFileSync(join(at, '.git'), 'gitdir: x/../../books/kept\n');
      },
    ],
    [
      'a link to them',
      (at) => {
        symlinkSync('kept', join(at, '.git'));
      },
    ],
    [
      'a file that leads nowhere',
      (at) => {
        writeFileSync(join(at, '.git'), 'gitdir: gone\n');
      },
    ],
    [
      'a file without a way',
      (at) => {
        writeFileSync(join(at, '.git'), 'format: 1\n');
      },
    ],
    [
      'a link to nothing',
      (at) => {
        symlinkSync('gone', join(at, '.git'));
      },
    ],
    [
      'a pipe',
      (at) => {
        execFileSync('mkfifo', [join(at, '.git')]);
      },
    ],
  ])('is none by %s, nor the one above it', (_, make) => {
    const root = studio();
    withContent(root);
    mkdirSync(join(root, 'books/x'));
    make(join(root, 'books'));
    expect(opened(join(root, 'books'))).toBe(
      `${root}/books/.git does not lead to a repository, so git is not asked`,
    );
  });

  it('is never one whose files lie beside those of the studio', () => {
    const loose = realpathSync(tempStudio({ 'studio.yaml': 'format: 1\n' }));
    cpSync(join(studio(), '.git'), loose, { recursive: true });
    expect(opened(loose)).toMatch(/is not in a git repository/);
    const root = studio();
    cpSync(join(studio(), '.git'), join(root, 'books'), { recursive: true });
    expect(opened(join(root, 'books'))).toBe(join(root, '.git'));
  });

  it.skipIf(process.getuid?.() !== 0)('is not read where it belongs to somebody else', () => {
    const root = studio();
    execFileSync('chown', ['-R', '12345', root]);
    expect(opened(join(root, 'books'))).toMatch(
      /^git does not answer for .*: detected dubious ownership in repository at/,
    );
  });
});

describe('a repository without a working tree', () => {
  function bare(): string {
    const place = join(realpathSync(tempStudio({})), 'it.git');
    git(studio(), 'clone', '-q', '--bare', '.', place);
    return place;
  }

  it('is the folder that is named, and no folder in it', () => {
    const place = bare();
    expect(openBareRepository(place, process.env)).toMatchObject({ gitDir: place, isBare: true });
    expect(openBareRepository(join(place, 'refs'), process.env)).toBeUndefined();
  });

  it('is refused among the files of another', () => {
    const root = studio();
    renameSync(bare(), join(root, 'books/it.git'));
    expect(openBareRepository(join(root, 'books/it.git'), process.env)).toEqual({
      refused: `${root}/books/it.git lies among the files of the repository ${root}, so it is not taken for one of its own`,
    });
  });

  it('is not the folder of one that has files', () => {
    expect(openBareRepository(join(studio(), '.git'), process.env)).toBeUndefined();
  });
});
