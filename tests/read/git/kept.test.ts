import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptOfCommit, type CommitState } from '../../../src/read/git/kept.ts';
import type { Kept } from '../../../src/read/kept.ts';
import { folderOf, storeIn } from '../../helpers/memory.ts';

let studioDir = '';

beforeEach(() => {
  studioDir = mkdtempSync(join(tmpdir(), 'saggar-kept-'));
});

afterEach(() => {
  rmSync(studioDir, { recursive: true });
});

function maybeKept(other: Partial<CommitState> = {}) {
  return keptOfCommit({
    store: storeIn(studioDir, 'one'),
    reading: { blobs: new Map([['sales.yaml', 'b10b']]), findings: [] },
    ...other,
  });
}

function kept(other: Partial<CommitState> = {}): Kept {
  const found = maybeKept(other);
  if (!found) throw new Error('nothing can be kept');
  return found;
}

function files(): string[] {
  const folder = folderOf(storeIn(studioDir, 'one'));
  return readdirSync(folder).map((name) => join(folder, name));
}

describe('what was found of a commit', () => {
  it('is found again by what was asked', () => {
    kept().keep('findings', [{ rule: 'a' }]);
    expect(kept().recall('findings')).toEqual([{ rule: 'a' }]);
    // It may take the place of the other, for there are so many and no more.
    kept().keep('figures', { value: '1.10' });
    expect(kept().recall('figures')).toEqual({ value: '1.10' });
    expect(kept().recall('other')).toBeUndefined();
  });

  it.each<[string, () => Partial<CommitState>]>([
    ['another program', () => ({ store: storeIn(studioDir, 'two') })],
    ['another file', () => ({ reading: { blobs: new Map([['s.yaml', 'b10b']]), findings: [] } })],
    [
      'other content',
      () => ({ reading: { blobs: new Map([['sales.yaml', 'face']]), findings: [] } }),
    ],
  ])('does not hold for %s', (_, other) => {
    kept().keep('findings', []);
    expect(kept(other()).recall('findings')).toBeUndefined();
  });

  it.each<[string, (text: string) => string]>([
    ['cut short', (text) => text.slice(0, -2)],
    ['altered', (text) => text.replace('"a"', '"b"')],
    ['emptied', () => ''],
  ])('is passed over when its file was %s', (_, damage) => {
    kept().keep('findings', [{ rule: 'a' }]);
    const [file = ''] = files();
    writeFileSync(file, damage(readFileSync(file, 'utf8')));
    expect(kept().recall('findings')).toBeUndefined();
  });

  it('takes a bounded number of files', () => {
    for (let asked = 0; asked < 500; asked += 1) kept().keep(`question ${String(asked)}`, asked);
    const count = files().length;
    expect(count).toBeGreaterThan(32);
    expect(count).toBeLessThanOrEqual(64);
    expect(kept().recall('question 499')).toBe(499);
    expect(readdirSync(studioDir)).toEqual([]);
  });

  it.each<[string, Partial<CommitState>]>([
    ['where nothing is remembered', { store: undefined }],
    [
      'of a commit that is not here as a whole',
      {
        reading: {
          blobs: new Map(),
          findings: [
            {
              rule: 'unreadable-file',
              severity: 'error',
              at: { file: 'sales.yaml', path: [] },
              message: '',
              hint: '',
            },
          ],
        },
      },
    ],
  ])('has no place %s', (_, other) => {
    expect(maybeKept(other)).toBeUndefined();
  });
});
