import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, renameSync, symlinkSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { findStudio, listFiles } from '../../src/read/find.ts';
import { MAY_BE_PLAIN, asPlainUser } from '../helpers/needed.ts';
import { folderWith, put } from './support/folder.ts';

function listed(folder: string): string[] {
  return listFiles(folder).files.map(
    ({ file, kind, linked }) => `${kind}: ${file}${linked ? ' (link)' : ''}`,
  );
}

function reported(folder: string): string[] {
  return listFiles(folder).findings.map(
    ({ rule, severity, at, message }) => `${severity} ${rule} ${at.file} ${message}`,
  );
}

describe('the studio', () => {
  test('is the nearest folder upwards with studio.yaml', () => {
    const folder = folderWith({
      'studio.yaml': '',
      'a/b/c/': '',
      'inner/studio.yaml': '',
      'inner/sales/': '',
    });
    expect(findStudio(folder)).toBe(folder);
    expect(findStudio(`${folder}/a/b/c`)).toBe(folder);
    expect(findStudio(`${folder}/inner/sales`)).toBe(`${folder}/inner`);
    expect(findStudio(`${folder}/not/there`)).toBe(folder);
  });

  test('is nowhere where no folder has one', () => {
    expect(findStudio(folderWith({ 'studio.yml': '' }))).toBeUndefined();
  });
});

describe('files', () => {
  test('of each kind, at the root or in folders, in the order of their paths', () => {
    const folder = folderWith({
      'studio.yaml': '',
      'sales.yaml': '',
      'sales/2026/03.yaml': '',
      'sales/2025.yaml': '',
      'sales/B.yaml': '',
      'sales/a.yaml': '',
      'materials.yaml': '',
      'firings/f1.yaml': '',
      'readme.md': '',
      'photos/mug.jpg': '',
    });
    expect(listed(folder)).toEqual([
      'firings: firings/f1.yaml',
      'materials: materials.yaml',
      'sales: sales.yaml',
      'sales: sales/2025.yaml',
      'sales: sales/2026/03.yaml',
      'sales: sales/B.yaml',
      'sales: sales/a.yaml',
      'studio: studio.yaml',
    ]);
    expect(listFiles(folder)).toMatchObject({ strays: [], findings: [] });
  });

  test('in dot-folders and node_modules are passed over, at any depth', () => {
    const folder = folderWith({
      '.git/sales.yaml': '',
      'sales/.old/a.yaml': '',
      'node_modules/x/a.yaml': '',
      '.b.yaml': '',
      'sales/b.yaml': '',
    });
    expect(listed(folder)).toEqual(['sales: sales/b.yaml']);
    expect(listFiles(folder).strays).toEqual([]);
  });

  test('of no kind are strays, with a suggestion where one is near', () => {
    const folder = folderWith({
      'sale.yaml': '',
      'x/ci.yml': '',
      'sales/2026.yml': '',
      'firings.yaml/a.yaml': '',
    });
    expect(listFiles(folder).strays).toEqual([
      { file: 'firings.yaml/a.yaml' },
      { file: 'sale.yaml', suggestion: 'sales.yaml' },
      { file: 'sales/2026.yml', suggestion: 'sales/2026.yaml' },
      { file: 'x/ci.yml' },
    ]);
  });

  test('of some kinds only, and the settings', () => {
    const folder = folderWith({
      'studio.yaml': '',
      'sales.yaml': '',
      'sales/a.yaml': '',
      'spent.yaml': '',
      'odd.yaml': '',
    });
    const { files, strays } = listFiles(folder, ['sales']);
    expect(files.map(({ file }) => file)).toEqual(['sales.yaml', 'sales/a.yaml', 'studio.yaml']);
    expect(strays).toEqual([]);
  });

  test('with names that need care', () => {
    const folder = folderWith({ 'sales/März – 50%.yaml': '', "sales/it's #1.yaml": '' });
    expect(listed(folder)).toEqual(['sales: sales/März – 50%.yaml', "sales: sales/it's #1.yaml"]);
  });
});

describe('links', () => {
  test('to files and folders in the studio are followed', () => {
    const folder = folderWith({
      '.store/sales.yaml': '',
      '.store/2025/a.yaml': '',
      'sales/b.yaml': '',
    });
    symlinkSync('.store/sales.yaml', `${folder}/sales.yaml`);
    symlinkSync('../.store/2025', `${folder}/sales/2025`);
    expect(listed(folder)).toEqual([
      'sales: sales.yaml (link)',
      'sales: sales/2025/a.yaml',
      'sales: sales/b.yaml',
    ]);
    expect(reported(folder)).toEqual([]);
  });

  test('to what is listed already add nothing', () => {
    const folder = folderWith({ 'sales/a.yaml': '' });
    symlinkSync('sales/a.yaml', `${folder}/sales.yaml`);
    symlinkSync('sales', `${folder}/bought`);
    expect(listed(folder)).toEqual(['sales: sales/a.yaml']);
    expect(reported(folder)).toEqual([]);
  });

  test('that make a stray file belong are enough', () => {
    const folder = folderWith({ 'archive/old.yaml': '', 'sales/': '' });
    expect(listFiles(folder).strays).toHaveLength(1);
    symlinkSync('../archive/old.yaml', `${folder}/sales/old.yaml`);
    expect(listed(folder)).toEqual(['sales: sales/old.yaml (link)']);
    expect(listFiles(folder).strays).toEqual([]);
  });

  test('out of the studio are reported and not followed', () => {
    const outside = folderWith({ 'sales.yaml': '', 'more/a.yaml': '', 'logo.png': '' });
    const folder = folderWith({ 'sales/': '' });
    symlinkSync(`${outside}/sales.yaml`, `${folder}/sales.yaml`);
    symlinkSync(`${outside}/more`, `${folder}/sales/more`);
    symlinkSync(`${outside}/more`, `${folder}/photos`);
    symlinkSync(`${outside}/logo.png`, `${folder}/logo.png`);
    expect(listed(folder)).toEqual([]);
    const words = 'it is a link that leads out of the studio, and is not followed';
    expect(reported(folder)).toEqual([
      `warning unreadable-file photos ${words}`,
      `error unreadable-file sales/more ${words}`,
      `error unreadable-file sales.yaml ${words}`,
    ]);
  });

  test('to a neighbour whose name begins like the studio lead out of it', () => {
    const parent = folderWith({ 'studio/studio.yaml': '', 'studio-old/a.yaml': '' });
    symlinkSync('../studio-old', `${parent}/studio/sales`);
    expect(reported(`${parent}/studio`)).toHaveLength(1);
  });

  test('in circles are reported and end', () => {
    const folder = folderWith({ 'sales/a.yaml': '', 'bought/b.yaml': '' });
    symlinkSync('..', `${folder}/sales/all`);
    symlinkSync('.', `${folder}/bought/here`);
    symlinkSync('me.yaml', `${folder}/sales/me.yaml`);
    expect(listed(folder)).toEqual(['bought: bought/b.yaml', 'sales: sales/a.yaml']);
    expect(reported(folder)).toHaveLength(3);
    expect(reported(folder)[0]).toContain('leads back to a folder it is in');
  });

  test('from one folder to the other and back end', () => {
    const folder = folderWith({ 'sales/a.yaml': '', 'bought/b.yaml': '' });
    symlinkSync('../bought', `${folder}/sales/x`);
    symlinkSync('../sales', `${folder}/bought/y`);
    expect(listed(folder)).toEqual(['bought: bought/b.yaml', 'sales: sales/a.yaml']);
  });

  test('that lead nowhere are reported where a file should be', () => {
    const folder = folderWith({ 'sales/': '' });
    symlinkSync('gone', `${folder}/sales/a.yaml`);
    symlinkSync('gone', `${folder}/photos`);
    expect(reported(folder)).toEqual([
      'error unreadable-file sales/a.yaml it is not there any more',
    ]);
  });

  test('the studio itself may be one', () => {
    const parent = folderWith({
      'real/studio.yaml': '',
      'real/sales/a.yaml': '',
      'real/.s/b.yaml': '',
    });
    symlinkSync('real', `${parent}/alias`);
    symlinkSync('../.s/b.yaml', `${parent}/real/sales/b.yaml`);
    expect(listed(`${parent}/alias`)).toEqual([
      'sales: sales/a.yaml',
      'sales: sales/b.yaml (link)',
      'studio: studio.yaml',
    ]);
    expect(reported(`${parent}/alias`)).toEqual([]);
  });
});

describe('what can not be read', () => {
  test.runIf(MAY_BE_PLAIN)('folders are reported, and the rest is listed', () => {
    const folder = folderWith({ 'sales/a.yaml': '', 'bought/b.yaml': '' });
    chmodSync(`${folder}/sales`, 0);
    const listing = asPlainUser(folder, () => [listed(folder), reported(folder)]);
    chmodSync(`${folder}/sales`, 0o755);
    expect(listing).toEqual([
      ['bought: bought/b.yaml'],
      ['error unreadable-file sales it may not be read'],
    ]);
  });

  test('a studio that is gone', () => {
    const folder = folderWith({ 'sales/a.yaml': '' });
    renameSync(`${folder}/sales`, `${folder}/gone`);
    expect(reported(`${folder}/sales`)).toEqual([
      'error unreadable-file . it is not there any more',
    ]);
  });

  test('a pipe is listed, for the reader to refuse', () => {
    const folder = folderWith({});
    execFileSync('mkfifo', [`${folder}/sales.yaml`]);
    expect(listed(folder)).toEqual(['sales: sales.yaml']);
  });
});

// Only some systems have names that are any bytes.
test('the order is the same whatever the order on the disk', () => {
  const names = Array.from({ length: 300 }, (_, index) => `s${(index * 7919) % 1009}.yaml`);
  const orders = [names, [...names].reverse()].map((order) => {
    const folder = folderWith({});
    mkdirSync(`${folder}/sales`);
    for (const name of order) put(folder, `sales/${name}`, '');
    return listed(folder);
  });
  expect(orders[0]).toEqual(orders[1]);
  expect(orders[0]).toHaveLength(new Set(names).size);
});
