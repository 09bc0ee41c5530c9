/** Problems for hosts of repositories: their paths are those of the repository, wherever the studio is. */
import { cpSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { repositoryAround } from '../../src/read/git/around.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { FIXTURES } from '../helpers/fixtures.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/** A repository with the studio of a rule's fixtures in a folder of it. */
function repositoryWith(rule: string, place: string): string {
  const root = tempStudio({ 'README.md': 'A studio is in here.\n' });
  mkdirSync(join(root, place), { recursive: true });
  cpSync(join(FIXTURES, rule, 'bad'), join(root, place), { recursive: true });
  return inGit(root);
}

async function placesOf(folder: string): Promise<string[]> {
  const { out } = await run(check, folder, { options: { as: 'annotations' } });
  return [...out.matchAll(/^::\w+ file=([^,]*),line=(\d+)/gm)].map(
    ([, file = '', line = '']) => `${file}:${line}`,
  );
}

describe('check --as annotations', () => {
  it('names files from the root of the repository', async () => {
    const root = repositoryWith('price-missing', 'books/hill street');
    const places = await placesOf(join(root, 'books/hill street'));
    expect(places.length).toBeGreaterThan(0);
    expect(places.every((place) => place.startsWith('books/hill street/'))).toBe(true);
  });

  it('names files from the studio where that is the root, or where there is no repository', async () => {
    const root = repositoryWith('price-missing', '.');
    const places = await placesOf(root);
    expect(places.every((place) => place.startsWith('products.yaml:'))).toBe(true);
    const loose = tempStudio({});
    cpSync(join(FIXTURES, 'price-missing', 'bad'), loose, { recursive: true });
    expect(await placesOf(loose)).toEqual(places);
  });

  it('does so in a worktree as well', async () => {
    const root = repositoryWith('price-missing', 'books');
    const beside = join(tempStudio({}), 'worktree');
    git(root, 'worktree', 'add', '-q', beside);
    const places = await placesOf(join(beside, 'books'));
    expect(places.length).toBeGreaterThan(0);
    expect(places).toEqual(await placesOf(join(root, 'books')));
    expect(repositoryAround(join(beside, 'books'))?.prefix).toBe('books/');
  });

  it.each(['annotations', 'sarif'])('as %s ends with the status of any check', async (as) => {
    const wrong = repositoryWith('schema', 'books');
    const warned = repositoryWith('price-missing', 'books');
    const statuses = [
      await run(check, join(wrong, 'books'), { options: { as } }),
      await run(check, join(warned, 'books'), { options: { as } }),
      await run(check, join(warned, 'books'), { options: { as, strict: true } }),
      await run(check, tempStudio({}), { options: { as } }),
    ].map(({ status }) => status);
    expect(statuses).toEqual([1, 0, 1, 2]);
  });
});
