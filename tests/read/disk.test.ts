import { execFileSync } from 'node:child_process';
import { chmodSync, lstatSync, mkdirSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  LARGEST_FILE,
  isSameState,
  readSource,
  stampOf,
  whyUnreadable,
} from '../../src/read/disk.ts';
import { MAY_BE_PLAIN, asPlainUser } from '../helpers/needed.ts';
import { folderWith } from './support/folder.ts';

describe('the text of a file', () => {
  test('with its state', () => {
    const folder = folderWith({ 'sales/2026.yaml': '\ufeffa: 1\n' });
    expect(readSource(folder, 'sales/2026.yaml')).toEqual({
      text: 'a: 1\n',
      stamp: stampOf(`${folder}/sales/2026.yaml`),
    });
  });

  test('one after the other, of any size', () => {
    const sizes = [0, 10, 262_143, 262_144, 262_145, 1_000_000, 5];
    const files = Object.fromEntries(sizes.map((size) => [`s${size}.yaml`, '#'.repeat(size)]));
    const folder = folderWith(files);
    for (const [file, text] of Object.entries(files))
      expect(readSource(folder, file)).toMatchObject({ text });
  });

  test('up to 5 MiB, and not a byte more', () => {
    expect(LARGEST_FILE).toBe(5_242_880);
    const folder = folderWith({ 'a.yaml': '#'.repeat(5_242_880), 'b.yaml': '#'.repeat(5_242_881) });
    expect(readSource(folder, 'a.yaml')).toHaveProperty('text.length', 5_242_880);
    expect(readSource(folder, 'b.yaml')).toMatchObject({
      rule: 'unreadable-file',
      severity: 'error',
      at: { file: 'b.yaml', line: 1, column: 1, width: 1, source: '' },
      message: 'the file is too large, 5.0 MiB: files up to 5 MiB are read',
    });
  });

  test('of which nothing is left in the next', () => {
    const folder = folderWith({ 'a.yaml': 'long: text', 'b.yaml': 'b' });
    readSource(folder, 'a.yaml');
    expect(readSource(folder, 'b.yaml')).toMatchObject({ text: 'b' });
  });
});

describe('no text', () => {
  test('where there is no file, or a folder', () => {
    const folder = folderWith({ 'sales/': '' });
    expect(readSource(folder, 'gone.yaml')).toMatchObject({
      rule: 'unreadable-file',
      message: 'it is not there any more',
    });
    expect(readSource(folder, 'sales')).toMatchObject({ rule: 'unreadable-file' });
  });

  test('in a pipe, which is not waited for', () => {
    const folder = folderWith({});
    execFileSync('mkfifo', [`${folder}/sales.yaml`]);
    expect(readSource(folder, 'sales.yaml')).toMatchObject({
      message: 'it is not an ordinary file',
    });
  });

  test('in a link that leads in a circle', () => {
    const folder = folderWith({});
    symlinkSync('a.yaml', `${folder}/a.yaml`);
    expect(readSource(folder, 'a.yaml')).toMatchObject({
      message: 'it is a link that leads in a circle',
    });
  });

  test.runIf(MAY_BE_PLAIN)('in a file that may not be read', () => {
    const folder = folderWith({ 'a.yaml': 'a: 1' });
    chmodSync(`${folder}/a.yaml`, 0);
    const said = asPlainUser(folder, () => readSource(folder, 'a.yaml'));
    expect(said).toMatchObject({ message: 'it may not be read' });
  });

  test.each([
    [{ code: 'EACCES' }, 'it may not be read'],
    [{ code: 'EIO' }, 'it could not be read (EIO)'],
    [new Error('odd'), 'it could not be read (no reason given)'],
  ])('for a reason in words: %j', (error, message) => {
    expect(whyUnreadable(error).message).toBe(message);
  });
});

describe('the state of a file', () => {
  test('is the same until it changes', () => {
    const path = `${folderWith({ 'a.yaml': 'a: 1' })}/a.yaml`;
    const before = stampOf(path)!;
    expect(isSameState(before, stampOf(path)!)).toBe(true);
    writeFileSync(path, 'a: 22');
    expect(isSameState(before, stampOf(path)!)).toBe(false);
  });

  test('is another one when only the time of the change differs', async () => {
    const path = `${folderWith({ 'a.yaml': 'a: 1' })}/a.yaml`;
    utimesSync(path, 1_700_000_000, 1_700_000_000);
    const before = stampOf(path)!;
    await new Promise((done) => setTimeout(done, 20));
    writeFileSync(path, 'a: 2');
    utimesSync(path, 1_700_000_000, 1_700_000_000);
    const after = stampOf(path)!;
    expect(after).toMatchObject({
      size: before.size,
      modified: before.modified,
      inode: before.inode,
    });
    expect(isSameState(before, after)).toBe(false);
  });

  test('says which file it is of', () => {
    const folder = folderWith({ 'a.yaml': 'a: 1', 'b.yaml': 'a: 1' });
    const [one, other] = ['a.yaml', 'b.yaml'].map((name) => stampOf(`${folder}/${name}`)?.inode);
    expect([one, other]).toEqual(
      ['a.yaml', 'b.yaml'].map((name) => lstatSync(`${folder}/${name}`).ino),
    );
    expect(one).not.toBe(other);
    const source = readSource(folder, 'b.yaml');
    expect('stamp' in source && source.stamp.inode).toBe(other);
  });

  test.each(['size', 'modified', 'changed', 'inode'] as const)(
    'is another one when %s differs',
    (part) => {
      const stamp = { size: 1, modified: 2, changed: 3, inode: 4 };
      expect(isSameState(stamp, { ...stamp })).toBe(true);
      expect(isSameState(stamp, { ...stamp, [part]: 9 })).toBe(false);
    },
  );

  test('is unknown of links, of folders and of what is not there', () => {
    const folder = folderWith({ 'a.yaml': 'a: 1' });
    symlinkSync('a.yaml', `${folder}/b.yaml`);
    mkdirSync(`${folder}/c`);
    for (const name of ['b.yaml', 'c', 'd.yaml', 'a.yaml/e'])
      expect(stampOf(`${folder}/${name}`)).toBeUndefined();
  });
});
