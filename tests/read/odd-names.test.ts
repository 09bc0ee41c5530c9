import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { listFiles } from '../../src/read/find.ts';
import { folderWith } from './support/folder.ts';

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

const hasBytes = process.platform === 'linux';

describe.skipIf(!hasBytes)('names that are not valid UTF-8', () => {
  const bytes = (folder: string, name: string): Buffer =>
    Buffer.concat([Buffer.from(`${folder}/`), Buffer.from(name, 'latin1')]);

  test('are said so with their bytes, of files, folders and links; the others are read', () => {
    const folder = folderWith({ 'studio.yaml': '', 'sales/a.yaml': '', 'bought/': '' });
    writeFileSync(bytes(folder, 'sales/caf\xe9.yaml'), '');
    writeFileSync(bytes(folder, "sales/o'x\xff.yml"), '');
    mkdirSync(bytes(folder, 'bought/m\xe4rz'));
    symlinkSync('../sales/a.yaml', bytes(folder, 'bought/l\xe9.yaml'));
    expect(listed(folder)).toEqual(['sales: sales/a.yaml', 'studio: studio.yaml']);
    expect(reported(folder)).toEqual(
      ['bought/l\\xE9.yaml', 'bought/m\\xE4rz', 'sales/caf\\xE9.yaml', "sales/o'x\\xFF.yml"].map(
        (file) =>
          `error unreadable-file ${file} its name is not valid UTF-8 (the bytes that are not are shown as \\x and two digits)`,
      ),
    );
    const hints = listFiles(folder).findings.map(({ hint }) => hint);
    expect(hints).toContain(
      "give it another name, in its folder: mv -- $'o\\'x\\xFF.yml' NEW-NAME.yml",
    );
  });

  test('of two that look alike to the system each is said', () => {
    const folder = folderWith({ 'studio.yaml': '', 'sales/': '' });
    for (const byte of ['\xe8', '\xe9']) writeFileSync(bytes(folder, `sales/${byte}.yaml`), '');
    expect(reported(folder).join()).toMatch(/\\xE8.*\\xE9/s);
  });

  test('matter only where records may be; elsewhere a folder is a warning, other files nothing', () => {
    const folder = folderWith({ 'studio.yaml': '', 'sales/': '' });
    writeFileSync(bytes(folder, 'sales/photo\xe9.jpg'), '');
    mkdirSync(bytes(folder, 'photos-\xe9'));
    expect(reported(folder)).toEqual([
      expect.stringMatching(/^warning unreadable-file photos-\\xE9/),
    ]);
  });

  test('are not those that have the sign for lost characters in them', () => {
    expect(listed(folderWith({ 'studio.yaml': '', 'sales/caf\ufffd.yaml': '' }))).toEqual([
      'sales: sales/caf\ufffd.yaml',
      'studio: studio.yaml',
    ]);
  });

  test('can be given another name as the hint says', () => {
    const folder = folderWith({ 'studio.yaml': '', 'sales/': '' });
    writeFileSync(bytes(folder, "sales/caf\xe9 '\\b.yaml"), '');
    const [{ hint } = { hint: '' }] = listFiles(folder).findings;
    const command = hint.replace(/^.*?: /, '');
    execFileSync('bash', ['-c', command], { cwd: `${folder}/sales` });
    expect(listed(folder)).toContain('sales: sales/NEW-NAME.yaml');
  });
});
