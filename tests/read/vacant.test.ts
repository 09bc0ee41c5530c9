import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { whyNotVacant } from '../../src/read/find.ts';
import { newStudioFiles, schemaFiles } from '../../src/read/package.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

describe('a vacant folder', () => {
  it('is empty, not there, or has only a repository', () => {
    const folder = tempStudio({});
    expect(whyNotVacant(folder)).toBeUndefined();
    expect(whyNotVacant(join(folder, 'a/b'))).toBeUndefined();
    mkdirSync(join(folder, '.git'));
    expect(whyNotVacant(folder)).toBeUndefined();
  });

  it('has nothing else in it, not even what is hidden', () => {
    expect(whyNotVacant(tempStudio({ '.notes': '', a: '' }))).toBe(
      'is not empty: it has .notes, a in it',
    );
    const many = tempStudio({ e: '', d: '', c: '', b: '', a: '' });
    expect(whyNotVacant(many)).toBe('is not empty: it has a, b, c and 2 more in it');
  });

  it('is no file, nor below one', () => {
    const folder = tempStudio({ a: '' });
    expect(whyNotVacant(join(folder, 'a'))).toBe('is a file, or leads through one');
    expect(whyNotVacant(join(folder, 'a/b'))).toBe('is a file, or leads through one');
  });
});

describe('the files of the program', () => {
  it('are the schemas without what is built from them, and the files of a new studio', () => {
    expect(Object.keys(schemaFiles())).toEqual(
      expect.arrayContaining(['values.json', 'sales.json']),
    );
    expect(Object.keys(schemaFiles()).filter((name) => !/^[a-z]+\.json$/.test(name))).toEqual([]);
    expect(Object.keys(newStudioFiles())).toEqual(
      expect.arrayContaining(['studio.yaml', 'sales/README.yaml']),
    );
  });
});
