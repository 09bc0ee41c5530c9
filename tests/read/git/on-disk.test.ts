import { execFileSync } from 'node:child_process';
import {
  appendFileSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { readIndex } from '../../../src/read/git/index-file.ts';
import { compareWithDisk } from '../../../src/read/git/on-disk.ts';
import { openRepository, type Repository } from '../../../src/read/git/repository.ts';
import { uncommittedFiles } from '../../../src/read/git/uncommitted.ts';
import { commitAll, git, inGit } from '../../helpers/git.ts';
import { gitState } from '../../helpers/git-state.ts';
import { tempStudio } from '../../helpers/temp-studio.ts';

function repositoryOf(folder: string): Repository {
  const repository = openRepository(folder, process.env);
  if ('refused' in repository) throw new Error(repository.refused);
  return repository;
}

/** Each file that is staged: whether the disk has it so. */
function compared(folder: string): Record<string, string> {
  const repository = repositoryOf(folder);
  const staged = git(folder, 'ls-files', '-s', '-z').split('\0').slice(0, -1);
  const blobs = new Map(
    staged.map((line) => [line.slice(line.indexOf('\t') + 1), line.split(' ')[1] ?? '']),
  );
  const { same, uncompared } = compareWithDisk(repository, { blobs });
  const word = (file: string): string =>
    uncompared.get(file) ?? (same.has(file) ? 'same' : 'other');
  return Object.fromEntries([...blobs.keys()].map((file) => [file, word(file)]));
}

const TEXT = 'one\ntwo\n';
const WINDOWS = 'one\r\ntwo\r\n';

describe('a file on the disk', () => {
  it('is what was staged, or is not, by its bytes', () => {
    const folder = inGit(tempStudio({ a: TEXT, b: TEXT, c: TEXT, d: TEXT, e: TEXT, f: '' }));
    expect(new Set(Object.values(compared(folder)))).toEqual(new Set(['same']));
    writeFileSync(join(folder, 'a'), 'one\ntwO\n');
    rmSync(join(folder, 'b'));
    rmSync(join(folder, 'c'));
    mkdirSync(join(folder, 'c'));
    rmSync(join(folder, 'd'));
    execFileSync('mkfifo', [join(folder, 'd')]);
    writeFileSync(join(folder, 'e'), TEXT);
    utimesSync(join(folder, 'f'), 1, 1);
    expect(compared(folder)).toEqual({
      a: 'other',
      b: 'other',
      c: 'other',
      d: 'other',
      e: 'same',
      f: 'same',
    });
  });

  it('is looked at where its times and size are as they were', async () => {
    const folder = inGit(tempStudio({ a: TEXT }));
    const path = join(folder, 'a');
    await pause(20);
    git(folder, 'update-index', '--really-refresh');
    const { atime, mtime } = statSync(path);
    const inode = statSync(path).ino;
    writeFileSync(path, 'two\none\n');
    utimesSync(path, atime, mtime);
    expect(statSync(path).ino).toBe(inode);
    expect(compared(folder)).toEqual({ a: 'other' });
  });

  it('may be a link, which is its way', () => {
    const folder = tempStudio({ a: TEXT });
    symlinkSync('a', join(folder, 'b'));
    inGit(folder);
    expect(compared(folder)).toEqual({ a: 'same', b: 'same' });
    rmSync(join(folder, 'b'));
    symlinkSync('./a', join(folder, 'b'));
    expect(compared(folder)).toEqual({ a: 'same', b: 'other' });
  });

  it('has ids of 64 digits in a repository of such', () => {
    const folder = tempStudio({ a: TEXT, b: TEXT });
    git(folder, 'init', '-q', '--object-format=sha256');
    commitAll(folder, 'Begin');
    writeFileSync(join(folder, 'a'), TEXT);
    writeFileSync(join(folder, 'b'), 'x');
    expect(compared(folder)).toEqual({ a: 'same', b: 'other' });
  });
});

describe('line ends', () => {
  it.each([
    ['*.yaml text', '', WINDOWS],
    ['*.yaml text eol=lf', '', WINDOWS],
    ['*.yaml eol=crlf', '', WINDOWS],
    ['*.yaml text=auto', '', WINDOWS],
    ['*.yaml crlf', '', WINDOWS],
    ['*.yaml -text', 'true', WINDOWS],
    ['*.yaml binary', 'true', WINDOWS],
    ['', 'true', WINDOWS],
    ['', 'input', WINDOWS],
    ['', 'false', WINDOWS],
    ['', '', WINDOWS],
    ['*.yaml text', '', 'one\rtwo\n'],
    ['*.yaml text=auto', '', 'one\r\ntwo\r\n\0'],
    ['*.yaml text=auto', '', 'one\r\ntwo\r'],
  ])('with %j and core.autocrlf=%j are taken as git takes them', (attributes, setting, text) => {
    const folder = inGit(tempStudio({ 'a.yaml': TEXT, '.gitattributes': `${attributes}\n` }));
    if (setting !== '') git(folder, 'config', 'core.autocrlf', setting);
    writeFileSync(join(folder, 'a.yaml'), text);
    const found = compared(folder)['a.yaml'];
    const staged = git(folder, 'rev-parse', ':a.yaml');
    git(folder, '-c', 'core.safecrlf=false', 'add', 'a.yaml');
    expect(found).toBe(git(folder, 'rev-parse', ':a.yaml') === staged ? 'same' : 'other');
  });
});

describe('what would have to be run', () => {
  const ATTRIBUTES = `a.yaml filter=crypt
b.yaml filter=nobody-has-it
c.yaml working-tree-encoding=UTF-16LE
d.yaml ident
`;

  function studio(): string {
    const folder = inGit(
      tempStudio({ 'a.yaml': TEXT, 'b.yaml': TEXT, 'c.yaml': TEXT, 'd.yaml': TEXT, e: TEXT }),
    );
    writeFileSync(join(folder, '.gitattributes'), ATTRIBUTES);
    git(folder, 'config', 'filter.crypt.clean', 'tr a-z b-za');
    return folder;
  }

  it('is named where the bytes differ, and only then', () => {
    const folder = studio();
    expect(new Set(Object.values(compared(folder)))).toEqual(new Set(['same']));
    for (const file of ['a.yaml', 'b.yaml', 'c.yaml', 'd.yaml', 'e'])
      writeFileSync(join(folder, file), 'other\n');
    expect(compared(folder)).toEqual({
      'a.yaml': 'the filter "crypt"',
      'b.yaml': 'other',
      'c.yaml': 'the encoding "UTF-16LE"',
      'd.yaml': 'the attribute "ident"',
      e: 'other',
    });
  });

  it('is not needed where git has seen the file just so', async () => {
    const folder = studio();
    git(folder, 'add', '--renormalize', 'a.yaml');
    git(folder, 'checkout', '-q', '--', 'a.yaml');
    expect(git(folder, 'cat-file', 'blob', ':a.yaml')).not.toBe(TEXT);
    await pause(20);
    writeFileSync(join(folder, 'new'), '');
    git(folder, 'add', 'new');
    expect(compared(folder)['a.yaml']).toBe('same');
    appendFileSync(join(folder, 'a.yaml'), 'three\n');
    expect(compared(folder)['a.yaml']).toBe('the filter "crypt"');
  });

  it('is not counted as committed, nor as not', () => {
    const folder = studio();
    commitAll(folder, 'More');
    writeFileSync(join(folder, 'a.yaml'), 'other\n');
    expect(uncommittedFiles(folder, process.env)).toEqual({
      files: [],
      uncompared: new Map([['a.yaml', 'the filter "crypt"']]),
    });
  });
});

describe('the index', () => {
  const FILES = { 'a.yaml': TEXT, 'deep/er/b.yaml': TEXT, 'deep/er/c ü.yaml': TEXT, d: '' };

  /** Paths and ids as git itself lists them. */
  function listed(folder: string): string[] {
    const lines = git(folder, 'ls-files', '-s', '-z').split('\0').slice(0, -1);
    return lines.map((line) => `${line.split(' ')[1] ?? ''} ${line.slice(line.indexOf('\t') + 1)}`);
  }

  function read(folder: string): string[] | undefined {
    const entries = readIndex(repositoryOf(folder))?.entries;
    return entries && [...entries].map(([path, { id }]) => `${id} ${path}`);
  }

  it.each(['2', '3', '4'])('of version %s is read as git reads it', (version) => {
    const folder = inGit(tempStudio(FILES));
    git(folder, 'update-index', '--index-version', version);
    writeFileSync(join(folder, 'new'), TEXT);
    // What is only meant to be added needs the longer entries.
    if (version !== '2') git(folder, 'add', '-N', 'new');
    git(folder, 'update-index', '--assume-unchanged', 'a.yaml');
    git(folder, 'update-index', '--skip-worktree', 'd');
    const entries = readIndex(repositoryOf(folder))?.entries;
    expect(read(folder)).toEqual(listed(folder));
    expect(entries?.get('a.yaml')).toMatchObject({ isAssumed: true, isSkipped: false });
    expect(entries?.get('d')).toMatchObject({ isAssumed: false, isSkipped: true });
  });

  it('of many files, of none, and of long ids', () => {
    const many = Object.fromEntries(
      Array.from({ length: 500 }, (_, at) => [`${'x'.repeat(at % 90)}${String(at)}`, '']),
    );
    const folder = tempStudio(many);
    git(folder, 'init', '-q', '--object-format=sha256');
    expect(read(folder)).toEqual([]);
    git(folder, 'add', '-A');
    expect(read(folder)).toEqual(listed(folder));
    git(folder, 'update-index', '--index-version', '4');
    expect(read(folder)).toEqual(listed(folder));
  });

  it('that shares its entries is not read, and its other file not touched', () => {
    const folder = inGit(tempStudio(FILES));
    git(folder, 'update-index', '--split-index');
    const state = gitState(folder);
    expect(read(folder)).toBeUndefined();
    writeFileSync(join(folder, 'd'), 'changed\n');
    writeFileSync(join(folder, 'e'), '');
    expect(uncommittedFiles(folder, process.env)?.files).toEqual(['d', 'e']);
    expect(gitState(folder)).toEqual(state);
  });

  it('that leaves whole folders out has none of their files for deleted', () => {
    const folder = inGit(tempStudio({ ...FILES, 'other/e': TEXT }));
    git(folder, 'sparse-checkout', 'set', '--cone', '--sparse-index', 'other');
    expect(read(folder)?.some((line) => line.endsWith(' deep/'))).toBe(true);
    expect(uncommittedFiles(folder, process.env)?.files).toEqual([]);
    writeFileSync(join(folder, 'other/e'), '');
    expect(uncommittedFiles(folder, process.env)?.files).toEqual(['other/e']);
  });

  it('that is damaged is as none', () => {
    const folder = inGit(tempStudio(FILES));
    const path = join(folder, '.git/index');
    const whole = readFileSync(path);
    const damaged = [
      whole.subarray(0, 100),
      Buffer.alloc(0),
      Buffer.concat([Buffer.from('DIRX'), whole.subarray(4)]),
      Buffer.concat([whole.subarray(0, 8), Buffer.from([255, 255, 255, 255]), whole.subarray(12)]),
      Buffer.concat([whole, Buffer.from('xxxx')]),
    ];
    for (const bytes of damaged) {
      writeFileSync(path, bytes);
      expect(readIndex(repositoryOf(folder))).toBeUndefined();
      expect(uncommittedFiles(folder, process.env)?.files).toEqual([]);
    }
    renameSync(path, `${path}-away`);
    execFileSync('mkfifo', [path]);
    expect(readIndex(repositoryOf(folder))).toBeUndefined();
  });
});
