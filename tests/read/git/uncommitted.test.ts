import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { uncommittedFiles as uncommittedIn } from '../../../src/read/git/uncommitted.ts';
import { git, inGit } from '../../helpers/git.ts';
import { tempStudio } from '../../helpers/temp-studio.ts';

function uncommittedFiles(folder: string): readonly string[] | undefined {
  return uncommittedIn(folder, process.env)?.files;
}

const FILES = { 'studio.yaml': 'a\n', 'sales/2026-03.yaml': 'b\n' };

describe('files that git has not committed', () => {
  it('are none outside a repository, which is not the same as no changes', () => {
    expect(uncommittedFiles(tempStudio(FILES))).toBeUndefined();
    expect(uncommittedFiles(inGit(tempStudio(FILES)))).toEqual([]);
  });

  it('are new, changed, staged and deleted ones, each file of a new folder by itself', () => {
    const folder = inGit(tempStudio({ ...FILES, 'kilns.yaml': '', 'tariffs.yaml': '' }));
    writeFileSync(join(folder, 'studio.yaml'), 'c\n');
    writeFileSync(join(folder, 'kilns.yaml'), 'c\n');
    git(folder, 'add', 'kilns.yaml');
    rmSync(join(folder, 'tariffs.yaml'));
    mkdirSync(join(folder, 'pieces'));
    writeFileSync(join(folder, 'pieces/two words.yaml'), '');
    writeFileSync(join(folder, 'pieces/über.yaml'), '');
    expect([...(uncommittedFiles(folder) ?? [])].sort()).toEqual([
      'kilns.yaml',
      'pieces/two words.yaml',
      'pieces/über.yaml',
      'studio.yaml',
      'tariffs.yaml',
    ]);
  });

  it('are not those that git is told to ignore', () => {
    const folder = inGit(tempStudio({ ...FILES, '.gitignore': '.saggar/\n' }));
    mkdirSync(join(folder, '.saggar'));
    writeFileSync(join(folder, '.saggar/cache'), '');
    expect(uncommittedFiles(folder)).toEqual([]);
  });

  it('are only those of the studio where it is a part of the repository', () => {
    const whole = inGit(tempStudio({ 'studio/studio.yaml': 'a\n', 'other.txt': 'a\n' }));
    writeFileSync(join(whole, 'other.txt'), 'b\n');
    expect(uncommittedFiles(join(whole, 'studio'))).toEqual([]);
    writeFileSync(join(whole, 'studio/studio.yaml'), 'b\n');
    expect(uncommittedFiles(join(whole, 'studio'))).toEqual(['studio.yaml']);
  });

  it('are all of them in a repository without a commit', () => {
    const folder = tempStudio(FILES);
    git(folder, 'init', '-q');
    expect(uncommittedFiles(folder)).toHaveLength(2);
  });
});
