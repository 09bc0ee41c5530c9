import { mkdirSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptOfCommit, type CommitState } from '../../../src/read/git/kept.ts';

let studioDir = '';

beforeEach(() => {
  studioDir = mkdtempSync(join(tmpdir(), 'saggar-kept-'));
});

afterEach(() => {
  rmSync(studioDir, { recursive: true });
});

function kept(other: Partial<CommitState> = {}) {
  return keptOfCommit({
    studioDir,
    stamp: 'one',
    repository: { prefix: '' },
    commit: { id: 'c0ffee' },
    blobs: new Map([['sales.yaml', 'b10b']]),
    ...other,
  });
}

function files(): string[] {
  const folder = join(studioDir, '.saggar/commits');
  return readdirSync(folder).map((name) => join(folder, name));
}

describe('what was found of a commit', () => {
  it('is found again by what was asked', () => {
    kept().keep('findings', [{ rule: 'a' }]);
    kept().keep('figures', { value: '1.10' });
    expect(kept().recall('findings')).toEqual([{ rule: 'a' }]);
    expect(kept().recall('figures')).toEqual({ value: '1.10' });
    expect(kept().recall('other')).toBeUndefined();
  });

  it.each<[string, Partial<CommitState>]>([
    ['another commit', { commit: { id: 'beef' } }],
    ['another program', { stamp: 'two' }],
    ['another studio in the repository', { repository: { prefix: 'north/' } }],
    ['the same commit with other content', { blobs: new Map([['sales.yaml', 'face']]) }],
  ])('does not hold for %s', (_, other) => {
    kept().keep('findings', []);
    expect(kept(other).recall('findings')).toBeUndefined();
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
    expect(readdirSync(join(studioDir, '.saggar')).sort()).toEqual(['.gitignore', 'commits']);
  });

  it('is not written through a link', () => {
    const outside = join(studioDir, 'outside');
    mkdirSync(outside);
    symlinkSync(outside, join(studioDir, '.saggar'));
    kept().keep('findings', []);
    expect(readdirSync(outside)).toEqual([]);
  });
});
