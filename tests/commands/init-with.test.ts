import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { runCommand, type Ran } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = { 'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: USD\n' };

/** Adds parts to the studio in a folder, as from within it. */
function initWith(folder: string, parts: string, more: Record<string, string> = {}): Promise<Ran> {
  return runCommand('init', { with: parts, ...more }, { argument: '.', folder });
}

function text(folder: string, file: string): string {
  return readFileSync(join(folder, file), 'utf8');
}

describe('init --with', () => {
  it('adds hooks that may be run and a workflow to a studio', async () => {
    const folder = inGit(tempStudio({ ...STUDIO, '.gitattributes': '*.yaml text eol=lf' }));
    const { status, out, complaints } = await initWith(folder, 'hooks,workflow');
    expect([status, complaints]).toEqual([0, '']);
    expect(git(folder, 'status', '--porcelain', '--untracked-files=all').split('\n')).toEqual([
      '?? .githooks/pre-commit',
      '?? .githooks/pre-commit.d/studio',
      '?? .githooks/pre-merge-commit',
      '?? .githooks/pre-push',
      '?? .githooks/pre-push.d/studio',
      '?? .github/workflows/saggar.yml',
      '',
    ]);
    const both = ['pre-commit', 'pre-push'].flatMap((hook) => [hook, `${hook}.d/studio`]);
    for (const hook of [...both, 'pre-merge-commit'])
      expect(statSync(join(folder, '.githooks', hook)).mode & 0o111).toBe(0o111);
    expect(statSync(join(folder, '.github/workflows/saggar.yml')).mode & 0o111).toBe(0);
    expect(out).toContain('git config core.hooksPath .githooks');
  });

  it('adds nothing that is not asked for', async () => {
    const folder = inGit(tempStudio(STUDIO));
    const { out } = await initWith(folder, 'workflow');
    expect(git(folder, 'status', '--porcelain')).toBe('?? .github/\n');
    expect(out).not.toContain('core.hooksPath');
  });

  it('tells how to undo it, and names no command that deletes', async () => {
    const folder = inGit(tempStudio({ ...STUDIO, '.gitattributes': '*.yaml text eol=lf\n' }));
    const { out } = await initWith(folder, 'hooks');
    expect(out).toContain('To undo it, delete the new files, and what is new in those');
    expect(out).not.toMatch(/\brm |checkout/);
  });

  it('does nothing a second time, and still tells how to turn it on', async () => {
    const folder = inGit(tempStudio(STUDIO));
    await initWith(folder, 'hooks,workflow');
    commitAll(folder, 'Hooks');
    const { status, out } = await initWith(folder, 'hooks,workflow');
    expect(status).toBe(0);
    expect(out).toContain('All of it is there already.\n');
    expect(out).toContain('git config core.hooksPath .githooks');
    expect(git(folder, 'status', '--porcelain')).toBe('');
  });

  it('never writes over what is there, and shows where it differs', async () => {
    const own = '#!/bin/sh\nexit 0\n';
    const folder = inGit(tempStudio({ ...STUDIO, '.githooks/pre-push': own }));
    const { status, out, complaints } = await initWith(folder, 'hooks');
    expect(status).toBe(2);
    expect(complaints).toContain('nothing was written: .githooks/pre-push is there already');
    expect(out).toMatch(/^--- a\/\.githooks\/pre-push\n\+\+\+ b\/\.githooks\/pre-push\n/);
    expect(out).toContain('-exit 0');
    expect(out).not.toContain('pre-commit\n+++');
    expect(git(folder, 'status', '--porcelain')).toBe('');
  });

  it('puts files at the root of a repository around the studio, with the way to it', async () => {
    const root = tempStudio({ 'README.md': 'x\n' });
    const place = "books/potter's st";
    mkdirSync(join(root, place), { recursive: true });
    writeFileSync(join(root, place, 'studio.yaml'), STUDIO['studio.yaml']);
    inGit(root);
    const { status } = await initWith(join(root, place), 'hooks,workflow');
    expect(status).toBe(0);
    for (const hook of ['pre-commit', 'pre-push'])
      expect(text(root, `.githooks/${hook}.d/books%2Fpotter's%20st`)).toContain(
        `\nstudio='books/potter'\\''s st'\n`,
      );
    expect(parse(text(root, '.github/workflows/saggar.yml'))).toMatchObject({
      env: { STUDIO: place },
    });
  });

  it('adds a second studio of a repository beside the first, which stays as it is', async () => {
    const root = tempStudio({
      'hill/studio.yaml': STUDIO['studio.yaml'],
      'dale/studio.yaml': STUDIO['studio.yaml'],
    });
    inGit(root);
    for (const studio of ['hill', 'dale'])
      expect((await initWith(join(root, studio), 'hooks,workflow')).status).toBe(0);
    expect(git(root, 'status', '--porcelain', '-uall').trim().split('\n')).toEqual(
      [
        '.githooks/pre-commit',
        '.githooks/pre-commit.d/dale',
        '.githooks/pre-commit.d/hill',
        '.githooks/pre-merge-commit',
        '.githooks/pre-push',
        '.githooks/pre-push.d/dale',
        '.githooks/pre-push.d/hill',
        '.github/workflows/saggar-dale.yml',
        '.github/workflows/saggar.yml',
      ].map((file) => `?? ${file}`),
    );
    expect(text(root, '.github/workflows/saggar.yml')).toContain('\n  STUDIO: hill\n');
    expect(text(root, '.github/workflows/saggar-dale.yml')).toContain('\n  STUDIO: dale\n');
    for (const studio of ['hill', 'dale'])
      expect((await initWith(join(root, studio), 'hooks,workflow')).out).toContain(
        'All of it is there already.',
      );
  });

  it('makes a new studio with them where there is none', async () => {
    const parent = tempStudio({});
    const options = { with: 'hooks', name: 'Hill Street' };
    const { status, out } = await runCommand('init', options, { argument: 'hill', folder: parent });
    expect(status).toBe(0);
    expect(out).toContain('Made the studio Hill Street in hill');
    expect(out).toContain('  git config core.hooksPath .githooks');
    expect(text(parent, 'hill/.gitattributes')).toBe('*.yaml text eol=lf\n');
  });

  it('writes the schemas anew, and no record', async () => {
    const folder = tempStudio({ ...STUDIO, '.schema/sales.json': '{}\n', 'sales.yaml': '' });
    const { status, out } = await initWith(folder, 'editor');
    expect(status).toBe(0);
    expect(out).toContain('  .schema/sales.json (changed)\n  .schema/spent.json\n');
    expect(text(folder, '.schema/sales.json')).toContain('"$ref": "ids.json#/$defs/channels"');
    expect(text(folder, 'studio.yaml')).toBe(STUDIO['studio.yaml']);
    rmSync(join(folder, '.schema/sales.json'));
    expect((await initWith(folder, 'editor')).out).toBe('Wrote:\n  .schema/sales.json\n');
  });

  it.each([
    [
      'hoks',
      {},
      '"hoks" is not a choice for --with: use hooks, workflow, editor; did you mean hooks?',
    ],
    ['hooks,,workflow', {}, '"" is not a choice for --with'],
    ['hooks', { name: 'X' }, '--name is for a new studio'],
    ['hooks', { weightUnit: 'kg' }, '--weight-unit is for a new studio'],
  ])('refuses %s with %o', async (parts, more, words) => {
    const folder = tempStudio(STUDIO);
    const { status, complaints } = await initWith(folder, parts, more);
    expect(status).toBe(2);
    expect(complaints).toContain(words);
  });

  it('is told of by init on a studio', async () => {
    const folder = tempStudio(STUDIO);
    const { status, complaints } = await runCommand('init', {}, { argument: '.', folder });
    expect(status).toBe(2);
    expect(complaints).toContain('it is a studio already, to which --with adds hooks, workflow');
  });
});
