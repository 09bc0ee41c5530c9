import { mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeNewFile, writeNewFolder, type NewWriter } from '../../src/write/folder.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const UID = process.getuid?.();
const FILES = new Map([
  ['index.html', '<!doctype html>'],
  ['records/sales.csv', 'id\r\n'],
]);

/** Everything in a folder, hidden files too. */
function everything(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
}

describe('a new folder', () => {
  it('is made with the folders that lead to it', async () => {
    const base = tempStudio({});
    expect(await writeNewFolder(join(base, 'a/b/out'), FILES, { uid: UID })).toBeUndefined();
    expect(filesIn(base)).toEqual({
      'a/b/out/index.html': '<!doctype html>',
      'a/b/out/records/sales.csv': 'id\r\n',
    });
    expect(everything(join(base, 'a/b'))).toEqual([
      'out',
      'out/index.html',
      'out/records',
      'out/records/sales.csv',
    ]);
  });

  it('has the permissions of any new folder, or of the empty one that was there', async () => {
    const base = tempStudio({});
    mkdirSync(join(base, 'plain'));
    mkdirSync(join(base, 'closed'), { mode: 0o700 });
    expect(await writeNewFolder(join(base, 'out'), FILES, { uid: UID })).toBeUndefined();
    expect(await writeNewFolder(join(base, 'closed'), FILES, { uid: UID })).toBeUndefined();
    const modeOf = (path: string): number => statSync(join(base, path)).mode & 0o7777;
    expect(modeOf('out')).toBe(modeOf('plain'));
    expect(modeOf('out/records')).toBe(modeOf('plain'));
    expect(modeOf('closed')).toBe(0o700);
  });

  it('may be there if it is empty', async () => {
    const base = tempStudio({});
    mkdirSync(join(base, 'out'));
    expect(await writeNewFolder(join(base, 'out'), FILES, { uid: UID })).toBeUndefined();
    expect(Object.keys(filesIn(base))).toEqual(['out/index.html', 'out/records/sales.csv']);
  });

  it('is refused where something is in it, and that is left alone', async () => {
    const base = tempStudio({ 'out/mine.txt': 'mine' });
    expect(await writeNewFolder(join(base, 'out'), FILES, { uid: UID })).toEqual({
      refused: `${join(base, 'out')} is not empty`,
    });
    expect(filesIn(base)).toEqual({ 'out/mine.txt': 'mine' });
  });

  it('is made whole or not at all', async () => {
    const base = tempStudio({});
    // A file where a folder has to be: the disk refuses half-way.
    const clash = new Map([...FILES, ['index.html/x', 'never']]);
    const refused = await writeNewFolder(join(base, 'a/out'), clash, { uid: UID });
    expect(refused?.refused).toMatch(/out can't be written: /);
    expect(everything(base)).toEqual([]);
  });

  it('is refused where a file is in the way', async () => {
    const base = tempStudio({ 'a.txt': 'mine' });
    const out = join(base, 'a.txt/out');
    expect(await writeNewFolder(out, FILES, { uid: UID })).toEqual({
      refused: `${out} is a file, or leads through one`,
    });
    expect(filesIn(base)).toEqual({ 'a.txt': 'mine' });
  });
});

/** The steps that a program takes when it is stopped. */
function stops(): { readonly steps: Set<() => void>; readonly onExit: NewWriter['onExit'] } {
  const steps = new Set<() => void>();
  const onExit = (step: () => void): (() => void) => {
    steps.add(step);
    return () => void steps.delete(step);
  };
  return { steps, onExit };
}

describe('a folder whose writing is stopped', () => {
  it('leaves nothing of it, nor of the folders that lead to it', async () => {
    const base = tempStudio({});
    const { steps, onExit } = stops();
    const seen: string[][] = [];
    function* files(): Generator<readonly [string, string]> {
      yield ['index.html', '<!doctype html>'];
      seen.push(everything(base).map((path) => path.replace(/\.out-\w+/, 'hidden')));
      for (const step of steps) step();
      seen.push(everything(base));
      throw new Error('the program would end here');
    }
    await writeNewFolder(join(base, 'a/out'), files(), { uid: UID, onExit });
    const hidden = ['a/hidden', 'a/hidden/out', 'a/hidden/out/index.html'];
    expect(seen).toEqual([['a', ...hidden], []]);
  });

  it('has nothing more to do once it is written, whole or in pieces', async () => {
    const base = tempStudio({});
    const { steps, onExit } = stops();
    const pieces = new Map([['a.csv', ['id\r\n', 's1\r\n']]]);
    expect(await writeNewFolder(join(base, 'out'), pieces, { uid: UID, onExit })).toBeUndefined();
    expect(steps.size).toBe(0);
    expect(filesIn(base)).toEqual({ 'out/a.csv': 'id\r\ns1\r\n' });
  });
});

describe('a new file', () => {
  it('is written, with nothing beside it', async () => {
    const base = tempStudio({});
    expect(
      await writeNewFile(join(base, 'a.zip'), new Uint8Array([1, 2]), { uid: UID }),
    ).toBeUndefined();
    expect(everything(base)).toEqual(['a.zip']);
    expect([...readFileSync(join(base, 'a.zip'))]).toEqual([1, 2]);
  });

  it('never takes the place of another', async () => {
    const base = tempStudio({});
    writeFileSync(join(base, 'a.zip'), 'mine');
    expect(await writeNewFile(join(base, 'a.zip'), new Uint8Array([1]), { uid: UID })).toEqual({
      refused: `${join(base, 'a.zip')} is there already`,
    });
    expect(readFileSync(join(base, 'a.zip'), 'utf8')).toBe('mine');
  });

  it('is refused where its folder is not', async () => {
    const base = tempStudio({});
    const refused = await writeNewFile(join(base, 'none/a.zip'), new Uint8Array([1]), { uid: UID });
    expect(refused).toEqual({
      refused: `${join(base, 'none/a.zip')} can't be written: its folder is gone`,
    });
    expect(everything(base)).toEqual([]);
  });
});
