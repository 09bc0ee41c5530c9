/** What was tried: which tests are shown, their pictures on a page, and a version from a good tile. */
import { Buffer } from 'node:buffer';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inGit } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';

async function idsOf(options: Record<string, string>, argument?: string): Promise<string[]> {
  const asked = argument === undefined ? {} : { argument };
  const { out } = await runCommand('tests', { ...options, as: 'json' }, asked);
  return (JSON.parse(out) as { rows: { test: string }[] }).rows.map(({ test }) => test);
}

describe('tests are shown', () => {
  it.each([
    [{}, 'river-blue', ['t260518zt', 't251212cn', 't251121eq', 't250221hs']],
    [{ year: '2025' }, 'river-blue', ['t251212cn', 't251121eq', 't250221hs']],
    [{ verdict: 'good' }, undefined, ['t260518zt']],
    [{ class: 'wheel-2026-spring' }, undefined, ['t260518zt']],
    [{ kind: 'oven' }, undefined, ['t251010qc']],
    [{ kind: 'oven', verdict: 'no' }, undefined, []],
  ])('by %o %s', async (options, recipe, ids) => {
    expect(await idsOf(options, recipe)).toEqual(ids);
  });

  it.each([
    [{}, 'river-bleu', /did you mean river-blue/],
    [{ class: 'wheel' }, undefined, /is not a class|no class|class/],
  ])('and not by %o %s', async (options, recipe, words) => {
    const { status, complaints } = await runCommand(
      'tests',
      { ...options, as: 'text' },
      recipe === undefined ? {} : { argument: recipe },
    );
    expect(status).toBe(2);
    expect(complaints).toMatch(words);
  });
});

// One point, by any PNG writer.
const POINT = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

describe('a page', () => {
  it('has the photo in it, under the words of the test, and may show it', async () => {
    const folder = exampleCopy();
    mkdirSync(join(folder, 'photos'));
    writeFileSync(join(folder, 'photos', 't260518zt.jpg'), POINT);
    const page = (await runCommand('tests', { as: 'html' }, { argument: 'river-blue', folder }))
      .out;
    expect(page.match(/<img [^>]*src="data:image\/png;base64,[A-Za-z0-9+/=]+"/g)).toHaveLength(1);
    expect(page).toContain('alt="tile t260518zt river-blue"');
    expect(page).toContain('img-src data:');
  });

  it('says which photo is not there, and shows none then', async () => {
    const page = (await runCommand('tests', { as: 'html' }, { argument: 'river-blue' })).out;
    expect(page).toContain('photos/t260518zt.jpg (not in this copy of the studio)');
    expect(page).not.toContain('<img');
  });

  it('says how large a photo is that is too large', async () => {
    const folder = exampleCopy();
    mkdirSync(join(folder, 'photos'));
    writeFileSync(join(folder, 'photos', 't260518zt.jpg'), Buffer.alloc(400 * 1024));
    const page = (await runCommand('tests', { as: 'html' }, { argument: 'river-blue', folder }))
      .out;
    expect(page).toContain('photos/t260518zt.jpg (400 KB: pages have pictures of up to 300 KB)');
  });
});

describe('a version from a good tile', () => {
  async function revised(tile: string, more: Record<string, string> = {}, argument?: string) {
    const folder = exampleCopy();
    const asked = argument === undefined ? {} : { argument };
    const done = await runCommand('revise', { tile, ...more }, { ...asked, folder });
    return { ...done, recipes: readFileSync(join(folder, 'recipes.yaml'), 'utf8') };
  }

  it('is written with what was tried, and where it is from', async () => {
    const { status, recipes } = await revised('t260518zt');
    expect(status).toBe(0);
    const version = recipes.slice(recipes.indexOf('From tile t260518zt'));
    expect(version).toMatch(/cobalt-carbonate, percent: 0\.7%[^\n]*\n[^\n]*rutile, percent: 2%/);
  });

  it.each([
    ['t251212cn', {}, undefined, /does not say in tried what was changed/],
    ['t260430nv', {}, undefined, /names no recipe/],
    ['t999', {}, undefined, /t999/],
    ['t260518zt', {}, 'linen', /is of river-blue, not of linen/],
    ['t260518zt', { from: '2025-12-01' }, undefined, /is of the version from 2026-01-05/],
  ])('%s %o is refused', async (...[tile, more, recipe, words]) => {
    const { status, complaints, recipes } = await revised(tile, more, recipe);
    expect(status).toBe(2);
    expect(complaints.replace(/\s+/g, ' ')).toMatch(words);
    expect(recipes).not.toContain('From tile');
  });
});

it('check tells of a picture of more than 1 MB that git has', async () => {
  const folder = exampleCopy();
  mkdirSync(join(folder, 'pictures'));
  writeFileSync(join(folder, 'pictures', 'kiln.jpg'), Buffer.alloc(1_400_000));
  writeFileSync(join(folder, 'pictures', 'small.jpg'), Buffer.alloc(900_000));
  inGit(folder);
  const { complaints } = await runCommand('check', { as: 'text' }, { folder });
  expect(complaints.replace(/\s+/g, ' ')).toContain(
    'pictures/kiln.jpg has 1.4 MB and is in git: git keeps every version of it',
  );
  expect(complaints).not.toContain('small.jpg');
});
